/** What the shop knows of the tool of a case before anybody asks. */
import type { BenchCase } from '../../shared/case.js'
import type { SomeFigures } from '../../shared/figures.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { lookupOf } from '../../shared/rulebook-index.js'
import { dayIn } from '../care/rhythm.js'
import type { WearOdds } from '../care/wear-odds.js'
import { wearOdds } from '../care/wear-odds.js'
import type { Tool } from '../../shared/tool.js'
import type { AtHand } from '../wiring/deps.js'
import type { PastCase } from './tool-life.js'
import { figuresOfTool, pastCase } from './tool-life.js'

export interface KnownTool {
  readonly tool: Tool
  /** its other cases, lately changed first */
  readonly earlier: readonly PastCase[]
  readonly figures: SomeFigures
  /** care done or left undone, as evidence beforehand */
  readonly wear: readonly WearOdds[]
}

/** @returns null where the case is tied to no tool */
export async function knownTool(hand: AtHand, bench: BenchCase): Promise<KnownTool | null> {
  const tool = await hand.tools.ofCase(bench.id)
  if (!tool) return null
  const earlier = (await casesOfTool(hand, tool.id)).cases.filter(({ id }) => id !== bench.id)
  const today = dayIn(hand.habits.record.zone, hand.now().toISOString())
  const wear = await wearOf(hand, tool, earlier, today)
  return { tool, earlier, figures: figuresOfTool(tool, today), wear }
}

/** What the log of its care and its earlier fixes say of its wear. */
export async function wearOf(
  { care, habits, knowledge }: AtHand,
  tool: Tool,
  earlier: readonly PastCase[],
  today: string,
): Promise<readonly WearOdds[]> {
  const last = (await care.lastDone(tool.id)).get(tool.id) ?? new Map<string, string>()
  const { zone } = habits.record
  const since = last.size > 0 ? dayIn(zone, tool.addedAt) : null
  const { fixes } = lookupOf(knowledge)
  const cured = new Map<string, string>()
  for (const { changedAt, tried } of [...earlier].reverse())
    for (const { fix, outcome } of tried)
      if (outcome === 'cured')
        for (const cause of Object.keys(fixes.get(fix)?.cures ?? {})) cured.set(cause, dayIn(zone, changedAt))
  return wearOdds(bookOf(knowledge, tool.kind).care, last, since, cured, today)
}

/** What the prior odds of each cause are multiplied by. */
export const oddsOf = (known: Pick<KnownTool, 'wear'>): Record<string, number> =>
  Object.fromEntries(known.wear.map(({ cause, times }) => [cause, times]))

export interface CasesOfTool {
  /** lately changed first */
  readonly cases: readonly PastCase[]
  /** ids of those that cannot be read back: they keep nobody from the others, and their own pages say what is wrong */
  readonly unread: readonly string[]
}

export async function casesOfTool(
  hand: Pick<AtHand, 'tools' | 'cases'>,
  toolId: string,
): Promise<CasesOfTool> {
  const ids = await hand.tools.casesOf(toolId)
  const read = await Promise.allSettled(ids.map((id) => hand.cases.get(id)))
  const cases = read.flatMap((it) => (it.status === 'fulfilled' ? [it.value] : []))
  return {
    cases: cases.map(pastCase).sort((a, b) => (a.changedAt < b.changedAt ? 1 : -1)),
    unread: ids.filter((_, k) => read[k]!.status === 'rejected'),
  }
}
