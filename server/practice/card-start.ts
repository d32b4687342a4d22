/** Where a card begins: the complaint told, and no danger sign. Whoever has one stops before the first question. */
import { comparisonsOf } from '../../shared/conditions.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { ShopSettings } from '../../shared/situation.js'
import { findingsFrom } from '../diagnosis/findings.js'
import { buildPlan } from '../diagnosis/plan/build.js'
import type { PlanProblem, PlanState } from '../diagnosis/plan/problem.js'
import type { PreparedKind } from '../diagnosis/prepare.js'

/** What a card reckons with, the same in every shop: a competent bench hand, and somebody who may test electrical safety. */
export const cardShop = ShopSettings.parse({ skill: 'S3', canSafetyTest: true, screens: null })

/** @throws RangeError for a complaint that the kind does not have */
export async function cardStart(
  kind: PreparedKind,
  complaint: string,
  shop: ShopSettings,
): Promise<{ problem: PlanProblem; state: PlanState }> {
  const { model } = kind
  if (!model.findingsOfQuestion.has(complaint))
    throw new RangeError(`the kind ${model.kind.id} has no complaint ${complaint}`)
  const stopping = dangerQuestions(kind)
  const answers: Record<string, Answer> = {}
  for (const step of model.steps)
    if (step.form === 'danger')
      for (const { id } of step.questions) answers[id] = stopping.has(id) ? 'no' : 'cant-tell'
  answers[complaint] = 'yes'
  const situation: Situation = {
    kind: model.kind.id,
    answers,
    fixesTried: [],
    answeredAfter: {},
    cannotDo: [],
    stopsLifted: [],
    standing: [],
    looksWanted: 0,
  }
  const { states, evidence, relevance } = await findingsFrom(model, situation)
  const barred = await kind.barred(
    shop,
    relevance.some((rule) => rule.hides.safetyTest),
  )
  const { problem, state } = buildPlan({
    prepared: kind,
    states,
    evidence,
    relevance,
    situation,
    shop,
    barred: new Set(barred.keys()),
  })
  // "better, but not gone" is no question on paper
  return { problem: { ...problem, fixes: problem.fixes.map((fix) => ({ ...fix, outcome: -1 })) }, state }
}

/** Questions of the danger step whose yes makes a stop, or bars power. */
export function dangerQuestions({ model, effectOfYes }: PreparedKind): Set<string> {
  const stopping = new Set(model.stops.flatMap(({ when }) => comparisonsOf(when).map(({ fact }) => fact)))
  const asked = model.steps.filter(({ form }) => form === 'danger').flatMap(({ questions }) => questions)
  return new Set(
    asked
      .map(({ id }) => id)
      .filter((id) =>
        (model.findingsOfQuestion.get(id) ?? []).some(
          (f) => stopping.has(model.findings[f]!.id) || effectOfYes[f]!.hidesPower,
        ),
      ),
  )
}
