import type { DueCare, Round } from '../../care/due.js'
import { leftUndone } from '../../care/left.js'
import { daysBetween } from '../../care/rhythm.js'
import type { JustDone } from './just-done.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { counted, minutes, skillWords } from '../layout/words.js'
import { dayWords } from '../tools/tool-words.js'

/** The care of one day on one screen: a task a card, its tools ticked, one tap. */
export interface RoundPage {
  readonly frame: Frame
  readonly batch: string
  readonly who: string
  /** "7 jobs, about 20 minutes"; null where nothing is due */
  readonly sum: string | null
  readonly cards: readonly RoundCard[]
  readonly more: readonly RoundCard[]
  readonly soon: readonly RoundCard[]
  /** what was just logged; null when nothing was */
  readonly done: JustDone | null
  readonly noTools: boolean
  /** tasks that nobody does */
  readonly left: number
  /** the task of which no tool was ticked, to be put right; null where nothing is wrong */
  readonly unticked: string | null
  readonly problems: readonly Problem[]
}

export interface RoundCard {
  readonly id: string
  readonly name: string
  readonly late: boolean
  readonly minutes: string
  readonly tools: readonly {
    readonly id: string
    readonly name: string
    readonly words: string
    /** the same without what was: "12 days late" */
    readonly brief: string
  }[]
  readonly names: string
  readonly how: readonly string[]
  readonly cautions: readonly string[]
  readonly who: string
  readonly every: string
}

const mostCards = 3
const mostNames = 1

export function roundPage(
  round: Round,
  given: { batch: string; who: string; done: JustDone | null; noTools: boolean },
  unticked: string | null = null,
): RoundPage {
  const { care, today } = round
  const now = care.filter(({ state }) => state === 'overdue' || state === 'due')
  const cards = cardsOf(now, today)
  const wrong = care.find(({ task }) => task.id === unticked)?.task
  const all = now.reduce((sum, { task }) => sum + task.minutes, 0)
  return {
    frame: plainFrame(`${unticked === null ? '' : 'Error: '}Today’s care`, 'tools'),
    batch: given.batch,
    who: given.who,
    sum: now.length === 0 ? null : `${counted(now.length, 'job')}, ${minutes(all)}`,
    cards: cards.slice(0, mostCards),
    more: cards.slice(mostCards),
    soon: cardsOf(
      care.filter(({ state }) => state === 'soon'),
      today,
    ),
    done: given.done,
    noTools: given.noTools,
    left: leftUndone(round).length,
    unticked,
    problems:
      unticked === null
        ? []
        : [
            {
              field: wrong ? `care-${wrong.id}` : 'main',
              message: `${wrong?.name ?? 'Care'}: tick at least one tool, then tap Done`,
            },
          ],
  }
}

/** By task, with something overdue first. */
export function cardsOf(care: readonly DueCare[], today: string): readonly RoundCard[] {
  const byTask = new Map<string, DueCare[]>()
  for (const it of care) byTask.set(it.task.id, [...(byTask.get(it.task.id) ?? []), it])
  return [...byTask.values()]
    .map((jobs): RoundCard & { readonly order: number } => {
      const { task } = jobs[0]!
      const names = jobs.map(({ tool }) => tool.name)
      const late = jobs.some(({ state }) => state === 'overdue')
      const shown = names.slice(0, mostNames).join(', ')
      return {
        id: task.id,
        name: task.name,
        late,
        minutes: minutes(jobs.reduce((sum, it) => sum + it.task.minutes, 0)),
        tools: jobs.map(({ tool, ...it }) => ({
          id: tool.id,
          name: tool.name,
          words: lastWords(it, today),
          brief: dueWords(it.due, today),
        })),
        names: names.length > mostNames ? `${shown} and ${names.length - mostNames} more` : shown,
        how: task.how,
        cautions: task.cautions,
        who: skillWords(task.skill),
        every: task.every,
        order: task.order - (late ? 10_000 : 0),
      }
    })
    .sort((a, b) => a.order - b.order)
}

/** "last done 3 Mar 2026, 12 days late". */
function lastWords({ last, due }: Pick<DueCare, 'last' | 'due'>, today: string): string {
  return `${last === null ? 'not logged yet' : `last done ${dayWords(last)}`}, ${dueWords(due, today)}`
}

function dueWords(due: string, today: string): string {
  const late = daysBetween(due, today)
  if (late > 0) return `${counted(late, 'day')} late`
  return late === 0 ? 'due today' : `due ${dayWords(due)}`
}
