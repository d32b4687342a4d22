/**
 * When to give up: what a next step says of how the plan would end, held to what the plan says once that has happened;
 * and the minutes that it is worth, by hand.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { assess, prepare } from '../../server/diagnosis/assess.js'
import type { NextStep } from '../../shared/diagnosis.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Answer, ShopSettings, Situation } from '../../shared/situation.js'
import { smallBook, someAnswers } from '../laws/arbitraries.js'
import { cause, finding, fix, rulebook, shop, situation, step } from './small-rulebook.js'

const nextOf = async (book: Knowledge, at: Situation, by: ShopSettings): Promise<NextStep> =>
  (await assess(await prepare(book), at, by)).next

/** The situation once the step has told nothing, or the fix has changed nothing. */
function inVain(at: Situation, next: NextStep): Situation {
  const no = Object.fromEntries(next.questions.map((id): [string, Answer] => [id, 'no']))
  // what is seen speaks of the causes that the fixes so far have left
  const dated = Object.fromEntries(next.questions.map((id) => [id, at.fixesTried.length]))
  const fixed = next.step === 'fix' && next.id !== null ? [next.id] : []
  return {
    ...at,
    answers: { ...at.answers, ...no },
    answeredAfter: { ...at.answeredAfter, ...dated },
    fixesTried: [...at.fixesTried, ...fixed],
    standing: [],
  }
}

describe('one fault with one fix', () => {
  // two causes, because a kind with one has no share of tools with several; hardly ever both, and one fix for them
  const parts = rulebook({
    causes: [cause('brushes', 600), cause('springs', 400)],
    findings: [finding('cuts-out', { brushes: 0.9, springs: 0.9 })],
    steps: [step('look', ['cuts-out'])],
    fixes: [fix('new-brushes', { brushes: 0.9, springs: 0.9 }, { minutes: 5 })],
  })
  const book = {
    ...parts,
    kinds: parts.kinds.map((it) => ({ ...it, severalFaults: { ...it.severalFaults, share: 1e-4 } })),
  }
  const at = situation({ 'cuts-out': 'yes' })

  it('ends by the service if the fix fails, and is worth what it saves', async () => {
    const next = await nextOf(book, at, shop({ rate: 1, sendIn: 60, replace: 500 }))
    expect(next).toMatchObject({ step: 'fix', id: 'new-brushes', after: 'send-in' })
    // 5 minutes, and the service in 1 of 10; against the service now
    expect(next.expectedCost).toBeCloseTo(5 + 0.1 * 60, 1)
    expect(next.worthMinutes).toBeCloseTo(5 + (60 - 11), 1)
  })
  it('ends by a new tool where that is cheaper', async () => {
    const next = await nextOf(book, at, shop({ rate: 1, sendIn: 60, replace: 40 }))
    expect(next).toMatchObject({ step: 'fix', after: 'retire' })
    expect(next.worthMinutes).toBeCloseTo(5 + (40 - (5 + 0.1 * 40)), 1)
  })
  it('says no minutes where a minute costs nothing', async () => {
    expect((await nextOf(book, at, shop({ rate: 0 }))).worthMinutes).toBeNull()
  })
  it('goes on where another fix is left, and says nothing of an ending once it ends', async () => {
    const more = {
      ...book,
      fixes: [...book.fixes, fix('turn-commutator', { brushes: 0.7, springs: 0.7 }, { minutes: 8 })],
    }
    const by = shop({ rate: 1, sendIn: 60, replace: 500 })
    expect(await nextOf(more, at, by)).toMatchObject({ id: 'new-brushes', after: null })
    expect(await nextOf(book, { ...at, fixesTried: ['new-brushes'] }, by)).toMatchObject({
      step: 'send-in',
      after: null,
      worthMinutes: null,
    })
  })
})

it('a look that shows nothing leaves a fault that nobody here can fix', async () => {
  const book = rulebook({
    causes: [cause('brushes', 500), cause('winding', 500)],
    findings: [finding('brush-short', { brushes: 0.98 }, { leak: 0.01 })],
    steps: [step('look-at-brushes', ['brush-short'], { minutes: 1 })],
    fixes: [fix('new-brushes', { brushes: 0.95 }, { minutes: 20 })],
  })
  const by = shop({ rate: 1, sendIn: 40, replace: 500 })
  const next = await nextOf(book, situation({}), by)
  expect(next).toMatchObject({ step: 'check', id: 'look-at-brushes', after: 'send-in' })
  const then = await nextOf(book, inVain(situation({}), next), by)
  expect(then.step).toBe('send-in')
})

describe('what was said beforehand is what the plan says then', () => {
  /** Ways that cost within this share of each other are a tie: what comes after is judged a little coarser. */
  const nearTie = 0.05
  const anyShop = fc
    .record({
      rate: fc.double({ min: 0.2, max: 3, noNaN: true }),
      sendIn: fc.double({ min: 2, max: 60, noNaN: true }),
      replace: fc.double({ min: 2, max: 120, noNaN: true }),
    })
    .map((figures) => shop(figures))

  it('over small random rulebooks, step after step until it ends', async () => {
    let said = 0
    let held = 0
    let checked = 0
    await fc.assert(
      fc.asyncProperty(smallBook, anyShop, async (book, by) => {
        const prepared = await prepare(book)
        let at = situation({ danger: 'no' })
        for (let k = 0; k < 8; k++) {
          const { next } = await assess(prepared, at, by)
          if (next.step !== 'ask' && next.step !== 'check' && next.step !== 'fix') return
          at = inVain(at, next)
          if (next.after !== null) said++
          checked++
          const endingAt = async (times: number) => {
            const priced = { ...by, sendIn: by.sendIn * times, replace: by.replace * times }
            const { step: then } = (await assess(prepared, at, priced)).next
            return then === 'send-in' || then === 'retire' ? then : null
          }
          if ((await endingAt(1)) === next.after) {
            held++
            continue
          }
          // endings a little cheaper or dearer: where that changes the plan, the two were nearly the same
          const nearly = await Promise.all([endingAt(1 - nearTie), endingAt(1 + nearTie)])
          if (nearly.includes(next.after)) held++
        }
      }),
      { numRuns: 40 },
    )
    expect(said).toBeGreaterThan(0)
    // beforehand it is judged with a shorter look ahead: of 2000 random books about one came out otherwise (2026-11-29)
    expect(held / checked).toBeGreaterThanOrEqual(0.97)
  })

  it('is worth no fewer minutes than it takes', async () => {
    await fc.assert(
      fc.asyncProperty(smallBook, anyShop, someAnswers, async (book, by, answers) => {
        const next = await nextOf(book, situation(answers), by)
        if (next.worthMinutes !== null) expect(next.worthMinutes).toBeGreaterThanOrEqual(next.minutes)
      }),
      { numRuns: 40 },
    )
  })
})
