/**
 * Proves that the scoring code agrees with a general-purpose library for Bayesian networks (bayesjs, from the
 * registry) on noisy-OR networks that the library sees as plain tables. First the library itself is held to
 * printed answers of published networks, so that it can be trusted to be the judge.
 */
import { describe, expect, it } from 'vitest'
import type { NoisyOrModel, Observation } from '../../server/diagnosis/noisy-or.js'
import { weigh } from '../../server/diagnosis/posterior.js'
import { generator } from '../study/random-rulebook.js'
import { beliefs, chanceOf, network } from './noisy-or-network.js'
import { alarm, belief, chestClinic, probability, sprinkler, writtenOut } from './reference-networks.js'

// Lauritzen & Spiegelhalter 1988. The rows "asia, dysp" and "asia, dysp, smoke" are printed with the
// chest-clinic example of an R package for graphical models; the others by enumeration apart from both.
describe('the library on the chest clinic', () => {
  const columns = ['tub', 'lung', 'bronc', 'either', 'xray', 'dysp', 'smoke', 'asia']
  const yes = (...ids: string[]) => Object.fromEntries(ids.map((id) => [id, true]))
  it.each([
    [{}, 1, [0.0104, 0.055, 0.45, 0.064828, 0.11029, 0.435971, 0.5, 0.01]],
    [yes('asia', 'dysp'), 0.004501375, [0.087751, 0.09952515, 0.8114021, 0.1823, 0.219539, 1, 0.62592, 1]],
    [yes('asia', 'dysp', 'smoke'), 0.0028175, [0.07276, 0.1455191, 0.8672582, 0.211003, 0.246232, 1, 1, 1]],
    [
      { ...yes('asia', 'dysp'), smoke: false },
      0.001683875,
      [0.112835, 0.022567, 0.717942, 0.134274, 0.174874, 1, 0, 1],
    ],
    [
      { ...yes('asia', 'dysp'), xray: false },
      0.003513148,
      [0.002249, 0.00255, 0.862761, 0.004672, 0, 1, 0.604512, 1],
    ],
    [yes('asia', 'xray'), 0.001450925, [0.337716, 0.371487, 0.491102, 0.690628, 1, 0.681101, 0.637007, 1]],
    [yes('dysp'), 0.4359706, [0.018845, 0.102759, 0.833967, 0.120536, 0.162098, 1, 0.633997, 0.010325]],
    [yes('xray'), 0.11029004, [0.092411, 0.488711, 0.506326, 0.57604, 1, 0.640766, 0.687754, 0.013156]],
    [yes('xray', 'dysp'), 0.070670104, [0.113933, 0.621253, 0.681869, 0.728725, 1, 1, 0.78561, 0.013984]],
    [yes('asia', 'smoke', 'dysp', 'xray'), 0.00069376, [0.289581, 0.579163, 0.70092, 0.839786, 1, 1, 1, 1]],
  ])('given %j', (evidence, chance, expected) => {
    if (chance < 1) expect(probability(chestClinic, evidence)).toBeCloseTo(chance, 6)
    columns.forEach((id, k) => {
      if (id in evidence) return
      expect(probability(chestClinic, { [id]: true }, evidence), id).toBeCloseTo(expected[k]!, 6)
      expect(belief(chestClinic, id, evidence), id).toBeCloseTo(expected[k]!, 6)
    })
  })
})

describe('the library on the burglary alarm', () => {
  const calls = { john: true, mary: true }
  it('P(burglary | both call) = .284, printed by Russell & Norvig', () => {
    expect(probability(alarm, { burglary: true }, calls)).toBeCloseTo(0.28417184, 8)
  })
  // enumeration apart from this program; P(j, m, a, ¬b, ¬e) = .000628 from memory of the same book
  it.each([
    [{ ...calls, alarm: true, burglary: false, earthquake: false }, {}, 0.00062811126],
    [{ earthquake: true }, calls, 0.17606684],
    [{ alarm: true }, calls, 0.76069204],
    [{ burglary: true }, { alarm: true, earthquake: true }, 0.00326842],
    [{ earthquake: true }, { alarm: true }, 0.2310087],
  ])('%j given %j', (asked, given, expected) => {
    expect(probability(alarm, asked, given)).toBeCloseTo(expected, 8)
  })
})

// Numbers from memory, and by enumeration
describe('the library on the sprinkler', () => {
  it.each([
    [{ wet: true }, {}, 0.6471],
    [{ sprinkler: true }, { wet: true }, 0.42976],
    [{ rain: true }, { wet: true }, 0.70793],
    [{ cloudy: true }, { wet: true }, 0.5758],
    [{ sprinkler: true }, { wet: true, rain: true }, 0.1945],
  ])('%j given %j', (asked, given, expected) => {
    expect(probability(sprinkler, asked, given)).toBeCloseTo(expected, 4)
  })
})

describe('the scoring code against the library', () => {
  // The grass is a noisy-OR of sprinkler and rain, without a leak; they hang together through the clouds, so
  // clouds and no clouds are two networks, mixed.
  it('on the sprinkler, clouds and no clouds mixed', () => {
    const cloudy = network([0.1, 0.8], [0], [[0.9, 0.9]])
    const clear = network([0.5, 0.2], [0], [[0.9, 0.9]])
    const wet: Observation[] = [{ finding: 0, present: true, after: 0 }]
    const half = [cloudy, clear].map((m) => 0.5 * chanceOf(m, wet))
    expect(half[0]! + half[1]!).toBeCloseTo(0.6471, 12)
    expect(half[0]! / (half[0]! + half[1]!)).toBeCloseTo(0.5758, 4)
    const rain = half[0]! * beliefs(cloudy, wet)[1]! + half[1]! * beliefs(clear, wet)[1]!
    expect(rain / (half[0]! + half[1]!)).toBeCloseTo(0.70793, 4)
  })

  it.each(Array.from({ length: 18 }, (_, k) => k + 1))('random noisy-OR network %i', (number) => {
    const random = generator(1000 + number * 77)
    for (let k = 0; k < 10; k++) random()
    const causes = 2 + (number % 5)
    const findings = 3 + (number % 3)
    const model: NoisyOrModel = network(
      Array.from({ length: causes }, () => 0.01 + 0.5 * random()),
      Array.from({ length: findings }, () => 0.2 * random()),
      Array.from({ length: findings }, () =>
        Array.from({ length: causes }, () => (random() < 0.6 ? random() : 0)),
      ),
    )
    const observations = model.leaks.flatMap((_, finding): Observation[] =>
      random() < 0.8 ? [{ finding, present: random() < 0.6, after: 0 }] : [],
    )
    const written = writtenOut(model)
    const given = Object.fromEntries(observations.map((o) => [`f${o.finding}`, o.present]))
    const chance = probability(written, given)
    closeTo(chanceOf(model, observations), chance)
    beliefs(model, observations).forEach((p, i) => closeTo(p, belief(written, `c${i}`, given)))
    // that one cause alone is there, and that nothing is
    const { sole, none } = weigh(model, observations, [])
    const only = (which: number) => Object.fromEntries(model.priors.map((_, j) => [`c${j}`, j === which]))
    closeTo(sole[0]!, probability(written, { ...only(0), ...given }))
    closeTo(none, probability(written, { ...only(-1), ...given }))
  })
})

function closeTo(value: number, expected: number): void {
  expect(Math.abs(value - expected)).toBeLessThanOrEqual(1e-9 * Math.max(Math.abs(expected), 1e-3))
}
