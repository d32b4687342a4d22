import type { Knowledge } from '../../../shared/knowledge.js'
import type { CaseSummary } from '../../cases/case-store.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame, Hang } from '../layout/frame.js'
import { plainFrame, hangOf } from '../layout/frame.js'
import { identifyPath } from '../../forms/identify-form.js'
import { lookupOf } from '../../../shared/rulebook-index.js'

export interface StartPage {
  readonly frame: Frame
  readonly kinds: readonly {
    readonly id: string
    readonly fieldId: string
    readonly name: string
    readonly plainName: string
    readonly tell: readonly string[]
    readonly works: string
    readonly drawing: string
    readonly chosen: boolean
  }[]
  /** where to find out the kind; null where there is nothing to find out or nothing to find it by */
  readonly identify: string | null
  readonly tool: string
  readonly problems: readonly Problem[]
  readonly open: readonly Hang[]
  readonly ended: readonly Hang[]
}

/** What was sent from the start page, as it was sent. */
export interface Begun {
  readonly kind: string
  readonly tool: string
}

/** The front page: which tool it is, or which open case to go on with. */
export function startPage(
  knowledge: Knowledge,
  cases: { readonly open: readonly CaseSummary[]; readonly ended: readonly CaseSummary[] },
  sent: Begun = { kind: '', tool: '' },
  problems: readonly Problem[] = [],
): StartPage {
  const only = knowledge.kinds.length === 1
  return {
    frame: plainFrame(problems.length > 0 ? 'Error: Which tool is it?' : 'Which tool is it?'),
    kinds: knowledge.kinds.map((kind) => ({
      id: kind.id,
      fieldId: `kind-${kind.id}`,
      name: kind.name,
      plainName: kind.plainName,
      tell: kind.tell,
      works: kind.works,
      drawing: kind.drawing,
      chosen: only || sent.kind === kind.id,
    })),
    identify: only || knowledge.signs.length === 0 ? null : identifyPath,
    tool: sent.tool,
    problems,
    open: cases.open.map((summary) => hangOf(knowledge, summary)),
    ended: cases.ended.map((summary) => hangOf(knowledge, summary)),
  }
}

/** Check what the start page sent. A slip is a value: each problem is tied to its field. */
export function begunFrom(knowledge: Knowledge, sent: Begun): readonly Problem[] {
  const problems: Problem[] = []
  const [first] = knowledge.kinds
  if (!lookupOf(knowledge).kinds.has(sent.kind))
    problems.push({ field: `kind-${first?.id ?? ''}`, message: 'Choose the tool that lies on the bench' })
  if (sent.tool.length > 300)
    problems.push({ field: 'tool', message: 'Give the tool a shorter name, of at most 300 characters' })
  return problems
}
