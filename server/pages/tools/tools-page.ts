import type { Knowledge } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Tool, ToolPlace } from '../../../shared/tool.js'
import type { CaseState } from '../../../shared/case.js'
import { whereNow } from '../../tools/tool-life.js'
import { placeWords } from '../../forms/tool-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { stateWords } from '../layout/words.js'

/** A tool as one line of a list. */
interface ToolLine {
  readonly href: string
  readonly name: string
  readonly kind: string
  readonly where: string
}

/** Every tool of the shop. */
export interface ToolsPage {
  readonly frame: Frame
  readonly tools: readonly ToolLine[]
  /** beyond what a screen takes */
  readonly more: readonly ToolLine[]
  readonly retired: readonly ToolLine[]
  readonly added: string | null
}

const mostShown = 8

/** @param states by tool: where its cases stand */
export function toolsPage(
  knowledge: Knowledge,
  tools: readonly Tool[],
  states: ReadonlyMap<string, readonly { readonly state: CaseState }[]>,
  added: number | null = null,
): ToolsPage {
  const { kinds } = lookupOf(knowledge)
  const line = (tool: Tool): ToolLine => ({
    href: `/tools/${tool.id}`,
    name: tool.name,
    kind: kinds.get(tool.kind)?.plainName ?? tool.kind,
    where: whereWords(whereNow(tool, states.get(tool.id) ?? [])),
  })
  const kept = tools.filter(({ place }) => place !== 'retired').map(line)
  return {
    frame: plainFrame('The shop’s tools', 'tools'),
    tools: kept.slice(0, mostShown),
    more: kept.slice(mostShown),
    retired: tools.filter(({ place }) => place === 'retired').map(line),
    added: added === null ? null : `${added} ${added === 1 ? 'tool is' : 'tools are'} on the list now.`,
  }
}

export function whereWords(where: CaseState | ToolPlace): string {
  return where in placeWords ? placeWords[where as ToolPlace] : stateWords(where as CaseState)
}
