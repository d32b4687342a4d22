import { describe, expect, it } from 'vitest'
import type { BenchCase, CaseEvent } from '../../shared/case.js'
import type { Answer } from '../../shared/situation.js'
import { Situation } from '../../shared/situation.js'
import { undoLast } from '../../server/bench/undo-last.js'
import { caseStateOf, curedBy, situationFrom } from '../../server/cases/fold.js'
import { tinyRulebook } from './tiny-rulebook.js'

const caseOf = (...events: CaseEvent[]): BenchCase => ({
  id: 'a',
  kind: 'bench-motor',
  tool: '',
  begunAt: '2026-03-02T09:00:00.000Z',
  changedAt: '2026-03-02T09:00:00.000Z',
  events,
})
const fold = (...events: CaseEvent[]) => situationFrom(caseOf(...events), tinyRulebook)
const answered = (
  step: string,
  answers: Record<string, Answer>,
  when: 'now' | 'as-before' = 'now',
): CaseEvent => ({
  type: 'answered',
  step,
  answers,
  when,
})
const tried = (fix: string, outcome: 'cured' | 'better' | 'no' = 'no'): CaseEvent => ({
  type: 'tried',
  fix,
  outcome,
})
const tookBack = (...questions: string[]): CaseEvent => ({ type: 'took-back', questions })
const lifted: CaseEvent = { type: 'lifted', stop: 'shock', by: 'the tester' }

describe('answers', () => {
  it('knows nothing of a case in which nothing was said', () => {
    expect(fold()).toEqual(Situation.parse({ kind: 'bench-motor' }))
  })
  it('needs no second look at what was told unasked, or looked at twice', () => {
    const asked = answered('how-it-runs', { hot: 'yes', 'cuts-out': 'cant-tell' })
    expect(fold(asked).sure).toBeUndefined()
    expect(fold(answered('complaint', { hot: 'yes' })).sure).toEqual(['hot'])
    const again = answered('changed-answer', { hot: 'yes', 'cuts-out': 'no' }, 'as-before')
    expect(fold(asked, again).sure).toEqual(['hot'])
  })
  it('takes the later of two answers', () => {
    expect(
      fold(answered('how-it-runs', { hot: 'no' }), answered('how-it-runs', { hot: 'yes' })).answers,
    ).toEqual({
      hot: 'yes',
    })
  })
  it('counts the fixes that had been tried when an answer was given', () => {
    const situation = fold(
      answered('how-it-runs', { hot: 'yes' }),
      tried('new-cord'),
      answered('flex-cord', { 'cord-flex': 'no' }),
      tried('new-brushes', 'better'),
      answered('how-it-runs', { 'cuts-out': 'yes' }),
    )
    expect(situation.fixesTried).toEqual(['new-cord', 'new-brushes'])
    expect(situation.answeredAfter).toEqual({ 'cord-flex': 1, 'cuts-out': 2 })
  })
  it('lets a correction keep its place among the fixes, and a new look take a new one', () => {
    const before = [answered('how-it-runs', { hot: 'yes' }), tried('new-cord')]
    const corrected = fold(...before, answered('how-it-runs', { hot: 'no' }, 'as-before'))
    expect([corrected.answers, corrected.answeredAfter]).toEqual([{ hot: 'no' }, {}])
    expect(fold(...before, answered('how-it-runs', { hot: 'no' })).answeredAfter).toEqual({ hot: 1 })
  })
  it('takes a correction of nothing as a new answer', () => {
    expect(
      fold(tried('new-cord'), answered('how-it-runs', { hot: 'no' }, 'as-before')).answeredAfter,
    ).toEqual({ hot: 1 })
  })
  it('keeps the other answers of a screen when one is taken back', () => {
    expect(fold(answered('how-it-runs', { hot: 'yes', 'cuts-out': 'no' }), tookBack('hot')).answers).toEqual({
      'cuts-out': 'no',
    })
  })
})

