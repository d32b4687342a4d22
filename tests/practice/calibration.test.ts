/** How sure against how right, in counts: the printed table again, and a learner who is too sure. */
import { describe, expect, it } from 'vitest'
import { calibrationOf } from '../../server/practice/calibration.js'
import { murphyParts } from '../../server/practice/confidence.js'

/**
 * Five bins worked by hand after Murphy, "A new vector partition of the probability score", Journal of Applied
 * Meteorology 12 (1973); definitions as in the documentation of SpecsVerification, BrierDecomp. Said, times, hits.
 */
export const murphyTable = [
  [0.1, 10, 1],
  [0.3, 10, 4],
  [0.5, 10, 5],
  [0.8, 10, 7],
  [0.9, 10, 10],
] as const

const recordOf = (table: readonly (readonly [number, number, number])[]) =>
  table.flatMap(([forecast, times, hits]) =>
    Array.from({ length: times }, (_, k) => ({ forecast, outcome: k < hits ? 1 : 0 })),
  )

describe('how sure against how right', () => {
  const it5 = calibrationOf(murphyParts(recordOf(murphyTable))!)

  it('counts each step of points, as the table has it', () => {
    expect(it5.steps.map(({ points, times }) => [points, times])).toEqual(
      murphyTable.map(([said, times]) => [said * 100, times]),
    )
    it5.steps.forEach(({ there }, k) => expect(there).toBeCloseTo(murphyTable[k]![2], 9))
    expect([it5.times, Math.round(it5.there)]).toEqual([50, 27])
  })

  it('holds to their word who gave 50 and more: 22 promised, 22 there', () => {
    expect(it5.sure.times).toBe(30)
    expect(it5.sure.promised).toBeCloseTo(5 + 8 + 9, 9)
    expect(it5.sure.there).toBeCloseTo(5 + 7 + 10, 9)
    // binomial: 10 · (.5 · .5 + .8 · .2 + .9 · .1)
    expect(it5.sure.chance).toBeCloseTo(Math.sqrt(5), 9)
  })

  it('knows .3397746 of what there was to know: (.0904 − .006) / .2484', () => {
    expect(it5.known).toBeCloseTo(0.3397746, 7)
    expect(it5.apart).toBeCloseTo(100 * Math.sqrt(0.006), 9)
    expect(it5.parted).toBeCloseTo(100 * Math.sqrt(0.0904), 9)
    expect(it5.spread).toBeCloseTo(100 * Math.sqrt(0.2484), 9)
  })

  it('who gives 100 and is right half the time lies 50 points apart, and knows less than nothing', () => {
    const tooSure = calibrationOf(
      murphyParts(
        recordOf([
          [1, 10, 5],
          [0, 10, 5],
        ]),
      )!,
    )
    expect(tooSure.sure).toEqual({ times: 10, promised: 10, there: 5, chance: 0 })
    expect(tooSure.apart).toBeCloseTo(50, 9)
    expect(tooSure.known).toBeCloseTo(-1, 9)
  })

  it('nothing to know is nothing known', () => {
    expect(calibrationOf(murphyParts(recordOf([[0.9, 3, 3]]))!).known).toBe(0)
  })
})
