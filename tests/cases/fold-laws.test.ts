/** Laws of the fold, over generated cases. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BenchCase, CaseEvent } from '../../shared/case.js'
import { situationFrom } from '../../server/cases/fold.js'
import { questionsOf } from '../../server/cases/acceptable.js'
import { tinyRulebook } from './tiny-rulebook.js'

const kind = 'bench-motor'
const steps = tinyRulebook.steps
// `oil-helps` is answered by trying `oil`; its answer goes with the fix and is left out of these laws.
const questions = [...questionsOf(tinyRulebook, kind).keys()].filter((id) => id !== 'oil-helps')
const fixes = tinyRulebook.fixes.map(({ id }) => id)

const answered = fc
  .record({
    step: fc.constantFrom('complaint', ...steps.map(({ id }) => id)),
    answers: fc.dictionary(fc.constantFrom(...questions), fc.constantFrom('yes', 'no', 'cant-tell'), {
      minKeys: 1,
      maxKeys: 3,
    }),
    when: fc.constantFrom('now', 'as-before'),
  })
  .map((it) => ({ type: 'answered' as const, ...it }))
const tried = fc
  .record({ fix: fc.constantFrom(...fixes), outcome: fc.constantFrom('cured', 'better', 'no') })
  .map((it) => ({ type: 'tried' as const, ...it }))
const others = fc.constantFrom<CaseEvent>(
  { type: 'lifted', stop: 'shock', by: 'the tester' },
  { type: 'cannot-do', id: 'look-at-brushes' },
  { type: 'can-do-after-all', id: 'look-at-brushes' },
  { type: 'put-together' },
  { type: 'finished', state: 'set-aside' },
  { type: 'reopened' },
)
const event: fc.Arbitrary<CaseEvent> = fc.oneof(
  { weight: 5, arbitrary: answered },
  { weight: 2, arbitrary: tried },
  { weight: 2, arbitrary: others },
)
const events = fc.array(event, { maxLength: 14 })

const fold = (them: readonly CaseEvent[]) => {
  const benchCase: BenchCase = { id: 'a', kind, tool: '', begunAt: '', changedAt: '', events: them }
  return situationFrom(benchCase, tinyRulebook)
}

/** The same case in which these questions were never answered. */
const without = (them: readonly CaseEvent[], gone: readonly string[]): CaseEvent[] =>
  them.flatMap((it): CaseEvent[] => {
    if (it.type !== 'answered') return [it]
    const answers = Object.fromEntries(Object.entries(it.answers).filter(([id]) => !gone.includes(id)))
    return Object.keys(answers).length === 0 ? [] : [{ ...it, answers }]
  })

describe('laws of the fold', () => {
  it('an answer that was taken back leaves no trace', () => {
    fc.assert(
      fc.property(events, events, fc.subarray(questions, { minLength: 1 }), (before, after, gone) => {
        const tookBack: CaseEvent = { type: 'took-back', questions: gone }
        expect(fold([...before, tookBack, ...after])).toEqual(fold([...without(before, gone), ...after]))
      }),
      { numRuns: 1000 },
    )
  })
  it('a fix that was not done after all leaves no trace', () => {
    fc.assert(
      fc.property(events, tried, events, events, (before, it, between, after) => {
        const later = between.filter((other) => other.type !== 'tried' || other.fix !== it.fix)
        const untried: CaseEvent = { type: 'untried', fix: it.fix }
        expect(fold([...before, it, ...later, untried, ...after])).toEqual(
          fold([...before, ...later, ...after]),
        )
      }),
      { numRuns: 1000 },
    )
  })
  it('what is said later never changes what was known, but for the question that it answers', () => {
    fc.assert(
      fc.property(events, event, (before, last) => {
        const known = fold(before)
        const now = fold([...before, last])
        const touched = new Set(
          last.type === 'answered' ? Object.keys(last.answers) : last.type === 'tried' ? ['oil-helps'] : [],
        )
        for (const id of Object.keys(known.answers).filter((question) => !touched.has(question))) {
          expect(now.answers[id]).toBe(known.answers[id])
          expect(now.answeredAfter[id]).toBe(known.answeredAfter[id])
        }
        expect(now.fixesTried.slice(0, known.fixesTried.length)).toEqual(known.fixesTried)
      }),
      { numRuns: 1000 },
    )
  })
  it('no answer is dated after more fixes than were tried', () => {
    fc.assert(
      fc.property(events, (them) => {
        const { answers, answeredAfter, fixesTried } = fold(them)
        for (const [question, after] of Object.entries(answeredAfter)) {
          expect(answers).toHaveProperty([question])
          expect(after).toBeLessThanOrEqual(fixesTried.length)
        }
      }),
      { numRuns: 500 },
    )
  })
})
