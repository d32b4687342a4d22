/** Whose complaint a card is for: the simulated tools that come in with it, and which complaints are common. */
import { onceFor } from '../../shared/once-for.js'
import type { KindModel } from '../diagnosis/model.js'
import type { PreparedKind } from '../diagnosis/prepare.js'
import { complaintOf, seeing } from '../simulation/complaint.js'
import type { DrawnTool } from '../simulation/tool.js'
import { drawTool } from '../simulation/tool.js'

/**
 * Tools of a kind whose owner would say this first, the same ones each time.
 *
 * @param from number of the first one
 * @param most tools drawn before giving up
 */
export function toolsTelling(
  { model, effectOfYes }: PreparedKind,
  complaint: string,
  count: number,
  from: number,
  most = 20_000,
): DrawnTool[] {
  const seen = seeing(model, effectOfYes)
  const tools: DrawnTool[] = []
  for (let n = from; n < from + most && tools.length < count; n++) {
    const tool = drawTool(model, n)
    if (firstComplaint(model, tool, seen) === complaint) tools.push(tool)
  }
  return tools
}

/** Questions about how it came about, which is no complaint. */
const storiesOf = onceFor(
  ({ steps }: KindModel): ReadonlySet<string> =>
    new Set(
      steps.flatMap(({ questions }) =>
        questions.filter(({ sense }) => sense === 'story').map(({ id }) => id),
      ),
    ),
)

/** What is told first of what is seen, heard or felt. */
const firstComplaint = (model: KindModel, tool: DrawnTool, seen: ReturnType<typeof seeing>) =>
  complaintOf(model, tool, seen, Infinity).find((id) => !storiesOf(model).has(id))

/** The commonest first complaints of a kind, commonest first, over so many drawn tools; what the danger step asks is none. */
export function commonestComplaints(kind: PreparedKind, count: number, tools = 1500): string[] {
  const { model } = kind
  const seen = seeing(model, kind.effectOfYes)
  const dangers = new Set(
    model.steps
      .filter(({ form }) => form === 'danger')
      .flatMap(({ questions }) => questions.map(({ id }) => id)),
  )
  const times = new Map<string, number>()
  for (let n = 1; n <= tools; n++) {
    const told = firstComplaint(model, drawTool(model, n), seen)
    if (told !== undefined && !dangers.has(told)) times.set(told, (times.get(told) ?? 0) + 1)
  }
  return [...times]
    .sort((a, b) => b[1] - a[1])
    .slice(0, count)
    .map(([id]) => id)
}