describe('fixes', () => {
  it('remembers every try, the same fix twice and one that seemed to cure included', () => {
    expect(
      fold(tried('oil'), tried('oil'), tried('new-cord', 'cured'), { type: 'reopened' }).fixesTried,
    ).toEqual(['oil', 'oil', 'new-cord'])
  })
  it.each([
    ['better', 'yes'],
    ['no', 'no'],
  ] as const)(
    'records "%s" of a fix that is its own test as the answer %s, seen before that fix',
    (outcome, answer) => {
      const situation = fold(tried('new-cord'), tried('oil', outcome))
      expect(situation.answers).toEqual({ 'oil-helps': answer })
      expect(situation.answeredAfter).toEqual({ 'oil-helps': 1 })
    },
  )
  it('moves later answers down when an earlier fix was not done after all', () => {
    const situation = fold(
      tried('new-cord'),
      answered('how-it-runs', { hot: 'yes' }),
      tried('oil', 'better'),
      answered('flex-cord', { 'cord-flex': 'no' }),
      { type: 'untried', fix: 'new-cord' },
    )
    expect(situation.fixesTried).toEqual(['oil'])
    expect(situation.answeredAfter).toEqual({ 'cord-flex': 1 })
  })
  it('takes the last of two tries away, then the first', () => {
    const untried: CaseEvent = { type: 'untried', fix: 'oil' }
    const twice = [tried('oil'), answered('how-it-runs', { hot: 'yes' }), tried('oil')]
    expect(fold(...twice, untried).answeredAfter).toEqual({ hot: 1 })
    expect(fold(...twice, untried, untried)).toEqual(fold(answered('how-it-runs', { hot: 'yes' })))
  })
  it('knows what cannot be done here, until it can', () => {
    const cannot: CaseEvent = { type: 'cannot-do', id: 'look-at-brushes' }
    expect(fold(cannot).cannotDo).toEqual(['look-at-brushes'])
    expect(fold(cannot, { type: 'can-do-after-all', id: 'look-at-brushes' }).cannotDo).toEqual([])
  })
})

// A danger is not weighed: only the act that a stop names lifts it, and a danger seen again is a new one.
describe('a lifted stop', () => {
  const danger = answered('dangers', { tingle: 'yes', scorched: 'no' })
  it('stays lifted while its answer stands', () => {
    expect(fold(danger, lifted, answered('how-it-runs', { hot: 'yes' })).stopsLifted).toEqual(['shock'])
    expect(fold(danger, lifted, answered('dangers', { tingle: 'yes' }, 'as-before')).stopsLifted).toEqual([
      'shock',
    ])
  })
  it.each([
    ['taken back and given again', [tookBack('tingle'), answered('dangers', { tingle: 'yes' })]],
    ['seen again', [answered('dangers', { tingle: 'yes' })]],
    ['joined by a second danger of the same stop', [answered('dangers', { scorched: 'yes' })]],
  ])('is on again when its answer is %s', (_, later) => {
    expect(fold(danger, lifted, ...later).stopsLifted).toEqual([])
  })
  it('cannot be lifted before it is on', () => {
    expect(fold(lifted, danger).stopsLifted).toEqual([])
  })
})

