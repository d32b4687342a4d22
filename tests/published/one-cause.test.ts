/**
 * Proves that the scoring code gives the printed answers of one-cause problems: diagnostic tests, and the
 * burglary alarm seen from one cause at a time. Each two-valued cause is a noisy-OR network of one cause.
 */
import { describe, expect, it } from 'vitest'
import { beliefs, chanceOf, network, oneCause, seen } from './noisy-or-network.js'

const positive = (prior: number, ifThere: number, ifNot: number): number =>
  beliefs(oneCause(prior, [{ ifThere, ifNot }]), seen(true))[0]!
const negative = (prior: number, ifThere: number, ifNot: number): number =>
  beliefs(oneCause(prior, [{ ifThere, ifNot }]), seen(false))[0]!

describe('diagnostic tests', () => {
  it('mammography, 1 %, sensitivity 80 %, false alarms 9.6 %: 7.8 % (Eddy 1982, the form everybody quotes)', () => {
    expect(positive(0.01, 0.8, 0.096)).toBeCloseTo(0.0776398, 7)
  })

  // The question: Casscells, Schoenberger & Graboys, New England Journal of Medicine 1978. Number from memory.
  it('one in a thousand, false alarms 5 %, misses nothing: about 2 %', () => {
    expect(positive(0.001, 1, 0.05)).toBeCloseTo(0.0196271, 7)
  })

  describe('liver scan, 231 27 32 54 (Altman & Bland, BMJ 308:1552 and 309:102, 1994)', () => {
    const sensitivity = 231 / 258
    const falseAlarms = 1 - 54 / 86
    it('with the prevalence of the study, 258 in 344', () => {
      expect(positive(258 / 344, sensitivity, falseAlarms)).toBeCloseTo(231 / 263, 12)
      expect(1 - negative(258 / 344, sensitivity, falseAlarms)).toBeCloseTo(54 / 81, 12)
    })
    // .45 and .95 from memory, the further digits from the same four counts
    it('with a prevalence of one in four: 45 % and 95 %', () => {
      expect(positive(0.25, sensitivity, falseAlarms)).toBeCloseTo(0.445087, 6)
      expect(1 - negative(0.25, sensitivity, falseAlarms)).toBeCloseTo(0.947368, 6)
    })
    it('in odds: 3 to 1 times the likelihood ratio 2.40625', () => {
      const p = positive(0.75, sensitivity, falseAlarms)
      expect(p / (1 - p)).toBeCloseTo(7.21875, 10)
    })
  })
})

describe('the burglary alarm of one cause (Pearl 1988, ch. 2; numbers from memory)', () => {
  it('prior 1e-4, heard 95 in 100, false 1 in 100: .00941153', () => {
    expect(positive(1e-4, 0.95, 0.01)).toBeCloseTo(0.00941153, 8)
  })
  it('the alarm multiplies the odds by 95', () => {
    const p = positive(1e-4, 0.95, 0.01)
    expect(p / (1 - p) / (1e-4 / (1 - 1e-4))).toBeCloseTo(95, 9)
  })
})

// The table of burglary and earthquake is no noisy-OR (.95 for both, where it would be .957), so the whole
// network is left to reference.test.ts; seen from one of its causes at a time, it is one.
describe('the alarm with two neighbours (Pearl 1988; Russell & Norvig, ch. "Probabilistic reasoning")', () => {
  const burglary = 0.001
  const earthquake = 0.002
  const ifBurglary = 0.95 * earthquake + 0.94 * (1 - earthquake)
  const ifNone = 0.29 * earthquake + 0.001 * (1 - earthquake)
  const alarm = burglary * ifBurglary + (1 - burglary) * ifNone

  it('P(alarm | john, mary) = .76069204', () => {
    const neighbours = oneCause(alarm, [
      { ifThere: 0.9, ifNot: 0.05 },
      { ifThere: 0.7, ifNot: 0.01 },
    ])
    expect(beliefs(neighbours, seen(true, true))[0]).toBeCloseTo(0.76069204, 8)
    expect(chanceOf(neighbours, seen(true, null))).toBeCloseTo(0.0521389757, 10)
    expect(chanceOf(neighbours, seen(null, true))).toBeCloseTo(0.011736345, 8)
  })

  it('P(burglary | john, mary) = .284, printed; further queries', () => {
    const through = (a: number, heard: number, silent: number) => a * heard + (1 - a) * silent
    const call = (heard: number, silent: number) => ({
      ifThere: through(ifBurglary, heard, silent),
      ifNot: through(ifNone, heard, silent),
    })
    const ask = (heard: number, silent: number) =>
      beliefs(oneCause(burglary, [call(heard, silent)]), seen(true))[0]
    expect(ask(0.9 * 0.7, 0.05 * 0.01)).toBeCloseTo(0.284, 3)
    expect(ask(0.9 * 0.7, 0.05 * 0.01)).toBeCloseTo(0.28417184, 8)
    expect(ask(0.9, 0.05)).toBeCloseTo(0.01628373, 8)
    expect(ask(0.7, 0.01)).toBeCloseTo(0.05611745, 8)
    expect(ask(1, 0)).toBeCloseTo(0.37355123, 8)
  })

  it('an earthquake explains the alarm away', () => {
    expect(positive(burglary, 0.95, 0.29)).toBeCloseTo(0.00326842, 8)
  })

  it('and so it does in the nearest noisy-OR, whose other three rows are the printed ones', () => {
    const fits = (p: number) => 1 - (1 - p) / (1 - 0.001)
    const nearest = (quake: number) => network([burglary, quake], [0.001], [[fits(0.94), fits(0.29)]])
    const [unexplained] = beliefs(nearest(earthquake), seen(true))
    const [explained] = beliefs(nearest(1), seen(true))
    expect(explained).toBeLessThan(unexplained! / 50)
  })
})

// Lauritzen & Spiegelhalter, JRSS-B 50(2):157–224, 1988. "Either" is tuberculosis or lung cancer.
describe('the chest clinic, as far as one cause at a time shows it', () => {
  const xray = { ifThere: 0.98, ifNot: 0.05 }
  const lung = 0.5 * 0.1 + 0.5 * 0.01
  const either = (tub: number) => 1 - (1 - tub) * (1 - lung)

  it('P(either) and P(x-ray), nothing known', () => {
    expect(either(0.0104)).toBeCloseTo(0.064828, 9)
    expect(chanceOf(oneCause(either(0.0104), [xray]), seen(true))).toBeCloseTo(0.11029, 6)
  })
  it('P(either | x-ray) and P(either | asia, x-ray)', () => {
    expect(beliefs(oneCause(either(0.0104), [xray]), seen(true))[0]).toBeCloseTo(0.57604, 6)
    expect(beliefs(oneCause(either(0.05), [xray]), seen(true))[0]).toBeCloseTo(0.690628, 6)
  })
})
