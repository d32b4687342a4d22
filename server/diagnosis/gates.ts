/**
 * What must be known before something is offered: every danger line before the tool runs or is opened, some before a
 * hand is laid on it, and the questions that the thing itself names in `first`. "Can't tell" settles no danger line; it does answer a question named in `first`.
 * What was told may be normal for the tool: whether it is, is asked before hands do anything, for it saves all the rest.
 */
import { comparisonsOf } from '../../shared/conditions.js'
import type { Fix, Relevance, Step } from '../../shared/knowledge.js'
import type { Situation } from '../../shared/situation.js'
import type { KindModel } from './model.js'

/** Questions to be asked first, and the step that asks them. */
export interface Gate {
  readonly step: Step
  /** at least one, in the order of the step */
  readonly questions: readonly string[]
}

type Told = Pick<Situation, 'answers'>

/** The step that asks for the danger signs of a kind. */
export const dangerStepOf = ({ steps }: Pick<KindModel, 'steps'>): Step | undefined =>
  steps.find(({ form }) => form === 'danger')

/** Danger lines that nobody has settled by yes or no, most urgent first: "not sure" is not "no". */
export function unsettledIn(model: Pick<KindModel, 'steps'>, { answers }: Told): string[] {
  const lines = dangerStepOf(model)?.questions ?? []
  return lines.flatMap(({ id }) => (answers[id] === undefined || answers[id] === 'cant-tell' ? [id] : []))
}

/** Does the tool run while it is done, or to see whether it is cured? Every fix is proved by a run. */
const takesPower = (action: Step | Fix): boolean => 'cures' in action || action.power

/** Must the danger line be settled first? What is only asked waits for none, a look with the plug out for some. */
function waitsFor(model: KindModel, action: Step | Fix, line: string): boolean {
  if (takesPower(action) || opens(model, action)) return true
  if ('form' in action && action.form === 'ask') return false
  const over = new Set((model.findingsOfQuestion.get(line) ?? []).map((f) => model.findings[f]!.id))
  return model.stops.some(
    ({ handsOff, when }) => handsOff && comparisonsOf(when).some(({ fact }) => over.has(fact)),
  )
}

const opens = (model: KindModel, { setups }: Step | Fix): boolean =>
  model.setups.some(
    ({ id, opensBody, opensCase }) => setups.includes(id) && (opensBody || opensCase === true),
  )

/**
 * Questions whether what was told is only its normal form, as long as nothing told speaks against that: no answer that
 * a yes would exclude, and none of them answered no.
 */
function normalForms(
  { steps, findings, findingIndex, findingsOfQuestion, questionOf }: KindModel,
  { answers }: Told,
) {
  const excluded = (id: string): boolean =>
    (findingsOfQuestion.get(id) ?? []).some((f) =>
      findings[f]!.excludes?.some((other) => {
        const told = findingIndex.get(other)
        return told !== undefined && answers[questionOf[told]!] === 'yes'
      }),
    )
  const forms = steps
    .flatMap(({ questions }) => questions)
    .flatMap(({ id, normalForm }) => (normalForm && answers[id] === 'yes' ? [normalForm] : []))
  const speaksAgainst = (id: string): boolean =>
    !findingsOfQuestion.has(id) || excluded(id) || answers[id] === 'no'
  return new Set(forms.filter((form) => !form.some(speaksAgainst)).flat())
}

/**
 * What must be asked before this is offered; null where nothing is in its way.
 *
 * @param relevance the rules that hold: what they hide is not asked
 */
export function gateBefore(
  model: KindModel,
  action: Step | Fix,
  situation: Told,
  relevance: readonly Pick<Relevance, 'hides'>[],
): Gate | null {
  const danger = dangerStepOf(model)
  const unsettled = danger ? unsettledIn(model, situation).filter((id) => waitsFor(model, action, id)) : []
  if (danger && unsettled.length > 0) return { step: danger, questions: unsettled }
  const normal = normalForms(model, situation)
  const open = (id: string): boolean =>
    (action.first.includes(id) || normal.has(id)) &&
    !relevance.some(({ hides }) => hides.questions.includes(id)) &&
    situation.answers[id] === undefined &&
    model.findingsOfQuestion.has(id)
  for (const step of model.steps) {
    const questions = step.questions.flatMap(({ id }) => (open(id) ? [id] : []))
    if (questions.length > 0 && step.id !== action.id) return { step, questions }
  }
  return null
}

/** Somebody has said that the lines left open cannot be settled here: what needs the tool to run is not to be had. */
export const mustNotRun = (
  model: Pick<KindModel, 'steps'>,
  situation: Told,
  barred: ReadonlySet<string>,
): boolean => {
  const danger = dangerStepOf(model)
  return danger !== undefined && barred.has(danger.id) && unsettledIn(model, situation).length > 0
}
