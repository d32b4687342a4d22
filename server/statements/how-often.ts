/** How often a tool in trouble has what a finding says, and how often somebody says so unasked. */
import type { KindModel } from '../diagnosis/model.js'

/**
 * P(finding true | tool in trouble), exactly: sets of ordinary causes, or one that excludes all others.
 *
 * @param finding position in the model
 */
function chanceOf(model: KindModel, finding: number): number {
  const { priors, exclusive, leaks, strengths } = model
  const absent = 1 - leaks[finding]!
  const odds = (weigh: (cause: number) => number): number =>
    priors.reduce((product, _, cause) => (exclusive[cause] ? product : product * weigh(cause)), 1)
  const nothing = odds((cause) => 1 - priors[cause]!)
  const ordinary = 1 - nothing
  const ordinaryWithout =
    absent * (odds((cause) => 1 - priors[cause]! * strengths[finding]![cause]!) - nothing)
  let trouble = ordinary
  let without = ordinaryWithout
  priors.forEach((prior, cause) => {
    if (!exclusive[cause]) return
    const alone = (nothing * prior) / (1 - prior)
    trouble += alone
    without += alone * absent * (1 - strengths[finding]![cause]!)
  })
  return 1 - without / trouble
}

/** What a question without `unasked` has: it is seldom among the first words. */
const seldom = 0.04

/** P(somebody with a tool in trouble tells it unasked) by question id. */
export function toldOf(
  model: KindModel,
  questions: readonly { readonly id: string; readonly unasked?: number | undefined }[],
): ReadonlyMap<string, number> {
  return new Map(
    questions.map(({ id, unasked }) => {
      const findings = model.findingsOfQuestion.get(id) ?? []
      return [id, Math.max(...findings.map((finding) => chanceOf(model, finding)), 0) * (unasked ?? seldom)]
    }),
  )
}
