/**
 * Proves that a program that knows nothing but tables comes to our scores from our file: the reference library
 * (bayesjs, from the registry; held to printed answers in tests/published/reference.test.ts), by its junction tree,
 * on parts of every kind as read back from the XML.
 */
import bayesjs from 'bayesjs'
import { expect, it } from 'vitest'
import type { Observation } from '../../server/diagnosis/noisy-or.js'
import { weigh } from '../../server/diagnosis/posterior.js'
import { modelFile } from '../../server/interchange/model-file.js'
import type { ExportedModel } from '../../server/interchange/network.js'
import { generator } from '../study/random-rulebook.js'
import { cut, drawn, kinds, plainModel, wholeModel } from './cuts.js'
import { chanceOfYes, forLibrary, readXmlbif } from './xmlbif-reader.js'

type Given = Readonly<Record<string, string>>

/** The library on the file of a model. */
function judge(model: ExportedModel) {
  const network = readXmlbif(modelFile(model, 'ab12'))
  const library = forLibrary(network)
  const named = (role: string) =>
    [...network.nodes.values()].filter((it) => it.properties.get('role') === role).map(({ name }) => name)
  return {
    causes: named('cause'),
    findings: named('finding'),
    yes: (name: string, given: Given) =>
      bayesjs.inferences.junctionTree.infer(library, { [name]: 'yes' }, given),
  }
}

const givenBy = (findings: readonly string[], observations: readonly Observation[]): Given =>
  Object.fromEntries(observations.map((o) => [findings[o.finding]!, o.present ? 'yes' : 'no']))

const inTrouble: Given = { in_trouble: 'yes' }

/** The findings that most of these causes can trip: the most entangled part there is. */
const entangled = (model: ExportedModel, causes: readonly number[], most: number): number[] =>
  model.strengths
    .map((row, f) => ({ f, ties: ties(row, causes) }))
    .sort((a, b) => b.ties - a.ties || a.f - b.f)
    .slice(0, most)
    .map(({ f }) => f)

const ties = (strengths: readonly number[], causes: readonly number[]): number =>
  causes.filter((i) => strengths[i]! > 0).length

/** The library's work doubles with every few ties more that hold eight causes together: with twenty it takes seconds. */
const mostTies = 14

/** Findings by chance that these causes can trip, as many as the library can follow. */
function loose(model: ExportedModel, causes: readonly number[], random: () => number): number[] {
  const shuffled = model.strengths
    .map((row, f) => ({ f, ties: ties(row, causes), at: random() }))
    .filter((it) => it.ties > 0)
    .sort((a, b) => a.at - b.at)
  const chosen: number[] = []
  let left = mostTies
  for (const it of shuffled) {
    if (it.ties > left || chosen.length === 12) continue
    chosen.push(it.f)
    left -= it.ties
  }
  return chosen
}

const parts = [
  { count: 4, entwined: true, withAlone: true },
  { count: 5, entwined: true, withAlone: false },
  { count: 7, entwined: false, withAlone: true },
  { count: 8, entwined: false, withAlone: false },
  { count: 8, entwined: false, withAlone: true },
]

// A part of each kind, each sort of part at least once: what kinds share is one code, and below every kind is weighed.
it.each(kinds.map((kind, k) => ({ kind, ...parts[k % parts.length]! })))(
  'a part of $kind: $count causes, entwined: $entwined, "nothing wrong" among them: $withAlone',
  ({ kind, ...part }) => {
    const whole = wholeModel(kind)
    const alone = whole.exclusive.indexOf(true)
    const random = generator(900 + 131 * part.count + (part.withAlone ? 1 : 0))
    for (let k = 0; k < 10; k++) random()
    const ordinary = whole.causes.flatMap((_, i) => (whole.exclusive[i] ? [] : [i]))
    const withAlone = part.withAlone && alone >= 0
    const causes = drawn(random, ordinary.length, part.count - (withAlone ? 1 : 0)).map((k) => ordinary[k]!)
    if (withAlone) causes.push(alone)
    const findings = part.entwined ? entangled(whole, causes, 8) : loose(whole, causes, random)
    const model = cut(whole, causes, findings)
    expect(model.causes.length).toBe(part.count)
    expect(model.findings.length).toBeGreaterThanOrEqual(4)
    const file = judge(model)
    for (let round = 0; round < 2; round++) {
      const observations = evidence(random, model, 0.2 + 0.4 * round)
      const { trouble, there } = weigh(model, observations, [])
      const given = { ...inTrouble, ...givenBy(file.findings, observations) }
      file.causes.forEach((name, i) => near(there[i]! / trouble, file.yes(name, given), name))

      const asked = new Set(observations.map((o) => o.finding))
      const open = model.findings.findIndex((_, f) => !asked.has(f))
      if (open < 0) continue
      const also = weigh(model, [...observations, { finding: open, present: true, after: 0 }], [])
      near(also.trouble / trouble, file.yes(file.findings[open]!, given), 'a finding not yet asked')
    }
  },
)

