/** What a case came to: laws over made-up cases. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BenchCase, CameBack, CaseEvent } from '../../shared/case.js'
import { CaseEvent as CaseEventShape } from '../../shared/case.js'
import { conflictAmong, conflictWith, eventProblems } from '../../server/cases/acceptable.js'
import { caseStateOf, situationFrom } from '../../server/cases/fold.js'
import { caseOfToday } from '../../server/cases/moved-ids.js'
import { confirmedOutcome, daysAway, quoteLimitOf, returnOf } from '../../server/cases/outcome.js'
import { tinyRulebook } from './tiny-rulebook.js'

const kind = 'bench-motor'
const causes = tinyRulebook.causes.map(({ id }) => id)
const said: CameBack = {
  fee: 4850,
  carriage: 900,
  left: '2026-03-02',
  back: '2026-03-10',
  mended: true,
  state: 'running-again',
}
const cameBack: fc.Arbitrary<CaseEvent> = fc
  .record(
    {
      fee: fc.integer({ min: 0, max: 20_000 }),
      carriage: fc.integer({ min: 0, max: 3000 }),
      left: fc.constant('2026-03-02'),
      back: fc.constant('2026-03-10'),
      mended: fc.boolean(),
      state: fc.constantFrom('running-again' as const, 'set-aside' as const),
      cause: fc.constantFrom(...causes),
      found: fc.constant('a coin in the fan'),
    },
    { requiredKeys: ['fee', 'carriage', 'left', 'back', 'mended', 'state'] },
  )
  .map((it) => ({ type: 'came-back' as const, ...it }))
const finished: fc.Arbitrary<CaseEvent> = fc
  .record(
    {
      state: fc.constantFrom('boxed-for-service' as const, 'set-aside' as const, 'running-again' as const),
      cause: fc.constantFrom(...causes),
    },
    { requiredKeys: ['state'] },
  )
  .map((it) => ({ type: 'finished' as const, ...it }))
const others = fc.constantFrom<CaseEvent>(
  { type: 'disinfected', done: true },
  { type: 'quote-limit', amount: 4500 },
  { type: 'quote-limit', amount: null },
  { type: 'figured', figures: { age: 3 }, forget: [] },
  { type: 'answered', step: 'complaint', answers: { 'cuts-out': 'yes' }, when: 'now' },
)
const turns = fc.oneof(
  finished,
  cameBack,
  fc.constantFrom<CaseEvent>({ type: 'reopened' }, { type: 'still-away' }),
)
const tries = fc.array(fc.oneof(turns, others), { maxLength: 16 })

/** Of the events only those that the case could take when they came, as pages and API see to it. */
const taken = (them: readonly CaseEvent[]): CaseEvent[] => {
  const events: CaseEvent[] = []
  for (const event of them)
    if (conflictWith({ events }, event, { stops: [], unsettled: [] }) === null) events.push(event)
  return events
}
const sound = tries.map(taken)
const benchOf = (events: readonly CaseEvent[]): BenchCase => ({
  id: 'a',
  kind,
  tool: '',
  begunAt: '',
  changedAt: '',
  events,
})

describe('laws of the outcome', () => {
  it('an open or boxed case has nothing from a service; an open one confirms no cause', () => {
    fc.assert(
      fc.property(sound, (events) => {
        const state = caseStateOf({ events })
        if (state === 'on-the-bench') expect(confirmedOutcome({ events })).toBeNull()
        if (state === 'on-the-bench' || state === 'boxed-for-service') expect(returnOf({ events })).toBeNull()
      }),
      { numRuns: 1000 },
    )
  })
  it('a confirmed cause was named by somebody: no cause comes out of nothing', () => {
    fc.assert(
      fc.property(sound, (events) => {
        const outcome = confirmedOutcome({ events })
        if (!outcome) return
        const type = outcome.by === 'service' ? 'came-back' : 'finished'
        expect(events.some((it) => it.type === type && 'cause' in it && it.cause === outcome.cause)).toBe(
          true,
        )
        const unnamed = events.map((it) => ('cause' in it ? { ...it, cause: undefined } : it)) as CaseEvent[]
        expect(confirmedOutcome({ events: unnamed })).toBeNull()
      }),
      { numRuns: 1000 },
    )
  })
  it('a correction leaves no trace of what it corrects, nor does a return that was none', () => {
    fc.assert(
      fc.property(sound, cameBack, cameBack, (before, first, second) => {
        const away: CaseEvent[] = [
          ...taken([...before, { type: 'reopened' }]),
          { type: 'finished', state: 'boxed-for-service' },
        ]
        const look = (events: CaseEvent[]) => [
          caseStateOf({ events }),
          confirmedOutcome({ events }),
          returnOf({ events }),
        ]
        expect(look([...away, first, second])).toEqual(look([...away, second]))
        expect(look([...away, first, { type: 'still-away' }])).toEqual(look(away))
      }),
      { numRuns: 500 },
    )
  })
  it('what is said of slip and service changes nothing of what is known of the tool', () => {
    fc.assert(
      fc.property(sound, (events) => {
        const of = (them: readonly CaseEvent[]) => {
          // whoever sends it away puts it together; that a test elsewhere looks after
          return { ...situationFrom(benchOf(them), tinyRulebook), standing: [] }
        }
        const bare = events.filter(({ type }) => !['quote-limit', 'came-back', 'still-away'].includes(type))
        expect(of(events)).toEqual(of(bare))
      }),
      { numRuns: 300 },
    )
  })
  it('the limit is the last one said', () => {
    fc.assert(
      fc.property(tries, (events) => {
        const limits = events.flatMap((it) => (it.type === 'quote-limit' ? [it.amount] : []))
        expect(quoteLimitOf({ events })).toBe(limits.at(-1) ?? null)
      }),
    )
  })
})

