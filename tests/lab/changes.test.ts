/** Numbers changed on trial: the same rulebook when nothing is changed, and the same posterior when a change is undone. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { strengthIn } from '../../shared/finding-rule.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { changed, leakIn, sumOfShares, type NumberChange, type Trial } from '../../server/lab/changes.js'
import { newProblems } from '../../server/lab/new-problems.js'
import { reckon } from '../../server/lab/reckon.js'
import { problemLine } from '../../server/errors.js'
import { knowledgeOf, tinyFiles, type Files } from '../rulebook/tiny-rulebook.js'

const shop = ShopSettings.parse({})
const trial = (changes: readonly NumberChange[], more: Partial<Trial> = {}): Trial => ({
  kind: 'tiny',
  onlyThisKind: false,
  changes,
  balance: null,
  ...more,
})

/** Two kinds that share findings and causes, so that a change can be for one of them. */
function twoKinds(mend: (files: Files) => void = () => {}): Knowledge {
  const files = tinyFiles()
  files.kinds['tinier'] = { ...files.kinds.tiny, name: 'Tinier clipper', order: 2 }
  for (const folder of ['setups', 'findings', 'steps', 'fixes', 'stops', 'relevance', 'care'] as const)
    for (const entry of Object.values(files[folder])) entry.kinds = ['tiny', 'tinier']
  for (const cause of Object.values(files.causes)) cause.shares.tinier = cause.shares.tiny
  mend(files)
  return knowledgeOf(files)
}
const finding = (knowledge: Knowledge, id: string) => knowledge.findings.find((it) => it.id === id)!
const cause = (knowledge: Knowledge, id: string) => knowledge.causes.find((it) => it.id === id)!

describe('no change', () => {
  it('is the same rulebook, object by object', () => {
    const book = twoKinds()
    expect(changed(book, trial([]))).toBe(book)
    expect(changed(book, trial([], { balance: 'dull-blade', onlyThisKind: true }))).toBe(book)
    const asItIs: NumberChange[] = [
      { of: 'strength', finding: 'pulls', cause: 'dull-blade', value: 0.9 },
      { of: 'strength', finding: 'pulls', cause: 'broken-cord', value: 0 },
      { of: 'leak', finding: 'pulls', value: 0.05 },
      { of: 'share', cause: 'dull-blade', value: 600 },
    ]
    expect(changed(book, trial(asItIs))).toBe(book)
  })
  it('nor is one of what the rulebook does not have', () => {
    const book = twoKinds()
    const strange: NumberChange[] = [
      { of: 'strength', finding: 'hums', cause: 'dull-blade', value: 0.5 },
      { of: 'strength', finding: 'pulls', cause: 'rust', value: 0.5 },
      { of: 'leak', finding: 'hums', value: 0.5 },
      { of: 'share', cause: 'rust', value: 5 },
    ]
    expect(changed(book, trial(strange))).toBe(book)
    expect(changed(book, trial([{ of: 'share', cause: 'dull-blade', value: 5 }], { kind: 'huge' }))).toBe(
      book,
    )
  })
})

