/** The one thing to take along, in words, and where to read on. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Debrief } from '../../practice/debrief.js'
import type { LookedBack } from '../../practice/look-back.js'
import type { Played } from '../../practice/played.js'
import type { Pair, Pointed, TakeAlong } from '../../practice/take-along.js'
import { answerWords, minutes } from '../layout/words.js'
import { ofTen, planWords, reasonWords } from './debrief-words.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref, lessonsFor } from './lesson-links.js'
import { causeName, lowered, moveAsAdvice, moveWords } from './move-words.js'

export interface LessonView {
  readonly title: string
  readonly says: readonly string[]
  /** the rest of what there is to say, folded */
  readonly more: readonly string[]
  /** the right order, where hands are in danger */
  readonly right: readonly string[]
  readonly links: readonly LessonLink[]
}

/** Links beside one lesson: more would be reading, not a lesson. */
const mostLinks = 2

export function lessonOf(played: Played, debrief: Debrief, back: LookedBack): LessonView {
  const { lesson } = back
  const said = wordsOf(played, debrief, back)
  const { book, kind } = played.desk
  const { knowledge } = book
  const id = kind.model.kind.id
  const { learner } = played.exercise
  const hearsay =
    lesson.what === 'slip' ? bookOf(knowledge, id).hearsay.filter(({ slip }) => slip === lesson.slip.id) : []
  const links =
    lesson.what === 'slip'
      ? hearsay.map((it) => ({ name: it.name, href: lessonHref(`hearsay/${it.id}`, { kind: id, learner }) }))
      : lessonsFor(knowledge, id, causesFor(lesson, debrief), learner)
  const [first, ...rest] = said.says
  return {
    title: said.title,
    says: first === undefined ? [] : [first],
    more: rest,
    right: said.right ?? [],
    links: links.slice(0, mostLinks),
  }
}

function causesFor(lesson: TakeAlong, { causes }: Debrief): readonly string[] {
  if (lesson.what === 'mixed-up') return [lesson.there.cause, lesson.taken.cause]
  if (lesson.what === 'too-sure' || lesson.what === 'not-sure-enough')
    return [...new Set([lesson.cause, ...causes])]
  return causes
}

/** What matters most comes first: it stands unfolded, alone. */
type Said = Pick<LessonView, 'title' | 'says'> & Partial<Pick<LessonView, 'right'>>

function wordsOf(played: Played, debrief: Debrief, back: LookedBack): Said {
  const { lesson } = back
  switch (lesson.what) {
    case 'slip':
      return slipWords(lesson)
    case 'in-trouble':
      return {
        title: 'See the trouble gone before it goes back',
        says: [
          'A tool that is handed back with its fault comes back, in a worse moment, and everything is still to do. A repair ends with a run that shows it.',
        ],
      }
    case 'wrong-end':
      return endWords(played, debrief, back, lesson.step)
    case 'dear-move':
      return moveSaid(played, debrief, back, lesson.step)
    case 'mixed-up':
      return mixUpWords(played, back, lesson)
    case 'too-sure':
    case 'not-sure-enough':
      return sureWords(played, debrief, lesson)
    case 'well-done':
      return wellWords[lesson.which]
  }
}

function slipWords({ slip, ended }: Extract<TakeAlong, { what: 'slip' }>): Said {
  if (!ended) return { title: slip.name, says: [slip.why], right: slip.right }
  return {
    title: slip.right[0]!.replace(/\.$/, ''),
    says: ['That comes before any thought about the fault. The whole order, and why, stands above.'],
  }
}

function endWords({ desk }: Played, { steps }: Debrief, { compared }: LookedBack, k: number): Said {
  const step = steps[k]!
  const beside = compared[k]
  const done = lowered(moveWords(desk, step.done.move))
  const cost = `You ${done}. On average that costs ${minutes(step.lostMinutes)} more than a good way.`
  if (!beside) return { title: 'It ended too soon', says: [cost] }
  const plan = planWords(desk, step.plan, beside.goal)
  const why = `The plan: ${lowered(plan)}, because ${reasonWords(step.done.move, beside)}.`
  if (beside.rule === 'stop-known')
    return { title: 'A known danger ends the work: set it aside', says: [cost, why] }
  if (beside.goal.type === 'ended')
    return { title: `${moveAsAdvice(desk, beside.goal)}: that was the cheaper end`, says: [cost, why] }
  return { title: `Before you give it away: ${lowered(moveAsAdvice(desk, beside.goal))}`, says: [cost, why] }
}

