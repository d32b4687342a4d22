/** The sheet on which skills are signed off: safe hands first, then repairs, checks and causes. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Learner, PracticeClass, Shown } from '../../../shared/practice.js'
import type { SkillRow } from '../../practice/skills.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { kindName } from './found-words.js'
import { counted, timesWords } from '../layout/words.js'

export interface SkillsPage {
  readonly frame: Frame
  readonly name: string
  readonly className: string
  /** the day on which the sheet is looked at */
  readonly today: string
  readonly notice: string | null
  readonly problems: readonly Problem[]
  /** null on the learner's own page, where nothing is signed */
  readonly sign: {
    readonly action: string
    readonly by: string
    /** is it who is signed in? then nobody is asked */
    readonly known: boolean
    readonly problem: string | null
  } | null
  readonly back: { readonly href: string; readonly words: string }
  readonly groups: readonly SkillGroup[]
  /** "3 shown on two days or more: ready to sign" */
  readonly ready: string
  readonly nothingYet: boolean
}

interface SkillGroup {
  readonly name: string
  /** shown in an exercise, or signed */
  readonly rows: readonly SkillLine[]
  /** neither shown nor signed yet */
  readonly open: readonly SkillLine[]
  readonly openWords: string
}

interface SkillLine {
  readonly key: string
  readonly field: string
  readonly words: string
  readonly kind: string
  readonly shown: string
  /** shown on two days at least */
  readonly ready: boolean
  readonly signed: { readonly by: string; readonly on: string } | null
  readonly ticked: boolean
}

type Signable = Shown & { readonly key: string }

const groups: readonly { readonly name: string; readonly skills: readonly Shown['skill'][] }[] = [
  { name: 'Safe hands', skills: ['dangers-first', 'plug-out-first', 'disinfected', 'set-aside'] },
  { name: 'Repairs done', skills: ['mended'] },
  { name: 'Checks made', skills: ['looked'] },
  { name: 'Causes found', skills: ['found'] },
]

/** @param signable all that may stand on the sheet; what was shown of other kinds stands there too */
export function skillsPage(
  {
    knowledge,
    learner,
    ofClass,
    rows,
    signable,
    now,
  }: {
    readonly knowledge: Knowledge
    readonly learner: Learner
    readonly ofClass: PracticeClass
    readonly rows: readonly SkillRow[]
    readonly signable: readonly Signable[]
    readonly now: Date
  },
  sign: SkillsPage['sign'],
  {
    notice = null,
    sent = null,
    problems = [],
  }: {
    readonly notice?: string | null
    readonly sent?: Sent | null
    readonly problems?: readonly Problem[]
  } = {},
): SkillsPage {
  const rowOf = new Map(rows.map((row) => [row.key, row]))
  const known = new Set(signable.map(({ key }) => key))
  const all: readonly Signable[] = [...signable, ...rows.filter(({ key }) => !known.has(key))]
  const ticked = new Set(sent ? ticksIn(sent) : [])
  const severalKinds = new Set(all.map(({ kind }) => kind)).size > 1
  const line = (it: Signable): SkillLine => {
    const row = rowOf.get(it.key)
    return {
      key: it.key,
      field: `sign-${it.key.replaceAll('|', '-')}`,
      words: skillWords(knowledge, it),
      kind: severalKinds ? kindName(knowledge, it.kind) : '',
      shown: row && row.times > 0 ? shownWords(row) : '',
      ready: row?.apart === true,
      signed: row?.signed ? { by: row.signed.by, on: dayWords(row.signed.at) } : null,
      ticked: ticked.has(it.key),
    }
  }
  const made = groups.map(({ name, skills }): SkillGroup => {
    const lines = all.filter(({ skill }) => skills.includes(skill)).map(line)
    const open = lines.filter(({ shown, signed }) => shown === '' && signed === null)
    return {
      name,
      rows: lines.filter((it) => !open.includes(it)).sort((a, b) => Number(toSign(b)) - Number(toSign(a))),
      open,
      openWords: `${open.length} not shown yet`,
    }
  })
  const home = `/practice/${sign ? `classes/${ofClass.id}` : `people/${learner.id}`}`
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}Skills of ${learner.name}`, 'practice'),
    name: learner.name,
    className: ofClass.name,
    today: dayWords(now.toISOString()),
    notice,
    problems,
    sign,
    back: { href: home, words: sign ? `Back to ${ofClass.name}` : 'Back to your practice' },
    groups: made,
    ready: readyWords(made.flatMap(({ rows }) => rows).filter(toSign).length),
    nothingYet: made.every((group) => group.rows.length === 0),
  }
}

/** The keys that are ticked, as a form sends them. */
function ticksIn(sent: Sent): string[] {
  const value = Object.hasOwn(sent, 'sign') ? sent['sign'] : []
  return (Array.isArray(value) ? value : [value]).filter((key): key is string => typeof key === 'string')
}

/** What the form signs, or every problem with it. */
export function signedBy(
  sent: Sent,
  may: ReadonlySet<string>,
):
  | { readonly ok: true; readonly by: string; readonly keys: readonly string[] }
  | { readonly ok: false; readonly problems: readonly Problem[] } {
  const by = textOf(sent, 'by')
  const keys = [...new Set(ticksIn(sent))]
  const problems: Problem[] = []
  if (by === '') problems.push({ field: 'by', message: 'Write the name of who signs' })
  else if (by.length > 80) problems.push({ field: 'by', message: 'Make the name shorter: 80 letters fit' })
  if (keys.length === 0) problems.push({ field: 'rows', message: 'Tick what is to be signed' })
  if (keys.some((key) => !may.has(key)))
    problems.push({ field: 'rows', message: 'One row is not on this sheet any more: tick again' })
  return problems.length > 0 ? { ok: false, problems } : { ok: true, by, keys }
}

const toSign = ({ ready, signed }: SkillLine): boolean => ready && signed === null

const readyWords = (count: number): string =>
  count === 0
    ? 'Nothing new was shown on two days or more yet.'
    : `${count} shown on two days or more: ready to sign, on top of each list.`

/** "3 rows signed." */
export const signedWords = (count: number): string => `${counted(count, 'row')} signed.`

function skillWords(knowledge: Knowledge, { skill, kind, subject }: Shown): string {
  const book = bookOf(knowledge, kind)
  const gone = 'something that the rulebook no longer has'
  switch (skill) {
    case 'dangers-first':
      return 'Asked every danger question before anything else'
    case 'plug-out-first':
      return 'Made it safe to touch before every look and repair'
    case 'disinfected':
      return 'Disinfected it before handing it back'
    case 'set-aside':
      return 'Knew a danger, and set the tool aside'
    case 'found':
      return book.causes.find(({ id }) => id === subject)?.name ?? gone
    case 'mended':
      return book.fixes.find(({ id }) => id === subject)?.name ?? gone
    case 'looked':
      return book.steps.find(({ id }) => id === subject)?.title ?? gone
  }
}

/** "3 times, 2 Mar to 9 Mar 2026", "once, 2 Mar 2026". */
function shownWords({ times, first, last }: SkillRow): string {
  const [from, to] = [dayWords(first), dayWords(last)]
  const sameYear = from.slice(-4) === to.slice(-4)
  return `${timesWords(times)}, ${from === to ? from : `${sameYear ? from.slice(0, -5) : from} to ${to}`}`
}

const dayWords = (instant: string): string =>
  new Date(instant).toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })
