import type { Problem } from '../../forms/answer-form.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'

/** The tool's name and kind, to change; and the way out of a case begun by mistake. */
export interface ToolPage {
  readonly frame: Frame
  readonly action: string
  readonly remove: string
  readonly seen: number
  readonly tool: string
  readonly kinds: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
  readonly said: number
  readonly problems: readonly Problem[]
}

/** @param kinds every kind of the rulebook; `on` knows its own only */
export function toolPage(
  on: OnBench,
  kinds: readonly { readonly id: string; readonly plainName: string }[],
  sent: { readonly kind: string; readonly tool: string } | null = null,
  problems: readonly Problem[] = [],
): ToolPage {
  const { knowledge, bench } = on
  const home = `/cases/${bench.id}`
  return {
    frame: caseFrame(knowledge, bench, 'Name and kind', { at: '/tool', error: problems.length > 0 }),
    action: `${home}/tool`,
    remove: `${home}/remove`,
    seen: bench.events.length,
    tool: sent?.tool ?? bench.tool,
    kinds: kinds.map(({ id, plainName }) => ({
      id,
      name: plainName,
      chosen: id === (sent?.kind ?? bench.kind),
    })),
    said: bench.events.length,
    problems,
  }
}
