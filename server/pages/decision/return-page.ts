/** "It is back": what the service took, found and did. */
import { returnOf } from '../../cases/outcome.js'
import { liftField } from '../../forms/return-form.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { matchingAmong } from '../layout/find-by-words.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { amountText } from '../layout/money.js'
import type { OnBench } from '../../bench/on-bench.js'
import { kindOnBench, safetyTestSpared } from '../../bench/on-bench.js'

export interface ReturnPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly correcting: boolean
  readonly cautions: readonly string[]
  readonly amounts: readonly FieldView[]
  readonly dates: readonly FieldView[]
  readonly unit: string
  readonly found: FieldView
  readonly searched: boolean
  readonly noMatch: boolean
  readonly causes: readonly Choice[]
  readonly mended: ChoiceField
  readonly state: ChoiceField
  /** stops that stand: before it runs again, somebody did what lifts them */
  readonly lifts: readonly (FieldView & { readonly liftedBy: string })[]
  readonly problems: readonly Problem[]
}

interface FieldView {
  readonly name: string
  readonly words: string
  readonly hint: string
  readonly value: string
  readonly problem: string | null
}

interface Choice {
  readonly value: string
  readonly words: string
  readonly chosen: boolean
}

interface ChoiceField {
  readonly choices: readonly Choice[]
  readonly problem: string | null
}

/** As many of the likeliest causes are offered before anybody searches. */
const mostOffered = 5

/**
 * @param today the day by the shop's calendar, such as 2026-03-02
 * @param sent  what was typed so far; null on a page that is opened
 */
export function returnPage(
  on: OnBench,
  today: string,
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
): ReturnPage {
  const { knowledge, bench, currency } = on
  const before = returnOf(bench)
  const typed = (name: string, otherwise: string) => (sent ? textOf(sent, name) : otherwise)
  const amount = (minor: number | undefined) => (minor === undefined ? '' : amountText(minor, currency))
  const wrong = (name: string) => {
    const problem = problems.find(({ field }) => field === name)
    return problem ? (problem.here ?? problem.message) : null
  }
  const field = (name: string, words: string, hint: string, otherwise: string): FieldView => ({
    name,
    words,
    hint,
    value: typed(name, otherwise),
    problem: wrong(name),
  })
  const choice = (
    name: string,
    chosen: string,
    all: readonly (readonly [string, string])[],
  ): ChoiceField => ({
    choices: all.map(([value, words]) => ({ value, words, chosen: typed(name, chosen) === value })),
    problem: wrong(name),
  })
  const found = typed('found', before?.found ?? '')
  const searched = sent !== null && found !== '' && problems.length === 0
  const matches = searched ? matchingCauses(on, found) : []
  return {
    frame: caseFrame(knowledge, bench, 'It is back', { at: '/return', error: problems.length > 0 }),
    action: `/cases/${bench.id}/return`,
    seen: bench.events.length,
    correcting: before !== null,
    cautions: cautionsFor(on),
    amounts: [
      field('fee', 'Fee paid', '0 where it was free.', amount(before?.fee)),
      field(
        'carriage',
        'Carriage paid',
        'There and back together; 0 where somebody carried it.',
        amount(before?.carriage),
      ),
    ],
    dates: [
      field('left', 'It left on', '', before?.left ?? dayOf(new Date(bench.changedAt))),
      field('back', 'It came back on', '', before?.back ?? today),
    ],
    unit: currency.code,
    found: field(
      'found',
      'What did they find?',
      'In your words or theirs. Find looks for it among the faults that the rulebook knows.',
      before?.found ?? '',
    ),
    searched,
    noMatch: searched && matches.length === 0,
    causes: causeChoices(on, matches, typed('cause', before?.cause ?? '')),
    mended: choice('mended', before ? (before.mended ? 'yes' : 'no') : '', [
      ['yes', 'Yes'],
      ['no', 'No'],
    ]),
    state: choice('state', before?.state ?? '', [
      ['running-again', 'It runs again – back into use'],
      ['set-aside', 'It is set aside – nobody uses it'],
    ]),
    lifts: on.assessment.stops.map(({ id }) => {
      const stop = lookupOf(knowledge).stops.get(id)
      return {
        ...field(liftField(id), stop?.name ?? id, `What lifts it: ${stop?.lift ?? ''}`, ''),
        liftedBy: stop?.liftedBy ?? '',
      }
    }),
    problems,
  }
}

/** "2026-03-02": the day of an instant by the clock of the shop that the server stands in. */
export function dayOf(when: Date): string {
  const two = (count: number) => String(count).padStart(2, '0')
  return `${when.getFullYear()}-${two(when.getMonth() + 1)}-${two(when.getDate())}`
}

function cautionsFor(on: OnBench): readonly string[] {
  return [
    'A fixed tool is looked at like any other before it touches anybody: cord and plug, body, blade square-on, a stroke over damp tissue, then disinfected.',
    ...(safetyTestSpared(on)
      ? []
      : ['Was its body opened? Then ask for the electrical safety test in writing. No result, no client.']),
  ]
}

function matchingCauses({ knowledge, ...on }: OnBench, words: string): readonly string[] {
  const parts = new Map(kindOnBench({ knowledge, ...on }).parts.map(({ id, name }) => [id, name]))
  const findable = knowledge.causes.map(({ id, name, description, part }) => ({
    id,
    statement: name,
    text: description,
    // ids name parts as a service does, where the pages say it as a barber would
    words: [parts.get(part) ?? part, part, id].map((name) => name.replaceAll('-', ' ')),
  }))
  return matchingAmong(findable, words).slice(0, 8)
}

/** Those that were found by words, or else the likeliest; the chosen one is always among them. */
function causeChoices(on: OnBench, matches: readonly string[], chosen: string): readonly Choice[] {
  const { causes } = lookupOf(on.knowledge)
  const likeliest = on.assessment.causes.slice(0, mostOffered).map(({ id }) => id)
  const offered = new Set([
    ...(matches.length > 0 ? matches : likeliest),
    ...(causes.has(chosen) ? [chosen] : []),
  ])
  return [
    ...[...offered].map((id) => ({ value: id, words: causes.get(id)?.name ?? id, chosen: id === chosen })),
    { value: '', words: 'None of these, or they did not say', chosen: !causes.has(chosen) },
  ]
}
