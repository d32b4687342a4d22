/**
 * Odds and information against outside answers: a general-purpose library for Bayesian networks (bayesjs, from the
 * registry; held to printed answers in tests/published/reference.test.ts), and a textbook's worked example.
 */
import bayesjs from 'bayesjs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { kindOdds } from '../../server/identify/kind-odds.js'
import type { KindBook } from '../../server/identify/kind-odds.js'
import { expectedBits } from '../../server/identify/next-sign.js'
import { answered, sign } from './made-up-book.js'

const nobody = 'none'

/** The same book as a network that the library reads: one node for the kind, one child a sign. */
function networkOf({ kinds, signs }: KindBook): bayesjs.INetwork {
  const usual = Object.fromEntries(kinds.map((kind) => [kind.id, kind.usual! / 1000]))
  const left = 1 - Object.values(usual).reduce((a, b) => a + b)
  const states = [...kinds.map(({ id }) => id), nobody]
  const kind: bayesjs.INode = { id: 'kind', states, parents: [], cpt: { ...usual, [nobody]: left } }
  const children = signs.map((it): bayesjs.INode => ({
    id: it.id,
    states: ['yes', 'no'],
    parents: ['kind'],
    cpt: states.map((state) => {
      const yes = it.kinds[state] ?? 0.5
      return { when: { kind: state }, then: { yes, no: 1 - yes } }
    }),
  }))
  return Object.fromEntries([kind, ...children].map((node) => [node.id, node]))
}

it('the odds are those of the reference library, by its elimination of variables', () => {
  fc.assert(
    fc.property(answered, ({ book, answers }) => {
      const network = networkOf(book)
      const given = Object.fromEntries(Object.entries(answers).filter(([, it]) => it !== 'cant-tell'))
      const odds = kindOdds(book, answers)
      const ask = (kind: string): number =>
        bayesjs.inferences.variableElimination.infer(network, { kind }, given as Record<string, string>)
      for (const { id, probability } of odds.kinds) expect(probability).toBeCloseTo(ask(id), 9)
      expect(odds.none).toBeCloseTo(ask(nobody), 9)
    }),
    { numRuns: 40 },
  )
})

// T. M. Mitchell, Machine Learning, 1997: fourteen days of weather, nine fit to play on. Figures from memory of the
// book: naive Bayes for a sunny, cool, humid, windy day in section 6.9.1, information gain in section 3.4.1.
describe('the fourteen days', () => {
  const days = { play: 9, stay: 5 }
  const weather = (id: string, play: number, stay: number) =>
    sign(id, [], { kinds: { play: play / days.play, stay: stay / days.stay } })
  const [sunny, cool, humid, windy] = [
    weather('sunny', 2, 3),
    weather('cool', 3, 1),
    weather('humid', 3, 4),
    weather('windy', 3, 3),
  ]
  const book = {
    kinds: Object.entries(days).map(([id, count]) => ({ id, usual: (count / 14) * 999 })),
    signs: [sunny, cool, humid, windy],
  }

  it('are 0.795 against playing on a sunny, cool, humid, windy one', () => {
    const all = { sunny: 'yes', cool: 'yes', humid: 'yes', windy: 'yes' } as const
    const [play, stay] = kindOdds(book, all).kinds.map((it) => it.probability)
    expect(stay! / (play! + stay!)).toBeCloseTo(0.795, 3)
  })

  it.each([
    [humid, 0.151],
    [windy, 0.048],
  ])('tell by one sign what the handbook prints', (it, bits) => {
    const odds = {
      kinds: Object.entries(days).map(([id, count]) => ({ id, probability: count / 14 })),
      none: 0,
    }
    // The book cuts its figures off after three places.
    expect(Math.abs(expectedBits(it, odds) - bits)).toBeLessThan(0.001)
  })
})
