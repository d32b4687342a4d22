import type { Question, Step } from '../../../shared/knowledge.js'
import type { ItemView, Problem } from '../../forms/answer-form.js'
import { itemView } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { HowTo } from './how-to.js'
import { howTo } from './how-to.js'
import type { Setups } from './setups.js'
import { setupsView } from './setups.js'

/** The danger signs on one screen: one tap for any that is there, one for none of them. */
export interface DangerPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly title: string
  readonly setups: Setups
  /** what comes even before that, for whoever could be hurt by it */
  readonly before: string
  readonly howTo: HowTo
  /** those still to be settled, most urgent first */
  readonly signs: readonly ItemView[]
  /** the button for all of them at once */
  readonly none: string
  /** they were "not sure" once: who still cannot tell goes on without power */
  readonly unsure: { readonly action: string; readonly step: string } | null
  readonly problems: readonly Problem[]
}

/** @param asked the danger questions that are still open; all of them when the list is looked at again */
export function dangerPage(
  on: OnBench,
  step: Step,
  asked: readonly Question[],
  problems: readonly Problem[] = [],
): DangerPage {
  const { knowledge, bench, situation } = on
  const setups = setupsView(on, step.setups, step.power)
  return {
    frame: caseFrame(knowledge, bench, step.title, { at: '', error: problems.length > 0 }),
    action: `/cases/${bench.id}/danger`,
    seen: bench.events.length,
    title: step.title,
    setups,
    before: setups.toMake.flatMap(({ cautions }) => cautions.slice(0, 1)).join(' '),
    howTo: howTo('How to look', step.how, step.tools, setups, step.cautions),
    signs: asked.map((question) => itemView(question, situation.answers[question.id], null, problems)),
    none: asked.length === step.questions.length ? 'None of these' : 'None of the others',
    unsure: asked.every(({ id }) => situation.answers[id] === 'cant-tell')
      ? { action: `/cases/${bench.id}/cannot-do`, step: step.id }
      : null,
    problems,
  }
}
