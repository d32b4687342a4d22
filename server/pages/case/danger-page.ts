import type { Question, Step, Stop } from '../../../shared/knowledge.js'
import type { ItemView, Problem, Sent } from '../../forms/answer-form.js'
import { itemView } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { OnBench } from '../../bench/on-bench.js'
import { questionsOfStop } from '../../bench/on-bench.js'
import type { Setups } from './setups.js'
import { setupsView } from './setups.js'

export interface DangerPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly step: string
  readonly title: string
  readonly tells: string
  readonly how: readonly string[]
  readonly cautions: readonly string[]
  readonly setups: Setups
  readonly groups: readonly {
    readonly heading: string
    readonly lead: string
    readonly items: readonly ItemView[]
  }[]
  readonly problems: readonly Problem[]
}

const grades = [
  {
    grade: 'set-aside',
    heading: 'These end the work',
    lead: 'One yes here and the tool is set aside until somebody has put it right.',
  },
  {
    grade: 'off-the-client',
    heading: 'These keep it off the client',
    lead: 'One yes here and it touches no skin. The search goes on with the plug out.',
  },
  { grade: null, heading: 'And these', lead: 'Good to know before hands go near it.' },
] as const

/** The danger questions on one screen, each to be answered, in the two grades of the stop they lead to. */
export function dangerPage(
  on: OnBench,
  step: Step,
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
): DangerPage {
  const { knowledge, bench, situation } = on
  const stops = knowledge.stops.filter(({ kinds }) => kinds.includes(bench.kind))
  const view = (question: Question): ItemView =>
    itemView(question, situation.answers[question.id], sent, problems)
  return {
    frame: caseFrame(knowledge, bench, step.title, { at: '', error: problems.length > 0 }),
    action: `/cases/${bench.id}/danger`,
    seen: bench.events.length,
    step: step.id,
    title: step.title,
    tells: step.tells,
    how: step.how,
    cautions: step.cautions,
    setups: setupsView(on, step.setups, step.power),
    groups: grades
      .map(({ grade, heading, lead }) => ({
        heading,
        lead,
        items: step.questions.filter((question) => gradeOf(on, stops, question.id) === grade).map(view),
      }))
      .filter(({ items }) => items.length > 0),
    problems,
  }
}

/** The worst grade of the stops that a question can set off; null when it sets off none. */
function gradeOf(on: OnBench, stops: readonly Stop[], question: string): Stop['grade'] | null {
  const led = stops.filter((stop) => questionsOfStop(on.knowledge, stop).includes(question))
  return led.find(({ grade }) => grade === 'set-aside')?.grade ?? led[0]?.grade ?? null
}
