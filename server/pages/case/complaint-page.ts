import type { Knowledge, Question } from '../../../shared/knowledge.js'
import type { ItemView, Problem, Sent } from '../../forms/answer-form.js'
import { fieldOf, itemView, textsOf } from '../../forms/answer-form.js'
import { ownWords } from '../../bench/case-state.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { OnBench } from '../../bench/on-bench.js'
import { commonComplaints, statementsMeant, tellable } from '../../statements/statements.js'

export interface ComplaintPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly q: string
  readonly searched: boolean
  readonly matches: readonly ItemView[]
  readonly noMatch: boolean
  /** what people come with most often, less what stands among the matches */
  readonly common: readonly ItemView[]
  readonly groups: readonly SenseGroup[]
  readonly said: readonly string[]
  readonly problems: readonly Problem[]
}

export interface SenseGroup {
  readonly heading: string
  readonly count: string
  readonly items: readonly ItemView[]
  /** folded groups open by themselves when something in them is ticked */
  readonly open: boolean
}

const senses = {
  hands: 'What your hands tell',
  ears: 'What your ears tell',
  eyes: 'What your eyes tell',
  nose: 'What your nose tells',
  story: 'What happened: the story',
} as const satisfies Record<NonNullable<Question['sense']>, string>

/**
 * Where a user says what they notice. What is not ticked stays unknown.
 *
 * @param sent what was ticked and typed just now, in the address or in a form; null on the first look
 */
export function complaintPage(
  on: OnBench,
  sent: Sent | null,
  problems: readonly Problem[] = [],
): ComplaintPage {
  const { knowledge, bench, situation } = on
  const q = sent ? (textsOf(sent, 'q')[0] ?? '').trim() : ''
  const found = statementsMeant(knowledge, bench.kind, q).map(({ id }) => id)
  const common = commonComplaints(knowledge, bench.kind)
    .map(({ id }) => id)
    .filter((id) => !found.includes(id))
  const view = (question: Question): ItemView => itemView(question, situation.answers[question.id], sent)
  const items = new Map(tellable(knowledge, bench.kind).map((question) => [question.id, view(question)]))
  const left = [...items.values()].filter(({ id }) => !found.includes(id) && !common.includes(id))
  return {
    frame: caseFrame(knowledge, bench, 'What does it do?', { at: '/complaint', error: problems.length > 0 }),
    action: `/cases/${bench.id}/complaint`,
    seen: bench.events.length,
    q,
    searched: q !== '',
    matches: found.flatMap((id) => items.get(id) ?? []),
    noMatch: q !== '' && found.length === 0,
    common: common.flatMap((id) => items.get(id) ?? []),
    groups: groupsOf(knowledge, bench.kind, left),
    said: ownWords(bench),
    problems,
  }
}

/** The statements in groups by the sense that tells them, empty groups left out. */
export function groupsOf(
  knowledge: Knowledge,
  kind: string,
  items: readonly ItemView[],
): readonly SenseGroup[] {
  const senseOf = new Map(tellable(knowledge, kind).map(({ id, sense }) => [id, sense]))
  return Object.entries(senses)
    .map(([sense, heading]) => {
      const ofSense = items.filter(({ id }) => senseOf.get(id) === sense)
      return {
        heading,
        count: ofSense.length === 1 ? '1 line' : `${ofSense.length} lines`,
        items: ofSense,
        open: ofSense.some(({ ticked }) => ticked),
      }
    })
    .filter((group) => group.items.length > 0)
}

/** What the ticks mean against what was known: newly told, and no longer told. */
export function complaintFrom(
  on: OnBench,
  sent: Sent,
): { readonly told: readonly string[]; readonly takenBack: readonly string[] } {
  const told: string[] = []
  const takenBack: string[] = []
  for (const { id } of tellable(on.knowledge, on.bench.kind)) {
    const ticked = textsOf(sent, fieldOf(id)).includes('yes')
    const before = on.situation.answers[id] === 'yes'
    if (ticked && !before) told.push(id)
    if (!ticked && before) takenBack.push(id)
  }
  return { told, takenBack }
}