function moveSaid({ desk }: Played, { steps }: Debrief, { compared }: LookedBack, k: number): Said {
  const step = steps[k]!
  const beside = compared[k]
  const did = lowered(moveWords(desk, step.done.move))
  const cost = `You ${did} instead, as move ${k + 1}: ${minutes(step.lostMinutes)} lost on average.`
  if (!beside) return { title: 'One move was dear', says: [cost] }
  const plan = planWords(desk, step.plan, beside.goal)
  return {
    title: `First ${lowered(moveAsAdvice(desk, beside.goal))}`,
    says: [cost, `The plan: ${lowered(plan)}, because ${reasonWords(step.done.move, beside)}.`],
  }
}

function mixUpWords(
  { desk }: Played,
  { apart }: LookedBack,
  { taken, there, allowed }: Pair & { allowed: boolean },
): Said {
  const name = ({ cause }: Pointed) => causeName(desk.book.knowledge, desk.kind.model.kind.id, cause)
  const [yes, no] = [lowered(name(there)), lowered(name(taken))]
  const title = `${name(taken)} or ${yes}?`
  const had = `You put ${taken.points} on ${no}, which was not there, and ${there.points} on ${yes}, which was.`
  const fair = allowed ? ['That was fair: the answers up to then spoke for it.'] : []
  if (!apart)
    return {
      title,
      says: [had, ...fair, 'Nothing that can be seen here tells the two apart: the repair has to.'],
    }
  const { finding, step, withFirst, withSecond, stood } = apart
  const tells = `What tells them apart: “${finding.says}”. That shows in ${ofTen(withFirst)} tools with ${yes}, and in ${ofTen(withSecond)} with ${no}.`
  const had2 =
    stood === 'yes' || stood === 'no'
      ? `You had that answer before you spread the points: ${answerWords(stood).toLowerCase()}.`
      : `You had not looked for it: it is part of “${step.title}”.`
  return { title, says: [tells, had, ...fair, had2] }
}

function sureWords(
  { desk }: Played,
  { steps }: Debrief,
  lesson: Extract<TakeAlong, { what: 'too-sure' | 'not-sure-enough' }>,
): Said {
  const cause = lowered(causeName(desk.book.knowledge, desk.kind.model.kind.id, lesson.cause))
  const gave = `${lesson.points === 0 ? `You did not name ${cause}` : `You put ${lesson.points} of 100 on ${cause}`}; the answers up to then spoke for ${lesson.plans}.`
  if (lesson.what === 'not-sure-enough')
    return {
      title: 'The answers said more than you took from them',
      says: [
        gave,
        'Look at what each answer says, below: several that point the same way add up to more than each alone.',
      ],
    }
  const next = steps.findLast(({ done }) => done.move.type === 'spread' && done.refused === undefined)?.plan
  const on =
    next?.type === 'looked' ? [`The plan would have gone on to ${lowered(moveAsAdvice(desk, next))}.`] : []
  const came = lesson.wasThere
    ? `This time you were right. Of 10 tools that answer so, ${ofTenOthers(lesson.plans)} something else.`
    : 'And it was something else.'
  return { title: 'Surer than the answers allowed', says: [gave, came, ...on] }
}

/** "4 have": of ten tools, those in which the cause is not there; `plans` in steps of 10. */
function ofTenOthers(plans: number): string {
  const others = (100 - plans) / 10
  return others === 1 ? '1 has' : `${others} have`
}

const wellWords = {
  'as-the-plan': {
    title: 'You could not have done better',
    says: ['Every move was as good as the plan’s. Try a harder level, or a kind that you meet seldom.'],
  },
  'sure-and-right': {
    title: 'Sure, right, and the answers bore you out',
    says: [
      'You read the answers for what they were worth before you fixed anything. That is what keeps repairs few.',
    ],
  },
  'little-lost': {
    title: 'No move cost you much',
    says: ['You lost little against the plan, a bit here and a bit there: see which moves, below.'],
  },
} as const
