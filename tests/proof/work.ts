/** From complaint to end: what it takes, per cause and over all. */
import type { Estimate, Work } from '../../shared/proof.js'
import { decide } from '../../server/diagnosis/plan/choice.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import { keyOf } from '../../server/simulation/chance.js'
import type { Course, Policy } from '../../server/simulation/course.js'
import { runCourse } from '../../server/simulation/course.js'
import type { DrawnTool } from '../../server/simulation/tool.js'
import { drawTool, mainShares } from '../../server/simulation/tool.js'
import type { Losses } from './confusions.js'
import { addLosses } from './confusions.js'
import { proofShop } from '../../server/proof/proof-asker.js'
import { stratifiedMean } from '../../server/proof/shares.js'

/** The product's own plan, by somebody who takes an ending that is offered. */
const ownPlan: Policy = (problem, state, dropped) => {
  const { best, outlook, offers } = decide(problem, state, dropped)
  return offers ? { kind: 'end', index: outlook.end } : best.action
}

export type WorkDone = Pick<Course, 'end' | 'screens' | 'fixes' | 'minutes' | 'cost'>

export async function workOn(
  prepared: Prepared,
  kind: string,
  tool: DrawnTool,
  wrong = 0,
  losses?: Losses,
): Promise<WorkDone> {
  const { end, screens, fixes, minutes, cost } = await runCourse({
    prepared,
    kind,
    shop: proofShop,
    tool,
    policy: ownPlan,
    wrong,
    ...(losses ? { onAct: (act) => addLosses(losses, act) } : {}),
  })
  return { end, screens, fixes, minutes, cost }
}

/** The k-th tool with this main cause; the same whatever else is in the rulebook. */
export function toolOfCause(prepared: Prepared, kind: string, cause: number, k: number): DrawnTool {
  const { model } = kindOf(prepared, kind)
  return drawTool(model, (keyOf(model.causes[cause]!.id) + k) >>> 0, cause)
}

/** Fewest tools a cause, where there are enough to share out. */
const fewest = 3

/** By cause: how many of about `total` tools to take to the end, so that common causes count more and rare ones enough. */
export function toolsPerCause(prepared: Prepared, kind: string, total: number): number[] {
  const shares = mainShares(kindOf(prepared, kind).model)
  const least = Math.min(fewest, Math.max(1, Math.floor(total / shares.length)))
  return Array.from(shares, (share) => Math.max(least, Math.round(share * total)))
}

export interface Stratum {
  /** of troubled tools; the shares of all strata sum to 1 */
  readonly share: number
  readonly done: readonly WorkDone[]
}

export function workOf(strata: readonly Stratum[]): Work {
  const mean = (value: (done: WorkDone) => number): Estimate =>
    stratifiedMean(strata.map(({ share, done }) => ({ share, values: done.map(value) })))
  return {
    steps: mean((d) => d.screens),
    fixes: mean((d) => d.fixes),
    minutes: mean((d) => d.minutes),
    cost: mean((d) => d.cost),
    mended: mean((d) => Number(d.end === 'cured')),
    sentIn: mean((d) => Number(d.end === 'sent-in' || d.end === 'retired')),
    setAside: mean((d) => Number(d.end === 'set-aside')),
  }
}
