/**
 * Questions that never change a decision: which repair leads, whether a danger stops the work, what else is asked.
 *
 * Exact where the answer stands alone: does the leading repair change when this is all that is known? Over simulated
 * tools beyond: does it change when this answer comes to the complaint, or when it alone is missing from all the others?
 */
import { comparisonsOf } from '../../shared/conditions.js'
import type { FaultSet } from '../../server/diagnosis/fault-sets.js'
import { searchFaultSets } from '../../server/diagnosis/fault-sets.js'
import type { KindModel } from '../../server/diagnosis/model.js'
import type { Observation } from '../../server/diagnosis/noisy-or.js'
import type { Asker, Interview } from '../../server/simulation/interview.js'
import { isolationBounds, rankingOf } from '../../server/proof/isolation.js'
import type { RepairItems } from '../../server/proof/repair-items.js'

export interface IdleSearch {
  /** takes away whatever changes the decision in this tool */
  see(told: Interview, complaint: readonly string[]): void
  /** ids of the questions that are left */
  left(): string[]
}

export function idleQuestions({ model, questions }: Asker, items: RepairItems): IdleSearch {
  const ruled = new Set(
    [...model.stops, ...model.relevance].flatMap((r) => comparisonsOf(r.when).map((c) => c.fact)),
  )
  const idle = new Set(
    questions.filter((q) => !model.findingsOfQuestion.get(q)!.some((f) => ruled.has(model.findings[f]!.id))),
  )
  const leaderOf = (sets: readonly FaultSet[]) => leading(rankingOf(sets, items).items)
  const search = (observations: readonly Observation[]) =>
    searchFaultSets(model, observations, [], isolationBounds)

  const nothing = search([])
  const first = leaderOf(nothing)
  const changesAlone = (question: string) =>
    model.findingsOfQuestion.get(question)!.some((finding) =>
      [true, false].some((present) => {
        const observation = { finding, present, after: 0 }
        return leaderOf(nothing.map((set) => withOne(model, set, observation, 1))) !== first
      }),
    )
  for (const question of [...idle]) if (changesAlone(question)) idle.delete(question)

  return {
    see({ observations }, complaint) {
      if (idle.size === 0) return
      const told = (o: Observation) => complaint.includes(model.questionOf[o.finding]!)
      const all = search(observations)
      const early = search(observations.filter(told))
      const leader = leaderOf(all)
      const earlyLeader = leaderOf(early)
      for (const observation of observations) {
        const question = model.questionOf[observation.finding]!
        if (!idle.has(question)) continue
        const without = all.map((set) => withOne(model, set, observation, -1))
        const later = early.map((set) => withOne(model, set, observation, 1))
        if (leaderOf(without) !== leader || (!told(observation) && leaderOf(later) !== earlyLeader))
          idle.delete(question)
      }
    },
    left: () => [...idle],
  }
}

/** A set's weight with one more observation, or with one taken away. */
function withOne(
  model: KindModel,
  set: FaultSet,
  { finding, present }: Observation,
  power: 1 | -1,
): FaultSet {
  const strengths = model.strengths[finding]!
  let miss = 1 - model.leaks[finding]!
  for (const cause of set.there) miss *= 1 - strengths[cause]!
  const chance = present ? 1 - miss : miss
  return { there: set.there, weight: power === 1 ? set.weight * chance : set.weight / chance }
}

function leading(weights: Float64Array): number {
  let best = 0
  for (let k = 1; k < weights.length; k++) if (weights[k]! > weights[best]!) best = k
  return best
}
