/** One simulated tool, everything answered, and how well its faults stand out. */
import type { Asker, Interview } from '../simulation/interview.js'
import { interview } from '../simulation/interview.js'
import type { DrawnTool, ToolModel } from '../simulation/tool.js'
import { drawTool } from '../simulation/tool.js'
import type { Isolated, Ranking } from './isolation.js'
import { isolated, placeOf, rankRepairs } from './isolation.js'
import type { RepairItems } from './repair-items.js'

export interface MarkCase extends Isolated {
  readonly tool: DrawnTool
  readonly told: Interview
  readonly ranking: Ranking
  /** by fault there: its place among all causes */
  readonly causePlaces: readonly number[]
}

/**
 * @param world  what the tool is drawn from; the asker's model, or one that is off from it
 * @param number the tool
 * @param wrong  share of wrong answers, in [0, 1]
 */
export async function markCase(
  asker: Asker,
  items: RepairItems,
  world: ToolModel,
  number: number,
  wrong = 0,
): Promise<MarkCase> {
  const tool = drawTool(world, number)
  const told = await interview(asker, tool, wrong)
  const ranking = rankRepairs(asker.model, items, told.observations)
  return {
    tool,
    told,
    ranking,
    ...isolated(ranking, items, tool.causes),
    causePlaces: tool.causes.map((cause) => placeOf(ranking.causes, cause)),
  }
}
