/** Models small enough for a judge: cut out of the kinds of the rulebook, or made of plain numbers. */
import { modelOf } from '../../server/diagnosis/model.js'
import type { NoisyOrModel } from '../../server/diagnosis/noisy-or.js'
import type { ExportedModel } from '../../server/interchange/network.js'
import { knowledge } from '../the-rulebook.js'

export const kinds: readonly string[] = knowledge.kinds.map(({ id }) => id)
export const wholeModel = (kind: string): ExportedModel => modelOf(knowledge, kind)

/** Some causes and findings of a model, by position, with their own numbers. */
export function cut(
  model: ExportedModel,
  causes: readonly number[],
  findings: readonly number[],
): ExportedModel {
  const of = <Thing>(list: readonly Thing[], at: readonly number[]) => at.map((k) => list[k]!)
  return {
    kind: model.kind,
    causes: of(model.causes, causes),
    priors: of(model.priors, causes),
    exclusive: of(model.exclusive, causes),
    findings: of(model.findings, findings),
    questionOf: of(model.questionOf, findings),
    leaks: of(model.leaks, findings),
    strengths: of(model.strengths, findings).map((row) => of(row, causes)),
  }
}

/** Plain numbers as causes c0, c1, … and findings f0, f1, … of a kind of tool. */
export function plainModel(numbers: NoisyOrModel): ExportedModel {
  const whole = wholeModel(kinds[0]!)
  return {
    ...numbers,
    kind: whole.kind,
    causes: numbers.priors.map((_, i) => ({
      ...whole.causes[0]!,
      id: `c${i}`,
      exclusive: numbers.exclusive[i]!,
    })),
    findings: numbers.leaks.map((_, f) => ({ ...whole.findings[0]!, id: `f${f}` })),
    questionOf: numbers.leaks.map((_, f) => `f${f}`),
  }
}

/** `count` different positions out of `length` (all of them, if there are no more), rising. */
export function drawn(random: () => number, length: number, count: number): number[] {
  const left = Array.from({ length }, (_, k) => k)
  while (left.length > count) left.splice(Math.floor(random() * left.length), 1)
  return left
}