describe('by example', () => {
  const [one, two] = [causes[0]!, causes[1]!]
  const boxed: CaseEvent = { type: 'finished', state: 'boxed-for-service', cause: one }
  const back = (more: Partial<CameBack>): CaseEvent => ({ type: 'came-back', ...said, ...more })
  it.each<[string, CaseEvent[], unknown]>([
    ['the bench saw it', [boxed], { cause: one, by: 'bench' }],
    ['the service knows better', [boxed, back({ cause: two })], { cause: two, by: 'service' }],
    ['the service found something else', [boxed, back({ found: 'a coin' })], null],
    ['the service said nothing', [boxed, back({})], { cause: one, by: 'bench' }],
    ['its trouble is back', [boxed, back({ cause: two }), { type: 'reopened' }], null],
    [
      'it never came back',
      [boxed, back({ cause: two }), { type: 'still-away' }],
      { cause: one, by: 'bench' },
    ],
  ])('%s', (_, events, outcome) => {
    expect(confirmedOutcome({ events })).toEqual(outcome)
  })
  it('counts days over the end of a month, a leap day, and a change of clocks', () => {
    expect(daysAway({ left: '2026-02-27', back: '2026-03-02' })).toBe(3)
    expect(daysAway({ left: '2028-02-28', back: '2028-03-01' })).toBe(2)
    expect(daysAway({ left: '2026-03-28', back: '2026-03-30' })).toBe(2)
    expect(daysAway({ left: '2026-03-02', back: '2026-03-02' })).toBe(0)
  })
  it('follows a cause that the rulebook renamed', () => {
    const { events } = caseOfToday(benchOf([boxed, back({ cause: 'old-name' })]), {
      causes: { 'old-name': two },
    })
    expect(confirmedOutcome({ events })).toEqual({ cause: two, by: 'service' })
  })
})

describe('what comes in', () => {
  it.each<[string, object, boolean]>([
    ['as it should be', {}, true],
    ['free of charge', { fee: 0, carriage: 0 }, true],
    ['half a cent', { fee: 0.5 }, false],
    ['less than nothing', { carriage: -1 }, false],
    ['a day that is none', { left: '2026-02-30' }, false],
    ['a moment, not a day', { back: '2026-03-10T10:00:00Z' }, false],
    ['back on the bench by itself', { state: 'on-the-bench' }, false],
    ['a field that there is not', { stars: 5 }, false],
  ])('%s', (_, more, fits) => {
    expect(CaseEventShape.safeParse({ type: 'came-back', ...said, ...more }).success).toBe(fits)
  })
  it('not before it left, and no cause of nowhere', () => {
    const event: CaseEvent = { type: 'came-back', ...said, back: '2026-03-01', cause: 'gremlins' }
    expect(eventProblems(tinyRulebook, kind, event).map(({ path }) => path)).toEqual([['cause'], ['back']])
  })
  it('a stop that is lifted in the same breath is off; one that is not keeps it from running', () => {
    const stops = [{ id: 'shock', grade: 'set-aside' as const, now: [], firstAid: [] }]
    const away = { events: [{ type: 'finished' as const, state: 'boxed-for-service' as const }] }
    const back: CaseEvent = { type: 'came-back', ...said }
    expect(conflictAmong(away, [back], { stops, unsettled: [] })).toContain('set aside')
    expect(
      conflictAmong(away, [{ type: 'lifted', stop: 'shock', by: 'the service' }, back], {
        stops,
        unsettled: [],
      }),
    ).toBeNull()
    expect(
      conflictAmong(away, [{ ...back, state: 'set-aside' } as CaseEvent], { stops, unsettled: [] }),
    ).toBeNull()
  })
})
