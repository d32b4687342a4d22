/** Can a cause be confirmed at all? */
import type { Asker } from '../../server/simulation/interview.js'
import { interview } from '../../server/simulation/interview.js'
import { drawTool } from '../../server/simulation/tool.js'
import { rankRepairs } from '../../server/proof/isolation.js'
import { repairItems } from '../../server/proof/repair-items.js'

/** A cause counts as confirmed once it is at least this likely. */
const sure = 0.9

/** Share of tools with this cause alone in which it is confirmed with everything answered. */
export async function confirmedShare(asker: Asker, cause: number, tools: number): Promise<number> {
  const items = repairItems(asker.model)
  let confirmed = 0
  for (let number = 0; number < tools; number++) {
    const tool = { ...drawTool(asker.model, number, cause), causes: [cause] }
    const { observations } = await interview(asker, tool)
    const { causes, total } = rankRepairs(asker.model, items, observations)
    if (causes[cause]! >= sure * total) confirmed++
  }
  return confirmed / tools
}
