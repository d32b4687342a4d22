/** The lesson of one confusion: the learner says first what to ask; then what each question would tell, and why. */
import { bookOf } from '../../../shared/book-of-kind.js'
import { questionOf } from '../../../shared/finding-rule.js'
import type { Cause, Confusion, Knowledge } from '../../../shared/knowledge.js'
import { takesApart } from '../../../shared/taken-apart.js'
import type { Split } from '../../practice/best-splitter.js'
import { splitsOf } from '../../practice/best-splitter.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { inThousand, listWords } from '../layout/words.js'
import { ofTen } from './debrief-words.js'
import type { LessonEnding } from './lesson-ending.js'
import { lessonEnding } from './lesson-ending.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref } from './lesson-links.js'
import type { KindWay, LessonQuestion } from './lesson-question.js'
import { kindWays, lessonQuestion } from './lesson-question.js'
import { takesWords } from './lesson-takes.js'
import { lowered } from './move-words.js'

export interface ConfusionLessonPage {
  readonly frame: Frame
  readonly kind: string
  readonly name: string
  readonly looks: string
  readonly rivals: readonly { readonly name: string; readonly common: string; readonly href: string }[]
  readonly kinds: readonly KindWay[]
  readonly asked: LessonQuestion
  /** null until the learner has chosen */
  readonly answer: ConfusionAnswer | null
  readonly others: LessonLink
}

interface RivalView {
  readonly name: string
  readonly says: string
  /** what sets it apart from the others; empty where nothing does */
  readonly apart: string
  readonly mended: string
  /** what hurts there; empty where nothing does */
  readonly hazard: string
}

interface ConfusionAnswer {
  readonly verdict: string
  readonly questions: readonly {
    readonly words: string
    readonly takes: string
    readonly mark: string | null
    readonly best: boolean
    /** what the yes and the no of the question are, and what they tell; a reading has no yes */
    readonly tells: readonly { readonly answer: string; readonly words: string }[]
  }[]
  /** side by side */
  readonly rivals: readonly RivalView[]
  readonly order: readonly { readonly words: string; readonly takes: string; readonly best: boolean }[]
  readonly trap: string
  /** what may have led to what */
  readonly chains: readonly string[]
  readonly ending: LessonEnding
}

/** Questions to choose from. */
const mostChoices = 4
/** Of the best question's information from which another is as good for somebody at a bench. */
const nearly = 0.75

/**
 * @param asked.kind    the kind that the confusion is told of; the first that has it otherwise
 * @param asked.say     number of the choice, from 1; undefined before one was made, and for what is no number of one
 * @param asked.learner key of the learner, or empty
 * @returns null where no kind has this confusion
 */
export function confusionLessonPage(
  knowledge: Knowledge,
  id: string,
  asked: { readonly kind: string; readonly say: number | undefined; readonly learner: string },
): ConfusionLessonPage | null {
  const has = knowledge.kinds.filter((it) => confusionIn(knowledge, it.id, id) !== undefined)
  const kind = has.find((it) => it.id === asked.kind) ?? has[0]
  if (!kind) return null
  const { learner } = asked
  const book = bookOf(knowledge, kind.id)
  const confusion = confusionIn(knowledge, kind.id, id)!
  const path = `confusions/${id}`
  const about = { kind: kind.id, learner }
  const splits = splitsOf(book, confusion)
  const choices = choicesOf(splits)
  const said = asked.say === undefined ? undefined : choices[asked.say - 1]
  // the commonest first; `r` is its place in the file, by which a split has its chances
  const rivals = rivalsOf(book, confusion)
    .map((cause, r) => ({ cause, r, share: cause.shares[kind.id]! }))
    .sort((a, b) => b.share - a.share)
  return {
    frame: plainFrame(confusion.name, 'practice'),
    kind: kind.plainName,
    name: confusion.name,
    looks: confusion.looks,
    rivals: rivals.map(({ cause: { name, part }, share }) => ({
      name,
      common: inThousand(share / 1000),
      href: lessonHref(`parts/${kind.id}/${part}`, { learner }),
    })),
    kinds: kindWays(
      knowledge,
      path,
      has.map((it) => it.id),
      about,
    ),
    asked: lessonQuestion(
      path,
      about,
      choices.map(({ question }, k) => ({ value: String(k + 1), words: question.text })),
    ),
    answer: said
      ? {
          verdict: verdictOn(book, splits, said),
          questions: choices.map((split) => ({
            words: split.question.text,
            takes: takesWords(book, split.step),
            mark: split === said ? 'Yours' : null,
            best: split === splits[0],
            tells: tellsWords(book, confusion, split),
          })),
          rivals: rivals.map(({ cause, r }) => rivalView(book, splits, cause, r)),
          order: orderOf(book, confusion, splits),
          trap: confusion.trap,
          chains: chainsOf(book, confusion),
          ending: lessonEnding(knowledge, { lesson: path, ...about }),
        }
      : null,
    others: { name: 'Other lessons', href: lessonHref('', { learner }) },
  }
}

