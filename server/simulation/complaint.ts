/** What a person tells unasked of a drawn tool. */
import type { KindModel } from '../diagnosis/model.js'
import type { FindingEffect } from '../diagnosis/plan/problem.js'
import { onceFor } from '../../shared/once-for.js'
import type { DrawnTool } from './tool.js'

/** Can the finding be seen with these causes there? What hides what only a running tool shows may show itself. */
export function seeing(model: KindModel, effectOfYes: readonly FindingEffect[]) {
  const hiders = effectOfYes.flatMap((effect, f) => (effect.hidesRunning ? [f] : []))
  return (tool: DrawnTool, finding: number, causes: readonly number[]): boolean =>
    !model.findings[finding]!.running || !hiders.some((hider) => tool.shows(hider, causes))
}

/** How many things people tell unasked; the study's setting (method: "2 findings told as complaint"). */
const usuallyTold = 2

/** What can be told unasked: the yes-no questions that a sense answers, each with its findings. */
const tellable = onceFor((model: KindModel) =>
  model.steps
    .flatMap((step) => step.questions)
    .filter(({ sense, kind }) => sense !== undefined && kind === 'yes-no')
    .map(({ id }) => ({ id, findings: model.findingsOfQuestion.get(id) ?? [] })),
)

/** Questions of the complaint page whose answer is seen to be yes, in an order of the tool's own; may be fewer. */
export function complaintOf(
  model: KindModel,
  tool: DrawnTool,
  seen: ReturnType<typeof seeing>,
  count = usuallyTold,
): string[] {
  return tellable(model)
    .filter(({ findings }) => findings.some((f) => tool.shows(f, tool.causes) && seen(tool, f, tool.causes)))
    .map(({ id }) => ({ id, turn: tool.chance('told', id) }))
    .sort((a, b) => a.turn - b.turn)
    .slice(0, count)
    .map(({ id }) => id)
}