describe('a change', () => {
  it('touches its own entry and nothing else, and leaves the rulebook it came from alone', () => {
    const book = twoKinds()
    const copy = structuredClone(book)
    const after = changed(book, trial([{ of: 'leak', finding: 'pulls', value: 0.1 }]))
    expect(finding(after, 'pulls').leak).toBe(0.1)
    expect(after.findings.filter((it, i) => it !== book.findings[i]).map(({ id }) => id)).toEqual(['pulls'])
    expect(after.causes).toBe(book.causes)
    expect(book).toEqual(copy)
  })
  it('of a number that kinds share is for all of them, or for one alone', () => {
    const book = twoKinds()
    const weaker: NumberChange = { of: 'strength', finding: 'pulls', cause: 'dull-blade', value: 0.3 }
    const leakier: NumberChange = { of: 'leak', finding: 'pulls', value: 0.1 }
    const all = finding(changed(book, trial([weaker, leakier])), 'pulls')
    expect(all).toMatchObject({ strengths: { 'dull-blade': 0.3 }, leak: 0.1 })
    const one = finding(changed(book, trial([weaker, leakier], { onlyThisKind: true })), 'pulls')
    expect([strengthIn(one, 'dull-blade', 'tiny'), strengthIn(one, 'dull-blade', 'tinier')]).toEqual([
      0.3, 0.9,
    ])
    expect([leakIn(one, 'tiny'), leakIn(one, 'tinier')]).toEqual([0.1, 0.05])
  })
  it('of a number that differs by kind already stays with its kind, and is one number again when they agree', () => {
    const book = twoKinds((it) => (it.findings.pulls.strengths['dull-blade'] = { tiny: 0.9, tinier: 0.3 }))
    const to = (value: number) =>
      finding(
        changed(book, trial([{ of: 'strength', finding: 'pulls', cause: 'dull-blade', value }])),
        'pulls',
      ).strengths
    expect(to(0.5)).toEqual({ 'dull-blade': { tiny: 0.5, tinier: 0.3 } })
    expect(to(0.3)).toEqual({ 'dull-blade': 0.3 })
    expect(to(0)).toEqual({ 'dull-blade': { tinier: 0.3 } })
  })
  it('can add a cause to a finding, and take one out', () => {
    const book = knowledgeOf(tinyFiles())
    const value = 0.4
    const more = changed(book, trial([{ of: 'strength', finding: 'pulls', cause: 'broken-cord', value }]))
    expect(finding(more, 'pulls').strengths).toEqual({ 'dull-blade': 0.9, 'broken-cord': 0.4 })
    const less = changed(book, trial([{ of: 'strength', finding: 'pulls', cause: 'dull-blade', value: 0 }]))
    expect(finding(less, 'pulls').strengths).toEqual({})
  })
  it('of a share leaves the sum as it comes out, or takes the difference from one cause', () => {
    const book = knowledgeOf(tinyFiles())
    const more: NumberChange = { of: 'share', cause: 'broken-cord', value: 350 }
    expect(sumOfShares(changed(book, trial([more])), 'tiny')).toBe(1050)
    const even = changed(book, trial([more], { balance: 'dull-blade' }))
    expect(sumOfShares(even, 'tiny')).toBe(1000)
    expect(cause(even, 'dull-blade').shares['tiny']).toBe(550)
  })
})

describe('the checks of npm run check:rules', () => {
  const lines = (...changes: NumberChange[]) => {
    const book = knowledgeOf(tinyFiles())
    return newProblems(book, changed(book, trial(changes))).map(problemLine)
  }
  it('are run over the changed rulebook, and only what is new is told', () => {
    expect(lines()).toEqual([])
    expect(lines({ of: 'share', cause: 'broken-cord', value: 350 })).toEqual([
      expect.stringMatching(/kinds\/tiny\.json.*sum to 1050, not 1000/),
    ])
    expect(lines({ of: 'leak', finding: 'blade-thin', value: 0.6 })).toEqual([
      expect.stringMatching(/findings\/blade-thin\.json: strengths\.dull-blade: 0\.5 is not above the leak/),
    ])
    expect(lines({ of: 'strength', finding: 'pulls', cause: 'dull-blade', value: 0.4 })).toEqual([
      expect.stringMatching(/causes\/dull-blade\.json: nothing confirms it/),
    ])
  })
  it('tell of a share that takes more from a cause than it has, with which nothing is worked out', async () => {
    const book = knowledgeOf(tinyFiles())
    const greedy = trial([{ of: 'share', cause: 'dull-blade', value: 750 }], { balance: 'nothing-wrong' })
    const after = changed(book, greedy)
    expect(newProblems(book, after).map(problemLine)).toEqual([
      'rules/causes/nothing-wrong.json: shares.tiny: must be above 0, and is -50; correct the number',
    ])
    expect(await reckon(after, Situation.parse({ kind: 'tiny' }), shop)).toBeNull()
  })
})

