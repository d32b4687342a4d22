/** A step as its screen shows it in a state: the few questions that still matter, and what they cost to answer. */
import type { ClassCache, Doubt, PlanClasses } from './doubt.js'
import { doubtOf, findingTells, planClasses } from './doubt.js'
import { isWitness } from './outcomes.js'
import type { PlanProblem, PlanState, PlanStep } from './problem.js'

export interface AsShown {
  /** with the findings that are asked about only, and what it costs with those lines */
  readonly step: PlanStep
  /** by how much it lowers the doubt at most; never more than there is */
  readonly tells: number
}

/** A line that lowers the doubt by less than this share of it changes nothing that is done next. */
const idle = 0.002

/**
 * Of the questions that are open, those that tell most about the plan, `mostAsked` at most and none that is idle while
 * another is not. What may stop the work is always among them.
 */
export function asShown(
  problem: PlanProblem,
  state: PlanState,
  classes: PlanClasses,
  doubt: Doubt,
  step: PlanStep,
): AsShown {
  const open = step.findings.filter((f) => !state.settled[f])
  const lines: { findings: number[]; stops: boolean; tells: number }[] = []
  let all = 0
  for (const findings of problem.lines.get(step)!) {
    const line = { findings: [] as number[], stops: false, tells: 0 }
    for (const f of findings) {
      if (state.settled[f]) continue
      line.findings.push(f)
      line.stops ||= problem.effectOfYes[f]!.stops || problem.effectOfNo[f]!.stops
      if (isWitness(problem, f, open))
        line.tells += problem.tell[f]! * findingTells(problem, state, classes, doubt, f)
    }
    if (line.findings.length > 0) lines.push(line)
    all += line.tells
  }
  if (problem.mostAsked === Infinity) return { step, tells: Math.min(all, doubt.spread) }

  lines.sort((a, b) => Number(b.stops) - Number(a.stops) || b.tells - a.tells)
  const telling = lines.filter(({ stops, tells }) => stops || tells > idle * doubt.spread)
  const asked = (telling.length > 0 ? telling : lines.slice(0, 1)).slice(0, problem.mostAsked)
  return {
    step: {
      ...step,
      findings: open.filter((f) => asked.some(({ findings }) => findings.includes(f))),
      cost: step.cost + step.line * asked.length,
      line: 0,
    },
    tells: Math.min(
      asked.reduce((sum, { tells }) => sum + tells, 0),
      doubt.spread,
    ),
  }
}

/** The same for a step by its number. */
export function stepAsShown(problem: PlanProblem, state: PlanState, s: number, cache: ClassCache): PlanStep {
  if (problem.mostAsked === Infinity) return problem.steps[s]!
  const classes = planClasses(problem, state, cache)
  return asShown(problem, state, classes, doubtOf(state, classes), problem.steps[s]!).step
}
