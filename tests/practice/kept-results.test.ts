/** What was kept comes back as results, in the ids of today's rulebook. */
import { expect, it } from 'vitest'
import { resultsOf } from '../../server/practice/kept-results.js'
import type { ExerciseSummary } from '../../shared/practice.js'

const kept: ExerciseSummary = {
  id: 'exercise-1',
  learner: 'learner-1',
  kind: 'old-kind',
  level: 'first',
  seed: 1,
  setting: { hideSuspects: false, hidePrices: false },
  begunAt: '2026-01-05T09:00:00.000Z',
  changedAt: '2026-01-05T09:20:00.000Z',
  moveCount: 4,
  outcome: {
    over: 'hand-back',
    mended: true,
    causes: ['b'],
    suspects: ['a', 'b', 'c'],
    slips: ['old-slip'],
    spread: { points: { b: 50, c: 20 }, other: 30 },
    shown: [],
    score: null,
    lostMinutes: null,
  },
}

it('leaves out what goes on, and counts the last move as its instant', () => {
  const results = resultsOf([{ ...kept, id: 'exercise-2', outcome: null }, kept])
  expect(results).toHaveLength(1)
  expect(results[0]).toMatchObject({
    exercise: 'exercise-1',
    at: kept.changedAt,
    causes: ['b'],
    mended: true,
  })
  // Brier by hand: nobody but a is unnamed, so a has the 30: .3² + (.5 − 1)² + .2²
  expect(results[0]!.brier).toBeCloseTo(0.09 + 0.25 + 0.04, 12)
})

it('names what was renamed by its new id; of two that became one the points are added up', () => {
  const [result] = resultsOf([kept], {
    kinds: { 'old-kind': 'kind' },
    levels: {},
    causes: { c: 'b' },
    slips: { 'old-slip': 'slip' },
  })
  expect(result).toMatchObject({
    kind: 'kind',
    causes: ['b'],
    slips: ['slip'],
    spread: { points: { b: 70 }, other: 30 },
  })
  expect(result!.forecasts.map(({ cause, forecast }) => [cause, forecast])).toEqual([
    ['a', 0.3],
    ['b', 0.7],
  ])
})
