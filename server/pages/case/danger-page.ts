import type { Question, Step } from '../../../shared/knowledge.js'
import type { ItemView, Problem } from '../../forms/answer-form.js'
import { itemView } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { HowTo } from './how-to.js'
import { howTo } from './how-to.js'
import { setupsView } from './setups.js'

/** The danger signs on one screen: one tap for any that is there, one for none of them. */
export interface DangerPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly title: string
  /** "plug out"; empty where that is done */
  readonly first: string
  /** signs that were told already, where others are open; empty otherwise */
  readonly noted: string
  /** what comes even before that, for whoever could be hurt by it */
  readonly before: string
  readonly howTo: HowTo
  /** those still to be settled, most urgent first; with a line, several that stand behind it */
  readonly signs: readonly { readonly line: string | null; readonly items: readonly ItemView[] }[]
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
  const view = (question: Question) => itemView(question, situation.answers[question.id], null, problems)
  const unsure = asked.every(({ id }) => situation.answers[id] === 'cant-tell')
  return {
    frame: caseFrame(knowledge, bench, step.title, { at: '', error: problems.length > 0 }),
    action: `/cases/${bench.id}/danger`,
    seen: bench.events.length,
    title: step.title,
    first: setups.toMake.map(({ name }) => name.toLowerCase()).join(', '),
    noted: step.questions
      .filter((question) => !asked.includes(question) && situation.answers[question.id] === 'yes')
      .map(({ statement }) => statement.toLowerCase())
      .join(', '),
    before: setups.toMake.flatMap(({ cautions }) => cautions.slice(0, 1)).join(' '),
    howTo: howTo('How to look', step.how, step.tools, setups, step.cautions),
    signs: inLines(asked, unsure ? [] : step.gathered).map(({ line, signs }) => ({
      line,
      items: signs.map(view),
    })),
    none: asked.length === step.questions.length ? 'None of these' : 'None of the others',
    unsure: unsure ? { action: `/cases/${bench.id}/cannot-do`, step: step.id } : null,
    problems,
  }
}

interface Line {
  readonly line: string | null
  readonly signs: readonly Question[]
}

/** Gathered signs stand where the most urgent of them would; what is left of a line alone stands for itself. */
function inLines(asked: readonly Question[], gathered: Step['gathered']): Line[] {
  const together: Line[] = gathered
    .map(({ line, questions }) => ({ line, signs: asked.filter(({ id }) => questions.includes(id)) }))
    .filter(({ signs }) => signs.length > 1)
  return asked.flatMap((question) => {
    const group: Line | undefined = together.find(({ signs }) => signs.includes(question))
    if (!group) return [{ line: null, signs: [question] }]
    return group.signs[0] === question ? [group] : []
  })
}
