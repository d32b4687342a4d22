import type { Knowledge } from '../../../shared/knowledge.js'
import type { Learner, PracticeClass } from '../../../shared/practice.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { Carried } from './lesson-name.js'
import { carriedOn, lessonName } from './lesson-name.js'

/** Who practises? */
export interface DoorPage {
  readonly frame: Frame
  readonly problems: readonly Problem[]
  readonly title: string
  /** a lesson's exercise begins as soon as somebody is chosen; null where there is none */
  readonly after: { readonly name: string; readonly fields: Carried } | null
  readonly classes: readonly {
    readonly name: string
    readonly headingId: string
    readonly people: readonly { readonly id: string; readonly name: string; readonly href: string }[]
  }[]
  readonly isEmpty: boolean
  readonly sent: Newcomer
  readonly nameProblem: string | null
  readonly classProblem: string | null
  /** empty where there is nothing to choose: one class, or none yet */
  readonly choices: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
  readonly classNote: string
}

export interface Newcomer {
  readonly name: string
  /** id of a class, or empty */
  readonly class: string
}

/** The class that is made for the first person where nobody made one. */
export const firstClass = 'This shop'

/** Letters of a name. */
const longestName = 80

export function doorPage(
  knowledge: Knowledge,
  {
    classes,
    learners,
  }: { readonly classes: readonly PracticeClass[]; readonly learners: readonly Learner[] },
  carried: Carried | null,
  sent: Newcomer = { name: '', class: '' },
  problems: readonly Problem[] = [],
): DoorPage {
  const title = 'Who practises?'
  const problemOf = (field: string) => problems.find((it) => it.field === field)?.message ?? null
  const [only] = classes
  return {
    frame: plainFrame(problems.length > 0 ? `Error: ${title}` : title, 'practice'),
    problems,
    title,
    after: carried && { name: lessonName(knowledge, carried), fields: carried },
    classes: classes
      .map(({ id, name }) => ({
        name,
        headingId: `class-${id}`,
        people: learners
          .filter((it) => it.class === id)
          .map((it) => ({
            id: it.id,
            name: it.name,
            href: `/practice/people/${it.id}${carriedOn(carried)}`,
          })),
      }))
      .filter(({ people }) => people.length > 0),
    isEmpty: learners.length === 0,
    sent,
    nameProblem: problemOf('name'),
    classProblem: problemOf('class'),
    choices:
      classes.length > 1 ? classes.map(({ id, name }) => ({ id, name, chosen: id === sent.class })) : [],
    classNote:
      classes.length > 1
        ? ''
        : `You come into the class “${only?.name ?? firstClass}”.${only ? '' : ' It is made with you; another can be made under Classes.'}`,
  }
}

/** Spaces at the ends and doubled ones are nobody's name. */
export const tidyName = (name: string): string => name.replaceAll(/\s+/gu, ' ').trim()

/** Something that can be seen: neither space nor control sign. */
const visible = /[^\p{Z}\p{C}]/u

/** What must be put right before somebody can be put down; a name that is there already is for the register to tell. */
export function newcomerProblems(
  { name, class: inClass }: Newcomer,
  classes: readonly PracticeClass[],
): Problem[] {
  const problems: Problem[] = []
  if (!visible.test(name)) problems.push({ field: 'name', message: 'Say by which name you go' })
  else if (tidyName(name).length > longestName)
    problems.push({ field: 'name', message: `Use a shorter name, of at most ${longestName} letters` })
  const isKnown = classes.some(({ id }) => id === inClass)
  if (inClass === '' ? classes.length > 1 : !isKnown)
    problems.push({ field: 'class', message: 'Choose the class that you are in' })
  return problems
}
