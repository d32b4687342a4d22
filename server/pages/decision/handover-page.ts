/** The handover slip that goes into the box: what is so, what was measured, what was tried, on one sheet. */
import type { Paper } from '../../../shared/knowledge.js'
import { quoteLimitOf } from '../../cases/outcome.js'
import { caseStateOf } from '../../cases/fold.js'
import { struckOut } from '../../cases/struck-out.js'
import type { Problem } from '../../forms/answer-form.js'
import { complaintStep, disinfected, ownWords } from '../../bench/case-state.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { amountText } from '../layout/money.js'
import { plateWords } from '../tools/tool-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import { dangerStep } from '../../bench/on-bench.js'
import { minorWords } from './return-words.js'
import { handoverCautions } from './handover-cautions.js'
import { answerWords, inHundred, instantWords } from '../layout/words.js'

export interface HandoverPage {
  readonly frame: Frame
  readonly actions: { readonly disinfected: string; readonly limit: string }
  readonly seen: number
  /** may it still be changed: is the tool on the bench or in the box? */
  readonly open: boolean
  readonly tool: string
  readonly kind: string
  /** what its plate says; empty where nobody told it */
  readonly plate: string
  readonly begun: string
  readonly number: string
  readonly rows: readonly SlipRow[]
  readonly cautions: readonly string[]
  readonly packing: readonly PaperLine[]
  readonly goesWithIt: readonly string[]
  readonly disinfected: boolean
  readonly limit: {
    readonly words: string
    readonly value: string
    readonly unit: string
    readonly problem: string | null
  }
  readonly problems: readonly Problem[]
}

interface SlipRow {
  readonly term: string
  readonly items: readonly string[]
  /** one paragraph instead of a list, so that the slip keeps to one sheet */
  readonly oneLine: boolean
}

export interface PaperLine {
  readonly words: string
  readonly caution: string | null
}

/** The receiver reads so many suspects at most, those of at least this share. */
const mostSuspects = 3
const leastShare = 0.02

/** Up to so many stand as a list, where they are short; more run on in one paragraph. */
const mostLines = 3
const longestList = 160

/**
 * So many characters of each row are printed at most, then a count of what is left: together they leave room on one
 * sheet of A4 for the longest case of any kind (a line holds about ninety).
 */
const most = { complaint: 200, seen: 290, measured: 290, tried: 260, suspected: 170, notSo: 120 } as const

/** What was typed in the field of the quote limit, and what was wrong with it. */
export interface LimitSent {
  readonly text: string
  readonly problems: readonly Problem[]
}

export function handoverPage(
  on: OnBench,
  papers: readonly Paper[],
  sent: LimitSent | null = null,
): HandoverPage {
  const { knowledge, bench, currency } = on
  const limit = quoteLimitOf(bench)
  const problems = sent?.problems ?? []
  const special = foundToMatter(papers)
  return {
    frame: caseFrame(knowledge, bench, 'Handover slip', { at: '/slip', error: problems.length > 0 }),
    actions: { disinfected: `/cases/${bench.id}/slip`, limit: `/cases/${bench.id}/quote-limit` },
    seen: bench.events.length,
    open: ['on-the-bench', 'boxed-for-service'].includes(caseStateOf(bench)),
    tool: bench.tool || 'Tool without a name',
    kind: lookupOf(knowledge).kinds.get(bench.kind)?.name ?? bench.kind,
    plate: on.known ? plateWords(on.known.tool) : '',
    begun: instantWords(bench.begunAt),
    number: bench.id,
    rows: rowsOf(on),
    cautions: [...special, ...handoverCautions(on, special.length > 0 ? 1 : 2)],
    packing: paperLines(
      papers.filter(({ when }) => !when),
      'packing',
    ),
    goesWithIt: papers.filter((line) => line.on === 'goes-with-it').map((line) => line.do),
    disinfected: disinfected(bench),
    limit: {
      words:
        limit === null
          ? 'No limit was said: call before any work that costs.'
          : `Do not go on above ${minorWords(limit, currency)} without a call.`,
      value: sent?.text ?? (limit === null ? '' : amountText(limit, currency)),
      unit: currency.code,
      problem: problems[0] ? (problems[0].here ?? problems[0].message) : null,
    },
    problems,
  }
}

/** A line of packing that is there only for what was found stands above all else, with its reason. */
function foundToMatter(papers: readonly Paper[]): readonly string[] {
  return papers
    .filter(({ on, when }) => on === 'packing' && when)
    .map(({ do: line, caution }) => (caution ? `${line} ${caution}` : line))
}

/** The lines of one paper that hold, with their cautions. */
export function paperLines(papers: readonly Paper[], on: Paper['on']): readonly PaperLine[] {
  return papers
    .filter((line) => line.on === on)
    .map((line) => ({ words: line.do, caution: line.caution ?? null }))
}

