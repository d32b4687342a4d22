/** Use cases that tie cases to tools: whoever opens a case need not have listed the tool before. */
import type { BenchCase } from '../../shared/case.js'
import { lookupOf } from '../../shared/rulebook-index.js'
import type { Tool } from '../../shared/tool.js'
import type { AtHand } from '../wiring/deps.js'
import { freeName, toolName, toolNamed } from './tool-names.js'

/** A new case on a tool of the shop. */
export async function beginOn(hand: AtHand, tool: Tool): Promise<BenchCase> {
  const bench = await hand.cases.begin({ kind: tool.kind, tool: tool.name, at: hand.now().toISOString() })
  await hand.tools.tie(bench.id, tool.id)
  return bench
}

/**
 * A new case on a tool told by kind and name: the shop's one of that name and kind, or else one that is put on the
 * list by this. Without a name it gets one.
 */
export async function beginWith(hand: AtHand, told: { kind: string; tool: string }): Promise<BenchCase> {
  const tools = await hand.tools.list()
  const known = told.tool === '' ? undefined : toolNamed(tools, toolName(told.tool))
  if (known?.kind === told.kind && known.place !== 'retired') return beginOn(hand, known)
  const kind = lookupOf(hand.knowledge).kinds.get(told.kind)!
  const name = toolName(told.tool) || freeName(tools, kind)
  const at = hand.now().toISOString()
  const [tool] = await hand.tools.add([{ name, kind: told.kind, place: 'in-use', details: {} }], at)
  return beginOn(hand, tool!)
}

/**
 * Another name or kind for the tool of a case. The name of another tool of the shop means that one; else the tool of
 * the case is called so from now on.
 */
export async function renameOnCase(
  hand: AtHand,
  bench: BenchCase,
  to: { kind: string; tool: string },
): Promise<void> {
  const at = hand.now().toISOString()
  await hand.cases.change(bench.id, to, at)
  const name = toolName(to.tool)
  const [own, tools] = await Promise.all([hand.tools.ofCase(bench.id), hand.tools.list()])
  const other = name === '' ? undefined : toolNamed(tools, name)
  if (other && other.id !== own?.id && other.kind === to.kind) await hand.tools.tie(bench.id, other.id)
  else if (own) await hand.tools.change(own.id, { kind: to.kind, ...(name && { name }) }, at)
}

/** A case begun by mistake goes, and with it the tool that it had put on the list, if nothing else is known of it. */
export async function removeCase(hand: AtHand, bench: BenchCase): Promise<void> {
  const tool = await hand.tools.ofCase(bench.id)
  await hand.cases.remove(bench.id)
  if (!tool || tool.addedAt !== bench.begunAt || Object.keys(tool.details).length > 0) return
  const others = await hand.tools.casesOf(tool.id)
  if (others.every((id) => id === bench.id)) await hand.tools.remove(tool.id)
}
