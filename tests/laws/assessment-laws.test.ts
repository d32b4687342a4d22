/**
 * Proves laws of the whole diagnosis, from answers to next step, over random small rulebooks: what is no
 * evidence changes no suspicion, what was taken back leaves no trace, and nothing that is given is changed.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { assess, prepare, score } from '../../server/diagnosis/assess.js'
import { situationFrom } from '../../server/cases/fold.js'
import type { CaseEvent } from '../../shared/case.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Situation } from '../../shared/situation.js'
import { KIND, shop, situation } from '../diagnosis/small-rulebook.js'
import { smallBook, someAnswers } from './arbitraries.js'
import { frozen } from './frozen.js'

const few = { numRuns: 25 }
const here = shop()
const suspicion = async (prepared: Prepared, of: Situation) => (await score(prepared, of)).causes

/** An assessment as plain data, reasons read and all. */
const plain = (of: Assessment): unknown => ({
  ...of,
  findings: [...of.findings],
  hidden: [...of.hidden],
  barred: [...of.barred],
  causes: of.causes.map((c) => ({ ...c, for: c.for, against: c.against })),
})

const caseOf = (events: readonly CaseEvent[]) => ({
  id: 'one',
  kind: KIND,
  tool: '',
  begunAt: '2024-01-01T00:00:00Z',
  changedAt: '2024-01-01T00:00:00Z',
  events,
})
const answered = (answers: Situation['answers']): CaseEvent => ({
  type: 'answered',
  step: 'look',
  answers: { ...answers },
  when: 'now',
})

describe('no evidence', () => {
  it('"can’t tell" changes no suspicion', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, someAnswers, async (book, answers) => {
        const prepared = await prepare(book)
        const silent = Object.fromEntries(Object.entries(answers).filter(([, a]) => a !== 'cant-tell'))
        const untold = {
          'sign-0': 'cant-tell',
          'sign-3': 'cant-tell',
          'oil-helps': 'cant-tell',
          ...silent,
        } as const
        expect(await suspicion(prepared, situation(untold))).toEqual(
          await suspicion(prepared, situation(silent)),
        )
      }),
      few,
    )
  })

  it('a finding that points to no cause of the kind changes no suspicion', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, someAnswers, async (book, answers) => {
        const prepared = await prepare(book)
        const before = await suspicion(prepared, situation({ ...answers, 'points-nowhere': 'cant-tell' }))
        for (const answer of ['yes', 'no'] as const) {
          const after = await suspicion(prepared, situation({ ...answers, 'points-nowhere': answer }))
          for (const c of before) {
            const same = after.find((other) => other.id === c.id)!
            expect(same.probability).toBeCloseTo(c.probability, 12)
            expect(same.sole).toBeCloseTo(c.sole, 12)
          }
        }
      }),
      few,
    )
  })

  it('a step or fix that cannot be done here changes no suspicion', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, someAnswers, async (book, answers) => {
        const prepared = await prepare(book)
        const cannot = situation(answers, { cannotDo: ['look', 'fix-0'] })
        expect(await suspicion(prepared, cannot)).toEqual(await suspicion(prepared, situation(answers)))
      }),
      few,
    )
  })
})

describe('order and repetition', () => {
  it('answers between the same fixes may come in any order', async () => {
    await fc.assert(
      fc.asyncProperty(
        smallBook,
        someAnswers,
        fc.infiniteStream(fc.nat()),
        async (book, answers, numbers) => {
          const prepared = await prepare(book)
          const entries = Object.entries(answers)
          const mixed = entries.map((e) => [numbers.next().value as number, e] as const)
          const shuffled = mixed.sort(([a], [b]) => a - b).map(([, e]) => e)
          const [one, other] = [entries, shuffled].map((list) => situation(Object.fromEntries(list)))
          expect(plain(await assess(prepared, one!, here))).toEqual(
            plain(await assess(prepared, other!, here)),
          )
        },
      ),
      { numRuns: 12 },
    )
  })

  it('trying the same fix twice is trying it once', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, someAnswers, async (book, answers) => {
        const prepared = await prepare(book)
        const once = situation(answers, { fixesTried: ['fix-0'], answeredAfter: { 'sign-0': 1 } })
        const twice = situation(answers, { fixesTried: ['fix-0', 'fix-0'], answeredAfter: { 'sign-0': 2 } })
        expect(await suspicion(prepared, twice)).toEqual(await suspicion(prepared, once))
      }),
      few,
    )
  })

  it('the same situation is assessed the same, whatever was assessed in between', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, someAnswers, someAnswers, async (book, answers, others) => {
        const prepared = await prepare(book)
        const first = plain(await assess(prepared, situation(answers), here))
        await assess(prepared, situation(others, { fixesTried: ['fix-1'] }), shop({ skill: 'S4' }))
        expect(plain(await assess(prepared, situation(answers), here))).toEqual(first)
      }),
      { numRuns: 8 },
    )
  })
})

describe('what was taken back', () => {
  it('leaves no trace in anything computed', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, someAnswers, someAnswers, async (book, answers, regretted) => {
        const prepared = await prepare(book)
        const slips = Object.fromEntries(Object.entries(regretted).filter(([q]) => !(q in answers)))
        fc.pre(Object.keys(slips).length > 0)
        const straight = caseOf([answered(answers)])
        const after = [
          answered(answers),
          answered(slips),
          { type: 'tried', fix: 'fix-0', outcome: 'no' },
          { type: 'cannot-do', id: 'look' },
          { type: 'took-back', questions: Object.keys(slips) },
          { type: 'untried', fix: 'fix-0' },
          { type: 'can-do-after-all', id: 'look' },
        ] satisfies CaseEvent[]
        const assessed = (events: ReturnType<typeof caseOf>) =>
          assess(prepared, situationFrom(events, book), here)
        expect(plain(await assessed(caseOf(after)))).toEqual(plain(await assessed(straight)))
      }),
      { numRuns: 12 },
    )
  })
})

describe('what is given', () => {
  it('is not written to', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, someAnswers, async (book, answers) => {
        const copy = structuredClone(book)
        const prepared = await prepare(frozen(book))
        const given = frozen(situation(answers, { fixesTried: ['fix-0'], cannotDo: ['fix-1'] }))
        await expect(assess(prepared, given, frozen(shop()))).resolves.toBeDefined()
        expect(book).toEqual(copy)
      }),
      { numRuns: 8 },
    )
  })
})
