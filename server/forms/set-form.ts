/** The form that sets an exercise for a class: how it is read, with each mistake at its field. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Kind, Knowledge, Level } from '../../shared/knowledge.js'
import type { Setting } from '../../shared/practice.js'
import { kindsOf } from '../practice/level-book.js'
import type { Problem, Sent } from './answer-form.js'
import { textOf } from './answer-form.js'
import { listWords } from '../pages/layout/words.js'

/** Stands for "whichever comes in" among the kinds. */
export const anyKind = 'any'

export const causeFields = ['cause-1', 'cause-2', 'cause-3'] as const
const mostSeed = 4_294_967_295

export type ChosenFirst =
  | { readonly ok: true; readonly level: Level; readonly kind: Kind | typeof anyKind }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** Level and kind: the first of the two pages. */
export function chosenFirst(knowledge: Knowledge, sent: Sent): ChosenFirst {
  const level = knowledge.levels.find(({ id }) => id === textOf(sent, 'level'))
  const asked = textOf(sent, 'kind')
  const kind = asked === anyKind ? anyKind : knowledge.kinds.find(({ id }) => id === asked)
  const problems: Problem[] = []
  if (!level) problems.push({ field: 'level', message: 'Choose how hard it is to be' })
  if (!kind) problems.push({ field: 'kind', message: 'Choose a kind of tool, or any' })
  if (!level || !kind) return { ok: false, problems }
  const may = kindsOf(knowledge, level)
  if (kind === anyKind || may.includes(kind.id)) return { ok: true, level, kind }
  const names = may.flatMap((id) => knowledge.kinds.find((it) => it.id === id)?.plainName ?? [])
  return {
    ok: false,
    problems: [
      {
        field: 'kind',
        message: `“${level.name}” has only this: ${listWords(names)}. Choose that, or another level`,
      },
    ],
  }
}

export type SetRead =
  | { readonly ok: true; readonly seed: number; readonly setting: Setting }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** The rest: causes, words, what is hidden, the number. */
export function settingFrom(knowledge: Knowledge, kind: string, sent: Sent): SetRead {
  const problems: Problem[] = []
  const known = new Set(bookOf(knowledge, kind).causes.map(({ id }) => id))
  const causes: string[] = []
  for (const field of causeFields) {
    const cause = textOf(sent, field)
    if (cause === '') continue
    if (!known.has(cause))
      problems.push({ field, message: 'This tool cannot have that: choose from the list' })
    else if (causes.includes(cause))
      problems.push({ field, message: 'That one is chosen already: choose another, or leave it' })
    else causes.push(cause)
  }
  const complaint = textOf(sent, 'complaint')
  if (complaint !== '' && complaint.length < 3)
    problems.push({ field: 'complaint', message: 'Write what the client says, or leave it empty' })
  if (complaint.length > 300)
    problems.push({
      field: 'complaint',
      message: `Make it shorter: ${complaint.length} letters, and 300 fit on the tag`,
    })
  const number = textOf(sent, 'seed')
  const seed = /^\d{1,10}$/.test(number) ? Number(number) : NaN
  if (!(seed <= mostSeed))
    problems.push({ field: 'seed', message: `A number of an exercise is a whole one from 0 to ${mostSeed}` })
  if (problems.length > 0) return { ok: false, problems }
  return {
    ok: true,
    seed,
    setting: {
      ...(causes.length > 0 ? { causes } : {}),
      ...(complaint === '' ? {} : { complaint }),
      hideSuspects: textOf(sent, 'hideSuspects') === 'yes',
      hidePrices: textOf(sent, 'hidePrices') === 'yes',
    },
  }
}

/** Why no exercise can be made of these causes, at the field that can mend it. */
export function unfit(because: 'alone' | 'silent', sent: Sent): Problem {
  if (because === 'alone')
    return { field: 'cause-2', message: 'One of these excludes all others: leave it alone, or leave it out' }
  return textOf(sent, 'cause-1') === '' && textOf(sent, 'cause-2') === '' && textOf(sent, 'cause-3') === ''
    ? {
        field: 'seed',
        message: 'With this number nothing shows that a client would complain of: take another',
      }
    : {
        field: 'cause-1',
        message: 'These show nothing that a client would complain of: choose others, or one more',
      }
}
