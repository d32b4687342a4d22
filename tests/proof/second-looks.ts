/** A simulated tool of which some answers are wrong, and those that fit the others least are looked at once more. */
import { doubtOf } from '../../server/diagnosis/doubt.js'
import { weigh } from '../../server/diagnosis/posterior.js'
import { isolated, placeOf, rankRepairs } from '../../server/proof/isolation.js'
import type { RepairItems } from '../../server/proof/repair-items.js'
import type { Asker } from '../../server/simulation/interview.js'
import { interview } from '../../server/simulation/interview.js'
import type { DrawnTool } from '../../server/simulation/tool.js'
import { drawTool } from '../../server/simulation/tool.js'
import type { MarkedTool } from './marked-tool.js'

/** Nobody looks once more for ever. */
const most = 4

/**
 * @param number the tool
 * @param wrong  share of wrong answers, in [0, 1]; a second look is wrong as often as a first
 */
export async function lookedAgain(
  asker: Asker,
  items: RepairItems,
  number: number,
  wrong: number,
): Promise<MarkedTool> {
  const { model } = asker
  const tool = drawTool(model, number)
  const twice = new Set<string>()
  const seenTwice: DrawnTool = {
    ...tool,
    chance: (purpose, id) =>
      tool.chance(purpose === 'wrong' && twice.has(id) ? 'wrong once more' : purpose, id),
  }
  for (;;) {
    const { observations } = await interview(asker, seenTwice, wrong)
    const doubt =
      twice.size < most && doubtOf(model, observations, [], weigh(model, observations, []), [...twice])
    if (!doubt) {
      const ranking = rankRepairs(model, items, observations)
      return {
        ...isolated(ranking, items, tool.causes),
        causePlaces: tool.causes.map((cause) => placeOf(ranking.causes, cause)),
      }
    }
    twice.add(doubt.question)
  }
}
