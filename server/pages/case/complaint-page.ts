import type { Knowledge, Question } from '../../../shared/knowledge.js'
import type { ItemView, Problem, Sent } from '../../forms/answer-form.js'
import { fieldOf, itemView, textOf, textsOf } from '../../forms/answer-form.js'
import { ownWords } from '../../bench/case-state.js'
import type { OnBench } from '../../bench/on-bench.js'
import { commonComplaints, statementsMeant, tellable } from '../../statements/statements.js'
import { knownWords } from '../tools/known-words.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'

/** What the tool does: said by one tap, or in words that come back as statements to confirm. */
export interface ComplaintPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly q: string
  /** what the words seem to say, the likely ones ticked, and what was told before; empty before anything was said */
  readonly heard: readonly ItemView[]
  /** were words sent in which nothing was understood? */
  readonly noMatch: boolean
  /** what people come with most often, each a button */
  readonly common: readonly ItemView[]
  readonly groups: readonly SenseGroup[]
  readonly said: readonly string[]
  /** what the shop knows of the tool before anybody says anything */
  readonly known: readonly string[]
  readonly problems: readonly Problem[]
}

export interface SenseGroup {
  readonly heading: string
  readonly items: readonly ItemView[]
}

const senses = {
  hands: 'What your hands tell',
  ears: 'What your ears tell',
  eyes: 'What your eyes tell',
  nose: 'What your nose tells',
  story: 'What happened',
} as const satisfies Record<NonNullable<Question['sense']>, string>

/** So many buttons stay in thumb's reach. */
const mostCommon = 6
/** As many statements are read before one confirms them. */
const mostHeard = 4
/** From this chance on a statement stands ticked; the likeliest does in any case. */
const surelyMeant = 0.5

/** @param sent what was typed or ticked just now, in the address or in a form; null on the first look */
export function complaintPage(
  on: OnBench,
  sent: Sent | null,
  problems: readonly Problem[] = [],
): ComplaintPage {
  const { knowledge, bench, situation } = on
  const q = sent ? textOf(sent, 'q') : ''
  const meant = statementsMeant(knowledge, bench.kind, q).slice(0, mostHeard)
  const questions = tellable(knowledge, bench.kind)
  const told = questions.filter(({ id }) => situation.answers[id] === 'yes').map(({ id }) => id)
  const ticked = new Set([
    ...told,
    ...meant.filter(({ chance }, place) => place === 0 || chance >= surelyMeant).map(({ id }) => id),
  ])
  const view = (question: Question): ItemView => ({
    ...itemView(question, situation.answers[question.id]),
    ticked: sent?.['ticks'] === undefined ? ticked.has(question.id) : isTicked(sent, question.id),
  })
  const items = new Map(questions.map((question) => [question.id, view(question)]))
  const heard = [...new Set([...meant.map(({ id }) => id), ...told])]
  const common = commonComplaints(knowledge, bench.kind, mostCommon)
    .map(({ id }) => id)
    .filter((id) => !heard.includes(id))
  return {
    frame: caseFrame(knowledge, bench, 'What does it do?', {
      at: '/complaint',
      error: problems.length > 0,
      back:
        q !== '' ? `/cases/${bench.id}/complaint` : bench.events.length === 0 ? '/' : `/cases/${bench.id}`,
    }),
    action: `/cases/${bench.id}/complaint`,
    seen: bench.events.length,
    q,
    // what stands ticked is confirmed, so its hint is read; the others are passed over
    heard: heard.flatMap((id) => items.get(id) ?? []).map((it) => (it.ticked ? it : { ...it, help: null })),
    noMatch: q !== '' && meant.length === 0,
    common: common.flatMap((id) => items.get(id) ?? []),
    groups: groupsOf(
      questions,
      [...items.values()].filter(({ id }) => !heard.includes(id)),
    ),
    said: ownWords(bench),
    known: on.known ? knownWords(knowledge, on.known) : [],
    problems,
  }
}

/** The statements in groups by the sense that tells them, empty groups left out. */
export function groupsOf(questions: readonly Question[], items: readonly ItemView[]): readonly SenseGroup[] {
  const senseOf = new Map(questions.map(({ id, sense }) => [id, sense]))
  return Object.entries(senses)
    .map(([sense, heading]) => ({ heading, items: items.filter(({ id }) => senseOf.get(id) === sense) }))
    .filter((group) => group.items.length > 0)
}

const isTicked = (sent: Sent, question: string): boolean => textsOf(sent, fieldOf(question)).includes('yes')

/**
 * What was said against what was known: newly told, and no longer told. One tap (`say`) only adds; a list of ticks
 * (`ticks`) stands for all that it shows.
 */
export function complaintFrom(
  on: Pick<OnBench, 'knowledge' | 'bench' | 'situation'>,
  sent: Sent,
): { readonly told: readonly string[]; readonly takenBack: readonly string[] } {
  const questions = tellableIds(on.knowledge, on.bench.kind)
  const known = (id: string) => on.situation.answers[id] === 'yes'
  if (sent['say'] !== undefined) {
    const say = textOf(sent, 'say')
    return { told: questions.filter((id) => id === say && !known(id)), takenBack: [] }
  }
  return {
    told: questions.filter((id) => isTicked(sent, id) && !known(id)),
    takenBack: questions.filter((id) => !isTicked(sent, id) && known(id)),
  }
}

const tellableIds = (knowledge: Knowledge, kind: string): readonly string[] =>
  tellable(knowledge, kind).map(({ id }) => id)
