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
import type { ListenView } from './listen-view.js'
import { listenView } from './listen-view.js'
import type { Setups } from './setups.js'
import { setupsView } from './setups.js'
import type { StopBand } from './stop-page.js'
import { stopBands } from './stop-page.js'
import type { Suspects } from './suspects.js'
import { suspectsView } from './suspects.js'
import { skillWords } from '../layout/words.js'
import type { HowTo } from './how-to.js'
import { howTo, splitCautions } from './how-to.js'
import type { SoFar } from './so-far.js'
import { soFar } from './so-far.js'

export interface StepPage {
  readonly frame: Frame
  readonly action: string
  readonly cannotAction: string
  readonly takeApartAction: string
  readonly seen: number
  readonly step: string
  readonly asked: string
  readonly title: string
  /** what an earlier answer said that this one is held against; null when it is asked for the first time */
  readonly again: string | null
  readonly tells: string
  readonly drawing: Drawing | null
  /** does the picture come after the lines? Beside so many it would push one under the buttons, to be denied unseen */
  readonly drawingLast: boolean
  /** those that stand where the hands are, unfolded */
  readonly cautions: readonly string[]
  readonly setups: Setups
  readonly howTo: HowTo
  readonly reason: Reason
  readonly facts: readonly Fact[]
  readonly bands: readonly StopBand[]
  /** one yes-no question by three buttons; one reading; else statements to tick, with the rest said by the button */
  readonly form: 'buttons' | 'number' | 'ticks'
  readonly items: readonly ItemView[]
  readonly ticks: readonly ItemView[]
  /** what else can be seen here and would change little: folded, unticked is not said */
  readonly also: readonly ItemView[]
  readonly numbers: readonly ItemView[]
  /** the microphone, where sound can answer something here */
  readonly listen: ListenView | null
  readonly rulebook: string
  readonly soFar: SoFar
  readonly suspects: Suspects
  readonly problems: readonly Problem[]
}

const restOf = ({ assessment }: OnBench): ReadonlySet<string> => new Set(assessment.next.folded)

const manyLines = 3

/** One step: what to find out, how, and why now. `asked` are the questions of the step that are still open. */
export function stepPage(
  on: OnBench,
  step: Step,
  asked: readonly Question[],
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
): StepPage {
  const { knowledge, bench, situation } = on
  const listen = listenView(on, asked)
  const seen = asked.map((question) => itemView(question, situation.answers[question.id], sent, problems))
  // with a microphone at hand, how to do without one is folded with the rest
  const items = listen ? seen.map((item) => ({ ...item, help: null })) : seen
  const numbers = items.filter(({ number }) => number !== null)
  const only = asked.length === 1 ? asked[0] : undefined
  const title = only?.text ?? step.title
  const setups = setupsView(on, step.setups, step.power)
  const { shown, folded } = splitCautions(step.cautions, setups)
  const help = seen.flatMap(({ help, statement }) => (help === null ? [] : `${statement}? ${help}`))
  return {
    frame: caseFrame(knowledge, bench, title, { at: '', error: problems.length > 0 }),
    action: `/cases/${bench.id}/answers`,
    cannotAction: `/cases/${bench.id}/cannot-do`,
    takeApartAction: `/cases/${bench.id}/put-together`,
    seen: bench.events.length,
    step: step.id,
    asked: asked.map(({ id }) => id).join(','),
    title,
    again: null,
    tells: step.tells,
    drawing: lineDrawing(step.drawing, step.title),
    drawingLast: asked.length >= manyLines,
    cautions: shown,
    setups,
    howTo: howTo('How', [...step.how, ...help], step.tools, setups, folded),
    reason: reasonFor(on),
    // What any barber may do needs no line of its own.
    facts: step.skill === 'S1' ? [] : [{ term: 'Hand', words: skillWords(step.skill) }],
    bands: stopBands(on),
    form: !only ? 'ticks' : numbers.length === 0 ? 'buttons' : 'number',
    items,
    ticks: items.filter(({ number }) => number === null).map((item) => ({ ...item, help: null })),
    also: step.questions
      .filter(
        ({ id, kind }) => kind === 'yes-no' && situation.answers[id] === undefined && restOf(on).has(id),
      )
      .filter((question) => !asked.includes(question))
      .map((question) => ({ ...itemView(question, undefined, sent, problems), help: null })),
    numbers,
    listen,
    rulebook: `/rulebook/steps/${step.id}`,
    soFar: soFar(on),
    suspects: suspectsView(on),
    problems,
  }
}
