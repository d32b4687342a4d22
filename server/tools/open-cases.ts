import type { CaseSummary } from '../cases/case-store.js'
import type { Tool } from '../../shared/tool.js'
import type { AtHand } from '../wiring/deps.js'
import { whereNow } from './tool-life.js'

/** More than any shop has open at once. */
const mostOpen = 1000

/** By tool: its cases that are not done with: on the bench, boxed or set aside. */
export async function openCasesByTool({
  tools,
  cases,
}: Pick<AtHand, 'tools' | 'cases'>): Promise<ReadonlyMap<string, readonly CaseSummary[]>> {
  const [ties, open] = await Promise.all([
    tools.ties(),
    cases.list({ states: ['on-the-bench', 'boxed-for-service', 'set-aside'], most: mostOpen }),
  ])
  const byTool = new Map<string, CaseSummary[]>()
  for (const summary of open) {
    const tool = ties.get(summary.id) ?? ''
    byTool.set(tool, [...(byTool.get(tool) ?? []), summary])
  }
  return byTool
}

/** The tools but those that lie in a box for the service, whatever the shop said of their place. */
export async function toolsNotBoxed(hand: Pick<AtHand, 'tools' | 'cases'>): Promise<readonly Tool[]> {
  const [all, open] = await Promise.all([hand.tools.list(), openCasesByTool(hand)])
  return all.filter((tool) => whereNow(tool, open.get(tool.id) ?? []) !== 'boxed-for-service')
}
