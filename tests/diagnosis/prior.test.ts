/**
 * Proves that the shares of the rulebook are scaled by one factor a kind so that the stated share of troubled
 * tools has several causes, by adding up all sets of causes; and on the real rulebook, by the sum over sizes.
 */
import { describe, expect, it } from 'vitest'
import { calibratedPriors } from '../../server/diagnosis/prior.js'
import { severalShare } from '../../shared/several-faults.js'
import { modelOf } from '../../server/diagnosis/model.js'
import { generator } from '../study/random-rulebook.js'
import { knowledge } from '../the-rulebook.js'

/** P(two or more | at least one), every set of causes weighed. */
function severalByEnumeration(priors: readonly number[], exclusive: readonly boolean[]): number {
  let several = 0
  let trouble = 0
  for (let mask = 1; mask < 1 << priors.length; mask++) {
    const set = priors.flatMap((_, i) => (mask & (1 << i) ? [i] : []))
    if (set.length > 1 && set.some((i) => exclusive[i])) continue
    const weight = priors.reduce((w, p, i) => w * (set.includes(i) ? p : 1 - p), 1)
    trouble += weight
    if (set.length > 1) several += weight
  }
  return several / trouble
}

describe('the scale of the priors', () => {
  const random = generator(77)
  const cases = Array.from({ length: 20 }, (_, k) => {
    const n = 3 + (k % 9)
    const shares = Array.from({ length: n }, () => 60 + 400 * random())
    const exclusive = shares.map((_, i) => i === 0 && k % 2 === 1)
    return { shares, exclusive, target: 0.02 + 0.1 * random() }
  })
  it.each(cases)('hits the target $target', ({ shares, exclusive, target }) => {
    const priors = calibratedPriors(shares, exclusive, target)
    expect(Math.abs(severalByEnumeration(priors, exclusive) - target)).toBeLessThan(1e-9)
    expect(Math.abs(severalShare(priors, exclusive) - severalByEnumeration(priors, exclusive))).toBeLessThan(
      1e-12,
    )
    // one factor for all
    const factor = priors[0]! / shares[0]!
    priors.forEach((p, i) => {
      expect(p / shares[i]!).toBeCloseTo(factor, 12)
      expect(p).toBeGreaterThan(0)
      expect(p).toBeLessThan(1)
    })
  })

  it('by hand: two causes of equal share p have both with p²/(1 − (1 − p)²)', () => {
    const [p] = calibratedPriors([500, 500], [false, false], 0.1)
    expect(p! ** 2 / (1 - (1 - p!) ** 2)).toBeCloseTo(0.1, 12)
    expect(p).toBeCloseTo(2 / 11, 9) // p/(2 − p) = 1/10
  })

  it('one cause cannot be several: refused', () => {
    expect(() => calibratedPriors([1000], [false], 0.1)).toThrow(RangeError)
    expect(() => calibratedPriors([500, 500], [false, true], 0.1)).toThrow(RangeError)
  })
})

describe('the real rulebook', () => {
  const model = modelOf(knowledge, 'universal-motor')
  it('has the stated share of tools with several causes, by the sum over the number of causes', () => {
    // chance of 0, 1, 2, … ordinary causes, cause by cause
    let sizes = [1]
    let exclusiveOdds = 0
    model.priors.forEach((p, i) => {
      if (model.exclusive[i]) exclusiveOdds += p / (1 - p)
      else sizes = [...sizes, 0].map((w, k) => w * (1 - p) + (sizes[k - 1] ?? 0) * p)
    })
    const ordinary = 1 - sizes[0]!
    const trouble = ordinary + sizes[0]! * exclusiveOdds
    expect((ordinary - sizes[1]!) / trouble).toBeCloseTo(model.kind.severalFaults.share, 9)
  })
})