describe('laws', () => {
  const book = twoKinds()
  const change = fc.oneof(
    fc
      .tuple(
        fc.constantFrom(...book.findings),
        fc.constantFrom(...book.causes),
        fc.integer({ min: 0, max: 999 }),
      )
      .map(([f, c, n]): NumberChange => ({ of: 'strength', finding: f.id, cause: c.id, value: n / 1000 })),
    fc
      .tuple(fc.constantFrom(...book.findings), fc.integer({ min: 1, max: 999 }))
      .map(([f, n]): NumberChange => ({ of: 'leak', finding: f.id, value: n / 1000 })),
    fc
      .tuple(fc.constantFrom(...book.causes), fc.integer({ min: 1, max: 800 }))
      .map(([c, value]): NumberChange => ({ of: 'share', cause: c.id, value })),
  )
  const back = (it: NumberChange): NumberChange => {
    if (it.of === 'share') return { ...it, value: cause(book, it.cause).shares['tiny']! }
    const rule = finding(book, it.finding)
    if (it.of === 'leak') return { ...it, value: leakIn(rule, 'tiny') }
    return { ...it, value: strengthIn(rule, it.cause, 'tiny') ?? 0 }
  }
  const situation = Situation.parse({ kind: 'tiny', answers: { pulls: 'yes', 'cord-damaged': 'no' } })

  it('a change and then back again: the same numbers, and the same posterior to the last digit', async () => {
    const before = await reckon(book, situation, shop)
    await fc.assert(
      fc.asyncProperty(
        fc.array(change, { minLength: 1, maxLength: 6 }),
        fc.boolean(),
        async (changes, onlyThisKind) => {
          const there = changed(book, trial(changes, { onlyThisKind }))
          const again = changed(there, trial(changes.map(back), { onlyThisKind }))
          const after = await reckon(again, situation, shop)
          for (const { id } of book.findings)
            for (const { id: c } of book.causes)
              expect(strengthIn(finding(again, id), c, 'tiny')).toBe(strengthIn(finding(book, id), c, 'tiny'))
          expect(after!.assessment.causes.map(({ id, probability }) => [id, probability])).toEqual(
            before!.assessment.causes.map(({ id, probability }) => [id, probability]),
          )
          expect(after!.before).toEqual(before!.before)
        },
      ),
      { numRuns: 60 },
    )
  })

  it('only one kind: the other kind’s numbers never change', () => {
    fc.assert(
      fc.property(fc.array(change, { maxLength: 8 }), (changes) => {
        const after = changed(book, trial(changes, { onlyThisKind: true }))
        for (const rule of book.findings) {
          expect(leakIn(finding(after, rule.id), 'tinier')).toBe(leakIn(rule, 'tinier'))
          for (const { id } of book.causes)
            expect(strengthIn(finding(after, rule.id), id, 'tinier')).toBe(strengthIn(rule, id, 'tinier'))
        }
        expect(sumOfShares(after, 'tinier')).toBe(1000)
      }),
    )
  })

  it('shares that all grow alike change nothing: only their proportions count', async () => {
    const doubled = book.causes.map(({ id, shares }): NumberChange => ({
      of: 'share',
      cause: id,
      value: shares['tiny']! / 2,
    }))
    const [one, two] = [
      await reckon(book, situation, shop),
      await reckon(changed(book, trial(doubled)), situation, shop),
    ]
    two!.assessment.causes.forEach(({ probability }, i) =>
      expect(probability).toBeCloseTo(one!.assessment.causes[i]!.probability, 12),
    )
  })

  // Bayes by hand, two causes of which one shows the sign: the odds of the two go with the ratio of the chances.
  it('a stronger sign raises what it points to', async () => {
    const chance = async (value: number) => {
      const after = changed(book, trial([{ of: 'strength', finding: 'pulls', cause: 'dull-blade', value }]))
      const reckoned = await reckon(after, situation, shop)
      return reckoned!.assessment.causes.find(({ id }) => id === 'dull-blade')!.probability
    }
    const chances = [await chance(0.06), await chance(0.3), await chance(0.6), await chance(0.95)]
    expect(chances).toEqual([...chances].sort((a, b) => a - b))
    expect(new Set(chances).size).toBe(4)
  })
})

it('shares of which no priors can be made are told as such, not thrown', async () => {
  const book = knowledgeOf(tinyFiles())
  const lopsided = changed(
    book,
    trial([
      { of: 'share', cause: 'dull-blade', value: 1000 },
      { of: 'share', cause: 'broken-cord', value: 0.1 },
    ]),
  )
  expect(await reckon(lopsided, Situation.parse({ kind: 'tiny' }), shop)).toBeNull()
})
