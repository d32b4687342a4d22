/** Isolation by posterior, against sums over all that can be. */
import { describe, expect, it } from 'vitest'
import fc from 'fast-check'
import type { NoisyOrModel, Observation } from '../../server/diagnosis/noisy-or.js'
import { weigh } from '../../server/diagnosis/posterior.js'
import { isolated, placeOf, rankRepairs } from '../../server/proof/isolation.js'
import { markCase } from '../../server/proof/mark-case.js'
import type { RepairItems } from '../../server/proof/repair-items.js'
import { repairItems } from '../../server/proof/repair-items.js'
import { sharesWithin } from '../../server/proof/shares.js'
import { proofAsker } from '../../server/proof/proof-asker.js'
import { askerOf } from '../../server/simulation/interview.js'
import { modelOf } from '../../server/diagnosis/model.js'
import { cause, finding, fix, KIND, rulebook, step } from '../diagnosis/small-rulebook.js'
import { randomlyScored } from '../diagnosis/random-model.js'
import { knowledge } from '../the-rulebook.js'

/** Every set of causes that can be, with what it and its repairs weigh under these observations: the definition. */
function allSets(model: NoisyOrModel, observations: readonly Observation[], items: RepairItems) {
  const sets: { there: number[]; weight: number }[] = []
  for (let mask = 1; mask < 1 << model.priors.length; mask++) {
    const there = [...model.priors.keys()].filter((i) => mask & (1 << i))
    if (there.length > 1 && there.some((i) => model.exclusive[i])) continue
    let weight = model.priors.reduce((w, p, i) => w * (there.includes(i) ? p : 1 - p), 1)
    for (const { finding: f, present } of observations) {
      const miss = there.reduce((q, i) => q * (1 - model.strengths[f]![i]!), 1 - model.leaks[f]!)
      weight *= present ? 1 - miss : miss
    }
    sets.push({ there, weight })
  }
  const repairs = items.ids.map((_, item) =>
    sets.reduce(
      (sum, { there, weight }) => (there.some((c) => items.of[c] === item) ? sum + weight : sum),
      0,
    ),
  )
  return { sets, repairs }
}

describe('the posterior of a repair', () => {
  it('is the chance that some cause which it is for is there', () => {
    for (let seed = 0; seed < 60; seed++) {
      const { model, observations } = randomlyScored(seed, {
        causes: 6,
        positives: 3,
        negatives: 3,
        exclusive: seed % 2,
      })
      const items = { ids: ['a', 'b', 'c'], of: [0, 1, 2, 0, 1, 2] }
      const { items: found, total } = rankRepairs(model, items, observations)
      const { repairs, sets } = allSets(model, observations, items)
      const all = sets.reduce((sum, { weight }) => sum + weight, 0)
      // five and six faults at once are left out: two in a thousand at these priors
      repairs.forEach((weight, item) => expect(found[item]! / total).toBeCloseTo(weight / all, 1.7))
    }
  })
})

describe('a place', () => {
  it('is 1 for the likeliest, and the worse one among equals', () => {
    expect([0, 1, 2, 3].map((k) => placeOf([0.5, 0.2, 0.2, 0.1], k))).toEqual([1, 3, 3, 4])
  })

  const items = { ids: ['a', 'b', 'c', 'd'], of: [0, 1, 2, 3, 0] }
  const ranking = { items: Float64Array.of(0.9, 0.1, 0.5, 0.3), causes: new Float64Array(5), total: 1 }
  it.each([
    ['one fault, first', [0], { places: [1], within: 1, inTurn: 1, repairs: 1 }],
    ['one fault, last', [1], { places: [4], within: 4, inTurn: 4, repairs: 1 }],
    ['two faults, one repair', [0, 4], { places: [1, 1], within: 1, inTurn: 1, repairs: 1 }],
    ['two faults, the first two', [0, 2], { places: [1, 2], within: 2, inTurn: 1, repairs: 2 }],
    [
      'two faults, one repair of neither between',
      [0, 3],
      { places: [1, 3], within: 3, inTurn: 2, repairs: 2 },
    ],
    ['three faults', [1, 2, 3], { places: [4, 2, 3], within: 4, inTurn: 2, repairs: 3 }],
  ])('%s', (_, causes, expected) => {
    expect(isolated(ranking, items, causes)).toEqual(expected)
  })

  it('in turn is never more than at once, and at once never less than the repairs needed', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 5, maxLength: 5 }),
        fc.uniqueArray(fc.nat(4), { minLength: 1, maxLength: 4 }),
        (weights, causes) => {
          const each = { ids: ['a', 'b', 'c', 'd', 'e'], of: [0, 1, 2, 3, 4] }
          const it = isolated(
            { items: Float64Array.from(weights), causes: new Float64Array(5), total: 1 },
            each,
            causes,
          )
          expect(it.inTurn).toBeLessThanOrEqual(it.within)
          expect(it.within).toBeGreaterThanOrEqual(it.repairs)
        },
      ),
    )
  })
})

