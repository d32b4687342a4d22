/** At every level: who plays the plan's moves has 100, whoever picks blindly has not. */
import { describe, expect, it } from 'vitest'
import { kindsOf } from '../../server/practice/level-book.js'
import { scoreOf } from '../../server/practice/score.js'
import { byPlan, careful, exerciseOf, playedBy } from './bench.js'
import { knowledge, glancingRulebook } from '../the-rulebook.js'

describe.each(knowledge.levels.map((level) => [level.id, level] as const))('%s', (id, level) => {
  const kinds = kindsOf(knowledge, level)
  const exercises = [11].map((seed) =>
    exerciseOf({ kind: kinds[(seed + level.order) % kinds.length]!, level: id, seed }),
  )

  it.each(exercises)('the plan’s own moves score 100 without a slip (tool $seed)', async (exercise) => {
    const prepared = await glancingRulebook()
    const played = await playedBy(prepared, exercise, byPlan)
    expect(played.now.over).toBeDefined()
    expect(played.done.flatMap(({ slips, refused }) => [...slips, ...(refused ?? [])])).toEqual([])
    const { score, losses } = await scoreOf(played)
    expect(losses).toBe(0)
    expect(score).toBe(100)
  })

  it.each(exercises)('careful hands that pick blindly do not (tool $seed)', async (exercise) => {
    const prepared = await glancingRulebook()
    const played = await playedBy(prepared, exercise, careful(exercise.seed, 5))
    const { score, worths } = await scoreOf(played)
    // a danger sign ends it before anybody can pick
    if (played.done.length <= 3) return
    expect(score).toBeLessThan(99)
    expect(score).toBeGreaterThan(0)
    for (const worth of worths) expect(worth?.loss ?? 0).toBeGreaterThanOrEqual(0)
  })
})
