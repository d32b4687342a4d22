import { expect, it } from 'vitest'
import fc from 'fast-check'
import { meanOf, sharesWithin, stratifiedMean } from '../../server/proof/shares.js'

// By hand: 2, 4, 9 have mean 5, squares 9 + 1 + 16 = 26 about it, variance 13, standard error √(13/3).
it('a mean with its standard error', () => {
  expect(meanOf([2, 4, 9])).toEqual({ mean: 5, se: expect.closeTo(Math.sqrt(13 / 3), 12) })
  expect(meanOf([7])).toEqual({ mean: 7, se: 0 })
})

// Cochran, Sampling Techniques, ch. 5: Σ W·ȳ, and Σ W²·s²/n. By hand: 0.75·2 + 0.25·10 = 4; s² = 2 and 8, n = 2 each.
it('a stratified mean with its standard error', () => {
  const { mean, se } = stratifiedMean([
    { share: 0.75, values: [1, 3] },
    { share: 0.25, values: [8, 12] },
  ])
  expect(mean).toBeCloseTo(4, 12)
  expect(se).toBeCloseTo(Math.sqrt(0.75 ** 2 * 1 + 0.25 ** 2 * 4), 12)
})

it('borrows the spread for a stratum of one: of the others, or of all', () => {
  // s² of the first is 2: 0.5²·1 + 0.5²·2 ; of 4 and 8 together s² is 8: 0.5²·8·2
  const one = stratifiedMean([
    { share: 0.5, values: [1, 3] },
    { share: 0.5, values: [7] },
  ])
  expect(one.se).toBeCloseTo(Math.sqrt(0.25 * 1 + 0.25 * 2), 12)
  const all = stratifiedMean([
    { share: 0.5, values: [4] },
    { share: 0.5, values: [8] },
  ])
  expect(all.se).toBeCloseTo(2, 12)
})

it('is the plain mean where the strata are as they come', () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 2, maxLength: 9 }),
      fc.array(fc.double({ min: -50, max: 50, noNaN: true }), { minLength: 2, maxLength: 9 }),
      (one, other) => {
        const all = one.length + other.length
        const { mean } = stratifiedMean([
          { share: one.length / all, values: one },
          { share: other.length / all, values: other },
        ])
        expect(mean).toBeCloseTo(meanOf([...one, ...other]).mean, 9)
      },
    ),
  )
})

it('shares within one, two and three', () => {
  expect(sharesWithin([1, 1, 2, 5]).map(({ mean }) => mean)).toEqual([0.5, 0.75, 0.75])
})