it('a repair is the fix that cures best, or what a service can do', () => {
  const model = modelOf(
    rulebook({
      causes: [cause('a', 40), cause('b', 30), cause('c', 20, { service: 'retire' }), cause('d', 10)],
      findings: [],
      fixes: [fix('clean', { a: 0.3, b: 0.9 }), fix('renew', { a: 0.9 })],
    }),
    KIND,
  )
  const { ids, of } = repairItems(model)
  expect(of.map((item) => ids[item])).toEqual(['renew', 'clean', 'retire', 'send-in'])
})

describe('isolation over simulated tools', () => {
  /**
   * The worked example of fault isolation (see ambiguity.test.ts), signs nearly certain and one fault at a time: rates
   * 40, 25, 15, 10, 6 with signs 100, 110, 110, 011, 011. By posterior the commoner of a group comes first, so of 96
   * tools 40 + 25 + 10 = 75 are isolated to one repair, and all to two.
   */
  it('comes out as worked by hand', async () => {
    const sure = 0.999
    const book = rulebook({
      causes: [40, 25, 15, 10, 6].map((share, i) => cause(`f${i + 1}`, share)),
      findings: [
        finding('s1', { f1: sure, f2: sure, f3: sure }, { leak: 0.001 }),
        finding('s2', { f2: sure, f3: sure, f4: sure, f5: sure }, { leak: 0.001 }),
        finding('s3', { f4: sure, f5: sure }, { leak: 0.001 }),
      ],
      steps: [step('look', ['s1', 's2', 's3'])],
      fixes: ['f1', 'f2', 'f3', 'f4', 'f5'].map((id) => fix(`mend-${id}`, { [id]: 0.9 })),
    })
    const model = modelOf(book, KIND)
    const asker = await askerOf(model, new Set())
    const items = repairItems(model)
    const within: number[] = []
    for (let number = 0; within.length < 3000; number++) {
      const marked = await markCase(asker, items, model, number)
      if (marked.repairs === 1) within.push(marked.within)
    }
    const [first, second] = sharesWithin(within)
    expect(Math.abs(first.mean - 75 / 96)).toBeLessThan(4 * first.se)
    expect(second.mean).toBeGreaterThan(0.99)
  })

  it('agrees with the sum over every tool that can be', async () => {
    const book = rulebook({
      causes: [cause('a', 50), cause('b', 30), cause('c', 20)],
      findings: [
        finding('x', { a: 0.8, b: 0.3 }, { leak: 0.1 }),
        finding('y', { b: 0.7, c: 0.4 }, { leak: 0.2 }),
        finding('z', { c: 0.9 }, { leak: 0.05 }),
      ],
      steps: [step('look', ['x', 'y', 'z'])],
      fixes: [fix('one', { a: 0.9, b: 0.9 }), fix('two', { c: 0.9 })],
    })
    const model = modelOf(book, KIND)
    const items = repairItems(model)
    let exact = 0
    let all = 0
    for (let answers = 0; answers < 8; answers++) {
      const observations = [0, 1, 2].map((f) => ({
        finding: f,
        present: Boolean(answers & (1 << f)),
        after: 0,
      }))
      const { sets, repairs } = allSets(model, observations, items)
      for (const { there, weight } of sets) {
        all += weight
        const worst = Math.max(...there.map((c) => placeOf(repairs, items.of[c]!)))
        if (worst <= 1) exact += weight
      }
    }
    const asker = await askerOf(model, new Set())
    const within: number[] = []
    for (let number = 0; number < 5000; number++)
      within.push((await markCase(asker, items, model, number)).within)
    const [first] = sharesWithin(within)
    expect(Math.abs(first.mean - exact / all)).toBeLessThan(4 * first.se)
  })

  it('ranks the causes of the real rulebook as the exact score does', async () => {
    const asker = await proofAsker(knowledge, knowledge.kinds[0]!.id)
    const items = repairItems(asker.model)
    let exact = 0
    let sameLeader = 0
    for (let number = 0; number < 75; number++) {
      const { told, ranking } = await markCase(asker, items, asker.model, number)
      if (told.observations.filter((o) => o.present).length > 13) continue
      const weights = weigh(asker.model, told.observations, [])
      const leader = weights.there.indexOf(Math.max(...weights.there))
      exact++
      if (placeOf(ranking.causes, leader) === 1) sameLeader++
      weights.there.forEach((weight, c) =>
        expect(ranking.causes[c]! / ranking.total).toBeCloseTo(weight / weights.trouble, 1.5),
      )
    }
    expect(exact).toBeGreaterThanOrEqual(15)
    expect(sameLeader).toBe(exact)
  })
})