function rowsOf(on: OnBench): readonly SlipRow[] {
  const { knowledge, bench, situation, assessment } = on
  const { questions } = lookupOf(knowledge)
  const statement = (id: string) => questions.get(id)?.question.statement ?? id
  const told = bench.events.flatMap((event) =>
    event.type === 'answered' && event.step === complaintStep ? Object.keys(event.answers) : [],
  )
  const complaint = [...new Set(told)].filter((id) => situation.answers[id] === 'yes')
  const others = Object.entries(situation.answers).filter(([id]) => !complaint.includes(id))
  const answered = (value: string) => others.filter(([, answer]) => answer === value).map(([id]) => id)
  const cantTell = answered('cant-tell').length
  const unsure = cantTell === 0 ? [] : [`${cantTell} that nobody here could tell`]
  return [
    row(
      'Complaint',
      [...ownWords(bench).map((words) => `“${words}”`), ...complaint.map(statement)],
      most.complaint,
    ),
    row('Seen', checkedFirst(on, answered('yes')).map(statement), most.seen),
    row('Measured', readings(on), most.measured),
    row('Tried', tried(on), most.tried),
    row(
      'Suspected',
      assessment.causes
        .filter(({ probability }, place) => place < mostSuspects && probability >= leastShare)
        .map(({ name, probability }) => `${name}, ${inHundred(probability)}`),
      most.suspected,
    ),
    row('Not so', [...upTo(notSo(on, answered('no')), most.notSo), ...unsure], Infinity, true),
    row('Warranty', [warranty(on)], Infinity),
  ]
}

function row(term: string, items: readonly string[], most: number, oneLine = false): SlipRow {
  const long = items.length > mostLines || items.join('').length > longestList
  return { term, items: upTo(items, most), oneLine: oneLine || long }
}

/** Items until so many characters are full, then how many more there are. */
function upTo(items: readonly string[], most: number): readonly string[] {
  let length = 0
  const fits = items.findIndex((item) => (length += item.length + 2) > most)
  if (fits < 0) return items
  const kept = Math.max(1, fits)
  return kept === items.length ? items : [...items.slice(0, kept), `and ${items.length - kept} more`]
}

/** "Free length of the shorter brush: 6.5 mm (Look at the brushes)": the number, its unit, and how it was taken. */
function readings({ knowledge, situation }: OnBench): readonly string[] {
  const { questions } = lookupOf(knowledge)
  return Object.entries(situation.answers).flatMap(([id, answer]) => {
    const asked = questions.get(id)
    if (typeof answer !== 'number' || !asked) return []
    const how = asked.step?.title ?? asked.fix?.name
    const words = `${asked.question.statement}: ${answerWords(answer, asked.question.unit)}`
    return [how ? `${words} (${how})` : words]
  })
}

/** The danger signs are one item where none of them was there. */
function notSo(on: OnBench, noes: readonly string[]): readonly string[] {
  const { questions } = lookupOf(on.knowledge)
  const signs = dangerStep(on.knowledge, on.bench.kind)?.questions.map(({ id }) => id) ?? []
  const none = signs.length > 0 && signs.every((id) => noes.includes(id))
  const others = none ? noes.filter((id) => !signs.includes(id)) : noes
  return [
    ...(none ? [`any of the ${signs.length} danger signs`] : []),
    ...checkedFirst(on, others).map((id) => questions.get(id)?.question.statement ?? id),
  ]
}

/** What hands checked comes before what was only asked. */
function checkedFirst({ knowledge }: OnBench, ids: readonly string[]): readonly string[] {
  const { questions } = lookupOf(knowledge)
  const checked = (id: string) => questions.get(id)?.step?.form === 'check'
  return [...ids.filter(checked), ...ids.filter((id) => !checked(id))]
}

/** What helped somewhat comes first; what changed nothing is said once for all of it. */
function tried({ knowledge, bench }: OnBench): readonly string[] {
  const { fixes } = lookupOf(knowledge)
  const struck = struckOut(bench.events)
  const done = bench.events.flatMap((event, place) =>
    event.type === 'tried' && !struck.fix(place)
      ? [{ name: fixes.get(event.fix)?.name ?? event.fix, outcome: event.outcome }]
      : [],
  )
  const helped = { cured: 'cured it then', better: 'better, not right' } as const
  const vain = done.filter(({ outcome }) => outcome === 'no').map(({ name }) => name)
  return [
    ...done.flatMap(({ name, outcome }) => (outcome === 'no' ? [] : [`${name}: ${helped[outcome]}`])),
    ...vain.map((name, place) => (place === 0 ? `No change: ${name}` : name)),
  ]
}

/** Dates of purchase are not known here: whether somebody said that there is one, and whether the body was opened. */
function warranty({ inForce, opened }: OnBench): string {
  const said = inForce.from.inWarranty !== 'usual'
  const holds = said ? (inForce.figures.inWarranty ? 'Yes, as the shop says' : 'No') : 'Not said'
  return `${holds}. Body ${opened ? 'was opened here' : 'not opened here'}.`
}
