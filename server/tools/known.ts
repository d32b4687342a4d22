/** What the shop knows of the tool of a case before anybody asks. */
import type { BenchCase } from '../../shared/case.js'
import type { SomeFigures } from '../../shared/figures.js'
import type { Tool } from '../../shared/tool.js'
import type { AtHand } from '../wiring/deps.js'
import type { PastCase } from './tool-life.js'
import { figuresOfTool, pastCase } from './tool-life.js'

export interface KnownTool {
  readonly tool: Tool
  /** its other cases, lately changed first */
  readonly earlier: readonly PastCase[]
  readonly figures: SomeFigures
}

/** @returns null where the case is tied to no tool */
export async function knownTool(hand: AtHand, bench: BenchCase): Promise<KnownTool | null> {
  const tool = await hand.tools.ofCase(bench.id)
  if (!tool) return null
  const earlier = (await casesOfTool(hand, tool.id)).filter(({ id }) => id !== bench.id)
  return { tool, earlier, figures: figuresOfTool(tool, hand.now().toISOString().slice(0, 10)) }
}

/** Its cases, lately changed first. */
export async function casesOfTool(hand: AtHand, toolId: string): Promise<readonly PastCase[]> {
  const ids = await hand.tools.casesOf(toolId)
  const cases = await Promise.all(ids.map((id) => hand.cases.get(id)))
  return cases.map(pastCase).sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1))
}
