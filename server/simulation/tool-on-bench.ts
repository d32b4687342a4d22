/** A drawn tool on the bench: what is wrong with it now, what was said of it and done to it. */
import type { Situation } from '../../shared/situation.js'
import type { PlanProblem, PlanState } from '../diagnosis/plan/problem.js'
import type { PreparedKind } from '../diagnosis/prepare.js'
import type { Person } from '../diagnosis/person.js'
import { stepAsShown } from '../diagnosis/plan/as-shown.js'
import { answerShowing, answerTable } from './answers.js'
import { complaintOf, seeing } from './complaint.js'
import type { DrawnTool } from './tool.js'

export interface ToolOnBench {
  readonly situation: Situation
  /** still there, positions */
  readonly causes: readonly number[]
  readonly trail: readonly string[]
  /** what people tell unasked, then the danger signs */
  tellComplaint(): void
  tell(questions: readonly string[]): void
  takeStep(index: number, problem: PlanProblem, state: PlanState): void
  tryFix(index: number, problem: PlanProblem): void
}

type Open<T> = { -readonly [K in keyof T]: T[K] }

/**
 * @param wrong share of answers that are the contrary of what the tool shows; the complaint is always right
 * @param told  who answers, who cannot tell everything; null: everything that can be seen is told
 */
export async function putOnBench(
  kind: PreparedKind,
  kindId: string,
  tool: DrawnTool,
  wrong: number,
  told: Person | null,
): Promise<ToolOnBench> {
  const { model } = kind
  const table = await answerTable(model)
  const seen = seeing(model, kind.effectOfYes)
  const trail: string[] = []
  const situation: Open<Situation> = {
    kind: kindId,
    answers: {},
    answeredAfter: {},
    fixesTried: [],
    cannotDo: [],
    stopsLifted: [],
    standing: [],
    looksWanted: 0,
  }
  let causes = tool.causes

  const canTell = (question: string): boolean =>
    tool.chance('tells', question) < (told?.telling.get(question)?.chance ?? 1)

  const answer = (question: string, unasked = false): void => {
    const over = model.findingsOfQuestion.get(question)
    if (!over) return
    const contrary = !unasked && tool.chance('wrong', question) < wrong
    const truths = over.map((f) => tool.shows(f, causes) !== contrary)
    const value =
      over.every((f) => seen(tool, f, causes)) && (unasked || canTell(question))
        ? answerShowing(table, question, truths, tool.chance('reading', question))
        : ('cant-tell' as const)
    if (value === undefined) return
    situation.answers = { ...situation.answers, [question]: value }
    situation.answeredAfter = { ...situation.answeredAfter, [question]: situation.fixesTried.length }
    if (value !== 'cant-tell' && value !== 'no') trail.push(`+${question}`)
  }

  /** The tool runs again although trouble is left: what hid the running findings is seen to be gone. */
  const lookWhetherItRuns = (): void =>
    kind.effectOfYes.forEach((effect, f) => {
      const question = model.questionOf[f]!
      if (!effect.hidesRunning || situation.answers[question] !== 'yes') return
      if (!tool.shows(f, causes)) answer(question)
    })

  return {
    situation,
    trail,
    get causes() {
      return causes
    },
    tellComplaint() {
      complaintOf(model, tool, seen).forEach((question) => answer(question, true))
      for (const step of model.steps) if (step.form === 'danger') step.questions.forEach((q) => answer(q.id))
    },
    tell(questions) {
      questions.forEach((question) => answer(question))
    },
    takeStep(index, problem, state) {
      const step = model.steps[index]!
      const plan = stepAsShown(problem, state, index, new Map())
      trail.push(step.id)
      const standing = (state.standing | plan.setups) & plan.keeps
      situation.standing = model.setups.filter((_, bit) => standing & (1 << bit)).map((s) => s.id)
      for (const { id } of step.questions)
        if (model.findingsOfQuestion.get(id)?.some((f) => !state.settled[f] && plan.findings.includes(f)))
          answer(id)
    },
    tryFix(index, problem) {
      const fix = model.fixes[index]!
      const { cures } = problem.fixes[index]!
      trail.push(`fix:${fix.id}`)
      if (fix.outcome && situation.answers[fix.outcome.id] === undefined) answer(fix.outcome.id)
      causes = causes.filter((c) => !tool.cures(fix.id, c, cures.get(c) ?? 0))
      situation.standing = []
      if (causes.length === 0) return
      situation.fixesTried = [...situation.fixesTried, fix.id]
      lookWhetherItRuns()
    },
  }
}