const confusionIn = (knowledge: Knowledge, kind: string, id: string): Confusion | undefined =>
  bookOf(knowledge, kind).confusions.find((it) => it.id === id)

const rivalsOf = ({ causes }: Knowledge, { rivals }: Confusion) =>
  rivals.flatMap((id) => causes.find((cause) => cause.id === id) ?? [])

/** The best, the least telling, and what lies between; in the alphabet's order, which gives nothing away. */
function choicesOf(splits: readonly Split[]): Split[] {
  const ranked = [splits[0], splits.at(-1), splits[Math.floor(splits.length / 2)], splits[1], splits[2]]
  return [...new Set(ranked.flatMap((it) => it ?? []))]
    .slice(0, mostChoices)
    .sort((a, b) => (a.question.text < b.question.text ? -1 : 1))
}

function verdictOn(book: Knowledge, splits: readonly Split[], said: Split): string {
  const best = splits[0]!
  const isApart = ({ step }: Split) => takesApart(book.setups, step.setups)
  if (said === best)
    return isApart(best)
      ? 'Yes. That tells the most.'
      : 'Yes. Of what can be asked without taking it apart, that tells the most.'
  if (said.bits < nearly * best.bits)
    return 'That tells less than you may think. Look at what each would tell.'
  return isApart(said) && !isApart(best)
    ? 'It tells enough, but only with the tool apart. Another tells about as much from outside.'
    : 'Good: that tells nearly as much as the best one.'
}

type Tells = ConfusionAnswer['questions'][number]['tells']

/** Share of the rivals with a yes, from which a yes points to one, and how far above the rest. */
const pointing = { yes: 0.3, above: 1.3 } as const

function tellsWords(book: Knowledge, confusion: Confusion, split: Split): Tells {
  const rivals = rivalsOf(book, confusion).map(({ name }, r) => ({ name: lowered(name), yes: split.yes[r]! }))
  const to = rivals
    .filter(({ yes }) => yes >= pointing.yes && yes > pointing.above * split.yesOverall)
    .sort((a, b) => b.yes - a.yes)
  if (to.length === 0)
    return [{ answer: '', words: 'Whatever the answer, it is about as often so with each of them.' }]
  const away = rivals.filter((it) => !to.includes(it))
  const strongest = Math.max(...to.map(({ yes }) => yes))
  const isReading = split.question.kind === 'number'
  const yes = `Points to ${listWords(to.map(({ name, yes }) => `${name} (${ofTen(yes)} show it)`))}.`
  const no =
    strongest >= 0.75
      ? `Speaks against ${listWords(to.filter(({ yes }) => yes >= 0.75).map(({ name }) => name))}; left ${away.length === 1 ? 'is the other one' : `are the other ${away.length}`}.`
      : 'Says little: most do not show it anyway.'
  return [
    { answer: isReading ? `${split.finding.says}.` : 'Yes', words: yes },
    { answer: isReading ? 'Not so.' : 'No', words: no },
  ]
}

/** How far above the other rivals one must show something for it to be its mark. */
const apart = 0.25

function rivalView(book: Knowledge, splits: readonly Split[], cause: Cause, r: number): RivalView {
  const above = ({ yes }: Split) => yes[r]! - Math.max(...yes.filter((_, other) => other !== r))
  const mark = [...splits].sort((a, b) => above(b) - above(a))[0]
  const [fix] = book.fixes
    .filter(({ cures }) => cures[cause.id] !== undefined)
    .sort((a, b) => b.cures[cause.id]! - a.cures[cause.id]!)
  return {
    name: cause.name,
    says: cause.description,
    apart: mark && above(mark) >= apart ? `${mark.finding.says}: ${ofTen(mark.yes[r]!)} show it.` : '',
    mended: fix ? `${fix.name}.` : 'Not at this bench: it goes to a service.',
    hazard: cause.hazard ?? '',
  }
}

/** Two checks on one question are one look. */
function orderOf(book: Knowledge, { checks }: Confusion, splits: readonly Split[]): ConfusionAnswer['order'] {
  const asked = checks.flatMap((id) => {
    const finding = book.findings.find((it) => it.id === id)
    return splits.find(({ question }) => finding && question.id === questionOf(finding)) ?? []
  })
  return [...new Set(asked)].map((split) => ({
    words: split.question.text,
    takes: takesWords(book, split.step),
    best: split === splits[0],
  }))
}

const chainsOf = ({ chains }: Knowledge, { rivals }: Confusion): string[] =>
  chains
    .filter(({ first, then }) => rivals.includes(then) || rivals.includes(first))
    .map(({ says }) => says)
    .slice(0, 3)