const evidence = (random: () => number, model: ExportedModel, share: number): Observation[] =>
  model.findings.flatMap((_, finding) =>
    random() < 0.75 ? [{ finding, present: random() < share, after: 0 }] : [],
  )

// What the library cannot join in a bearable time: here every set of causes is weighed by the tables alone.
it.each(kinds)('the most entwined 8 causes and 12 findings of %s', (kind) => {
  const whole = wholeModel(kind)
  const alone = whole.exclusive.indexOf(true)
  const random = generator(77)
  for (let k = 0; k < 10; k++) random()
  const ties = (i: number) => whole.strengths.filter((row) => row[i]! > 0).length
  const busiest = whole.causes.map((_, i) => i).sort((a, b) => ties(b) - ties(a) || a - b)
  const causes = [
    ...busiest.filter((i) => i !== alone).slice(0, alone < 0 ? 8 : 7),
    ...(alone < 0 ? [] : [alone]),
  ]
  const model = cut(whole, causes, entangled(whole, causes, 12))
  const network = readXmlbif(modelFile(model, 'ab12'))
  const named = (role: string) =>
    [...network.nodes.values()].filter((it) => it.properties.get('role') === role).map(({ name }) => name)
  const [names, findings, [trouble]] = [named('cause'), named('finding'), named('condition')]
  const sets = Array.from({ length: 1 << names.length }, (_, mask) => {
    const there = new Set(names.filter((_, i) => mask & (1 << i)))
    const prior = names.reduce(
      (p, name) => {
        const [yes, no] = network.nodes.get(name)!.rows[0]!
        return p * (there.has(name) ? yes! : no!)
      },
      chanceOfYes(network, trouble!, there),
    )
    return { there, prior, yes: findings.map((name) => chanceOfYes(network, name, there)) }
  })
  for (let round = 0; round < 3; round++) {
    const observations = evidence(random, model, 0.15 + 0.3 * round)
    const weighed = sets.map(({ there, prior, yes }) => ({
      there,
      weight: observations.reduce((w, o) => w * (o.present ? yes[o.finding]! : 1 - yes[o.finding]!), prior),
    }))
    const all = weighed.reduce((sum, { weight }) => sum + weight, 0)
    const ours = weigh(model, observations, [])
    names.forEach((name, i) => {
      const its = weighed.reduce((sum, { there, weight }) => (there.has(name) ? sum + weight : sum), 0)
      near(ours.there[i]! / ours.trouble, its / all, name)
    })
  }
})

// Enumerated apart from this program: Heckerman's Quickscore (UAI 1989) gives the same on these numbers
it('three causes, two findings there and one not, whether in trouble or not', () => {
  const file = judge(
    plainModel({
      priors: [0.01, 0.02, 0.05],
      exclusive: [false, false, false],
      leaks: [0.02, 0.01, 0.1],
      strengths: [
        [0.8, 0, 0.3],
        [0.5, 0.6, 0],
        [0, 0.7, 0.4],
      ],
    }),
  )
  const given = { [file.findings[0]!]: 'yes', [file.findings[1]!]: 'yes', [file.findings[2]!]: 'no' }
  const expected = [0.91264827, 0.03237023, 0.0588678]
  file.causes.forEach((name, i) => expect(file.yes(name, given)).toBeCloseTo(expected[i]!, 7))
  // P(no cause | findings) = .042633: that much is taken away once trouble is known
  expect(file.yes('in_trouble', given)).toBeCloseTo(1 - 0.042633, 6)
  file.causes.forEach((name, i) =>
    expect(file.yes(name, { ...inTrouble, ...given })).toBeCloseTo(expected[i]! / (1 - 0.042633), 5),
  )
})

// By hand: alone .3·.8·.9 = .216; the others without it .7·(1 − .72) = .196, of these the first .7·.2 = .14
it('a cause that excludes the others', () => {
  const model = plainModel({
    priors: [0.2, 0.3, 0.1],
    exclusive: [false, true, false],
    leaks: [0.05],
    strengths: [[0.5, 0, 0]],
  })
  const file = judge(model)
  expect(file.yes('cause_c1', inTrouble)).toBeCloseTo(0.216 / 0.412, 12)
  expect(file.yes('cause_c0', inTrouble)).toBeCloseTo(0.14 / 0.412, 12)
  expect(file.yes('cause_c0', { ...inTrouble, cause_c1: 'yes' })).toBe(0)
  // seen to be true: alone .05; with the first 1 − .95·.5 = .525; without it .05
  const seen = 0.216 * 0.05 + 0.14 * 0.525 + (0.196 - 0.14) * 0.05
  expect(file.yes('cause_c1', { ...inTrouble, finding_f0: 'yes' })).toBeCloseTo((0.216 * 0.05) / seen, 12)
})

/** The library's own rounding is far below this. */
function near(value: number, expected: number, what: string): void {
  expect(Math.abs(value - expected), what).toBeLessThanOrEqual(1e-9)
}
