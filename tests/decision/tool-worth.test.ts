/** A tool's year beside a new one's. Capital recovery: (A/P, 5 %, 5) = 0.2310, as interest tables print it. */
import { expect, it } from 'vitest'
import { yearsCost } from '../../server/decision/tool-worth.js'
import { tooDearWords } from '../../server/pages/tools/tool-record-page.js'
import { Figures, usualRecord } from '../../shared/figures.js'

const figures = Figures.parse({ newPrice: 10_000, newLife: 5, newUpkeep: 500, interest: 0.05, minute: 80 })
const { currency } = usualRecord

it('is services, parts and minutes against price over life and upkeep', () => {
  const { kept, renewed } = yearsCost(figures, { services: 1200, parts: 300, minutes: 10 })
  expect(kept).toBe(1200 + 300 + 800)
  expect(renewed).toBeCloseTo(2310 + 500, -1)
  expect(tooDearWords({ kept, renewed }, currency)).toBeNull()
  expect(tooDearWords(yearsCost(figures, { services: 5200, parts: 300, minutes: 10 }), currency)).toMatch(
    /63.*28/,
  )
})
