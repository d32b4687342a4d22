/** Care as evidence beforehand: the ratio of Weibull hazards, h(t) = (β/η)(t/η)^(β−1). */
import { describe, expect, it } from 'vitest'
import { hazardRatio, mostTimes, wearOdds } from '../../server/care/wear-odds.js'
import { score } from '../../server/diagnosis/assess.js'
import { Situation } from '../../shared/situation.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

describe('the ratio of hazards', () => {
  it('is that of the handbook values, whatever η: shape 1.5, scale 5000, hours 1000, 5000, 10000', () => {
    // tests/published has the same law: h = 1.341641e-4, 3.0e-4, 4.242641e-4
    expect(hazardRatio(1000, 5000, 1.5)).toBeCloseTo(1.341641e-4 / 3.0e-4, 6)
    expect(hazardRatio(10000, 5000, 1.5)).toBeCloseTo(4.242641e-4 / 3.0e-4, 6)
  })

  it('is 1 on the usual day, and stays within its bounds', () => {
    expect(hazardRatio(30, 30, 2.5)).toBe(1)
    expect(hazardRatio(0, 30, 2)).toBe(1 / mostTimes)
    expect(hazardRatio(30_000, 30, 2)).toBe(mostTimes)
  })
})

describe('care of the rulebook', () => {
  const { care } = bookOf(knowledge, 'universal-motor')
  const oil = care.find(({ resets }) => 'dry-bearing' in resets)!
  const oddsAfter = (
    last: ReadonlyMap<string, string>,
    since: string | null,
    cured = new Map<string, string>(),
  ) => wearOdds(care, last, since, cured, '2026-07-01').find(({ cause }) => cause === 'dry-bearing')

  it('says nothing where no log is kept', () => {
    expect(oddsAfter(new Map(), null)).toBeUndefined()
  })

  it('left undone raises, done lowers, and a fix that cured begins it anew', () => {
    expect(oddsAfter(new Map([[oil.id, '2026-03-01']]), null)!.times).toBeGreaterThan(2)
    expect(oddsAfter(new Map([[oil.id, '2026-06-28']]), null)!.times).toBeLessThan(0.5)
    expect(oddsAfter(new Map(), '2026-01-01')!.times).toBe(mostTimes)
    const cured = new Map([['dry-bearing', '2026-06-28']])
    expect(oddsAfter(new Map([[oil.id, '2026-03-01']]), null, cured)!.times).toBeLessThan(0.5)
  })

  it('never done as far as the log goes back can raise, and never lowers', () => {
    expect(oddsAfter(new Map(), '2026-06-20')).toBeUndefined()
    expect(oddsAfter(new Map(), '2026-04-01')).toMatchObject({ done: false, days: 91 })
  })

  it('that begins the same wear anew counts from the last of it, by the round that is usual', () => {
    const often = { ...oil, id: 'often', everyDays: 7, resets: { 'dry-bearing': 2 } }
    const seldom = { ...oil, id: 'seldom', everyDays: 182, resets: { 'dry-bearing': 2 } }
    const last = new Map([
      ['often', '2026-05-01'],
      ['seldom', '2026-06-24'],
    ])
    const [odds, ...others] = wearOdds([often, seldom], last, null, new Map(), '2026-07-01')
    expect(others).toEqual([])
    expect(odds).toMatchObject({ days: 7, times: 1, done: true })
  })

  it('moves the score the same way, and nothing else changes an untouched tool', async () => {
    const prepared = await preparedRulebook()
    const plain = Situation.parse({ kind: 'universal-motor' })
    const of = async (odds?: Record<string, number>) =>
      (await score(prepared, odds ? { ...plain, odds } : plain)).causes.find(
        ({ id }) => id === 'dry-bearing',
      )!.probability
    const usual = await of()
    expect(await of({ 'dry-bearing': 4 })).toBeGreaterThan(usual * 2)
    expect(await of({ 'dry-bearing': 0.25 })).toBeLessThan(usual / 2)
    expect(await of({ 'dry-bearing': 1 })).toBeCloseTo(usual, 12)
  })
})
