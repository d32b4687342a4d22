import type { Question, Step } from '../../../shared/knowledge.js'
import type { ItemView, Problem, Sent } from '../../forms/answer-form.js'
import { itemView } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { Drawing } from '../layout/line-drawing.js'
import { lineDrawing } from '../layout/line-drawing.js'
import type { Fact, Reason } from './next-words.js'
import { reasonFor } from './next-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { Setups } from './setups.js'
import { setupsView } from './setups.js'
import type { StopBand } from './stop-page.js'
import { stopBands } from './stop-page.js'
import type { Suspects } from './suspects.js'
import { suspectsView } from './suspects.js'
import { minutes, skillWords } from '../layout/words.js'

export interface StepPage {
  readonly frame: Frame
  readonly action: string
  readonly cannotAction: string
  readonly takeApartAction: string
  readonly seen: number
  readonly step: string
  readonly asked: string
  /** what is done with the hands, and about how long it takes */
  readonly eyebrow: string
  readonly title: string
  readonly tells: string
  readonly how: readonly string[]
  readonly drawing: Drawing | null
  readonly cautions: readonly string[]
  readonly setups: Setups
  readonly tools: string
  readonly reason: Reason
  readonly facts: readonly Fact[]
  readonly bands: readonly StopBand[]
  /** one yes-no question by three buttons; ticks, where no tick is a no; else each question by a row of three */
  readonly form: 'buttons' | 'ticks' | 'each'
  readonly items: readonly ItemView[]
  /** yes-no questions of a tick list, which can also be put among those that could not be told */
  readonly ticks: readonly ItemView[]
  readonly numbers: readonly ItemView[]
  readonly rulebook: string
  readonly suspects: Suspects
  readonly problems: readonly Problem[]
}

/** One step: what to find out, how, and why now. `asked` are the questions of the step that are still open. */
export function stepPage(
  on: OnBench,
  step: Step,
  asked: readonly Question[],
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
): StepPage {
  const { knowledge, bench, situation, assessment } = on
  const items = asked.map((question) => itemView(question, situation.answers[question.id], sent, problems))
  const numbers = items.filter(({ number }) => number !== null)
  const only = asked.length === 1 ? asked[0] : undefined
  return {
    frame: caseFrame(knowledge, bench, only?.text ?? step.title, { at: '', error: problems.length > 0 }),
    action: `/cases/${bench.id}/answers`,
    cannotAction: `/cases/${bench.id}/cannot-do`,
    takeApartAction: `/cases/${bench.id}/put-together`,
    seen: bench.events.length,
    step: step.id,
    asked: asked.map(({ id }) => id).join(','),
    eyebrow: `${eyebrowOf(step)}, ${minutes(assessment.next.minutes)}`,
    title: only?.text ?? step.title,
    tells: step.tells,
    how: step.how,
    drawing: lineDrawing(step.drawing, step.title),
    cautions: step.cautions,
    setups: setupsView(on, step.setups, step.power),
    tools: step.tools.join(', '),
    reason: reasonFor(on),
    // What any barber may do needs no line of its own.
    facts: step.skill === 'S1' ? [] : [{ term: 'Hand', words: skillWords(step.skill) }],
    bands: stopBands(on),
    form: only ? (numbers.length === 0 ? 'buttons' : 'ticks') : step.untickedMeansNo ? 'ticks' : 'each',
    items,
    ticks: items.filter(({ number }) => number === null),
    numbers,
    rulebook: `/rulebook/steps/${step.id}`,
    suspects: suspectsView(on),
    problems,
  }
}

function eyebrowOf(step: Step): string {
  if (step.form === 'ask') return 'A question'
  return step.power ? 'A check: the tool runs' : 'A check with the plug out'
}