// Common practice, no source: what hangs off the tool stays off until it is put together or run.
describe('set-ups that stand', () => {
  const brushes = answered('look-at-brushes', { 'brush-length': 9 })
  it('stand after a check, with those that they need', () => {
    expect(fold(brushes).standing).toEqual(['plug-out', 'caps-out'])
  })
  it('fall when the tool runs, unless it may run with them', () => {
    expect(fold(brushes, answered('run-bare', { 'rough-bare': 'no' })).standing).toEqual(['blade-off'])
    expect(fold(brushes, answered('flex-cord', { 'cord-flex': 'no' })).standing).toEqual([])
  })
  it('fall with a fix, which ends in a test run, and when the tool is put together', () => {
    expect(fold(brushes, tried('new-brushes')).standing).toEqual([])
    expect(fold(brushes, { type: 'put-together' }).standing).toEqual([])
    expect(fold(brushes, { type: 'finished', state: 'boxed-for-service' }).standing).toEqual([])
  })
  it('are not made by answers told on the complaint page, by "can\'t tell", or by a correction', () => {
    expect(fold(answered('complaint', { 'rough-bare': 'yes' })).standing).toEqual([])
    expect(fold(answered('look-at-brushes', { 'brush-length': 'cant-tell' })).standing).toEqual([])
    const put = { type: 'put-together' } as const
    expect(
      fold(brushes, put, answered('look-at-brushes', { 'brush-length': 4 }, 'as-before')).standing,
    ).toEqual([])
  })
})

describe('the state of a case', () => {
  it('is on the bench until it is finished, and again when it comes back', () => {
    const finished: CaseEvent = { type: 'finished', state: 'boxed-for-service' }
    expect(caseStateOf(caseOf())).toBe('on-the-bench')
    expect(caseStateOf(caseOf(tried('oil', 'cured')))).toBe('on-the-bench')
    expect(caseStateOf(caseOf(finished))).toBe('boxed-for-service')
    expect(caseStateOf(caseOf(finished, { type: 'reopened' }))).toBe('on-the-bench')
  })
  it('knows the fix that cured it, unless that was wrong', () => {
    const cured = tried('new-cord', 'cured')
    expect(curedBy(caseOf(tried('oil'), cured))).toBe('new-cord')
    expect(curedBy(caseOf(cured, { type: 'untried', fix: 'new-cord' }))).toBeNull()
    expect(curedBy(caseOf(cured, { type: 'reopened' }))).toBeNull()
    expect(curedBy(caseOf(cured, tried('oil', 'better')))).toBeNull()
  })
})

describe('looking further, although an ending was offered', () => {
  const further: CaseEvent = { type: 'look-further', looks: 2 }
  const wanted = (...events: CaseEvent[]) => fold(...events).looksWanted
  it('counts down by each look that is taken or cannot be', () => {
    expect(wanted()).toBe(0)
    expect(wanted(further)).toBe(2)
    expect(wanted(further, answered('how-it-runs', { hot: 'no' }))).toBe(1)
    expect(
      wanted(further, answered('how-it-runs', { hot: 'no' }), { type: 'cannot-do', id: 'flex-cord' }),
    ).toBe(0)
    expect(wanted(further, further, answered('how-it-runs', { hot: 'no' }))).toBe(1)
  })
  it('is asked for again, not owed for what came before', () => {
    expect(wanted(answered('how-it-runs', { hot: 'no' }), further)).toBe(2)
    expect(wanted(further, tried('new-cord'))).toBe(2)
  })
})

describe('looking no further', () => {
  const enough: CaseEvent = { type: 'looked-enough', so: true }
  const said = (...events: CaseEvent[]) => fold(...events).lookedEnough ?? false
  it('holds until it is taken back or something happens that may change it', () => {
    expect(said()).toBe(false)
    expect(said(enough)).toBe(true)
    expect(said(enough, { type: 'looked-enough', so: false })).toBe(false)
    expect(said(enough, tried('new-cord'))).toBe(false)
    expect(said(enough, { type: 'cannot-do', id: 'new-cord' })).toBe(false)
    expect(said(enough, { type: 'look-further', looks: 1 })).toBe(false)
  })
  it('stands over what must be settled before the fix', () => {
    expect(said(enough, answered('how-it-runs', { hot: 'no' }))).toBe(true)
  })
  it('is what Back takes back first', () => {
    const last = undoLast(caseOf(answered('how-it-runs', { hot: 'no' }), enough))
    expect(last).toEqual({ type: 'looked-enough', so: false })
  })
})
