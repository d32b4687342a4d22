import { struckOut } from '../cases/struck-out.js'
import { complaintStep, disinfected, ownWords } from './case-state.js'
import type { Frame } from './frame.js'
import { caseFrame } from './frame.js'
import { lookupOf } from './lookup.js'
import type { OnBench } from './on-bench.js'
import { dangerStep } from './on-bench.js'
import { answerWords, inHundred, instantWords } from './words.js'

/** The handover slip that goes into the box. */
export interface SlipPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly tool: string
  readonly kind: string
  readonly begun: string
  readonly number: string
  readonly complaint: readonly string[]
  readonly rows: readonly {
    readonly term: string
    readonly items: readonly string[]
    /** one line instead of a list, so that the slip keeps to one sheet */
    readonly oneLine: boolean
    readonly none: string
  }[]
  readonly cautions: readonly string[]
  readonly packing: readonly string[]
  readonly disinfected: boolean
}

/** The receiver reads so many suspects at most, those of at least this share. */
const mostSuspects = 5
const leastShare = 0.02

/** More than this many run on in one paragraph, or a long case would not keep to one sheet of paper. */
const mostLines = 4

/** What goes into every box, whatever is wrong; common practice, no source. */
const packing = [
  'Hair brushed off, blade and body wiped and disinfected as the label says, dry before it is packed.',
  'Its own cord and the blade that gave the trouble go with it; combs and guards stay here.',
  'Teeth covered with card, nothing loose in the box, this slip on top.',
] as const

export function slipPage(on: OnBench): SlipPage {
  const { knowledge, bench, situation, assessment } = on
  const { questions, stops } = lookupOf(knowledge)
  const said = (id: string): string => {
    const asked = questions.get(id)
    const answer = situation.answers[id]
    return asked && answer !== undefined
      ? `${asked.question.statement}: ${answerWords(answer, asked.question.unit).toLowerCase()}`
      : ''
  }
  const told = bench.events.flatMap((event) =>
    event.type === 'answered' && event.step === complaintStep ? Object.keys(event.answers) : [],
  )
  const complaint = [...new Set(told)].filter((id) => situation.answers[id] === 'yes')
  const others = Object.keys(situation.answers).filter((id) => !complaint.includes(id))
  const answered = others.filter((id) => situation.answers[id] !== 'cant-tell')
  const found = answered.filter((id) => situation.answers[id] !== 'no').map(said)
  const fixes = tried(on)
  return {
    frame: caseFrame(knowledge, bench, 'Handover slip', { at: '/slip' }),
    action: `/cases/${bench.id}/slip`,
    seen: bench.events.length,
    tool: bench.tool || 'Tool without a name',
    kind: lookupOf(knowledge).kinds.get(bench.kind)?.name ?? bench.kind,
    begun: instantWords(bench.begunAt),
    number: bench.id,
    complaint: [...ownWords(bench).map((words) => `“${words}”`), ...complaint.map(statementOf(on))],
    rows: [
      {
        term: 'Found',
        items: found,
        oneLine: found.length > mostLines,
        none: 'nothing yet',
      },
      {
        term: 'Not so',
        items: notSo(on, answered),
        oneLine: true,
        none: 'nothing yet',
      },
      {
        term: 'Could not be told',
        items: others.filter((id) => situation.answers[id] === 'cant-tell').map(statementOf(on)),
        oneLine: true,
        none: 'nothing',
      },
      { term: 'Tried', items: fixes, oneLine: fixes.length > mostLines, none: 'nothing' },
      {
        term: 'Suspected',
        items: assessment.causes
          .filter(({ probability }, place) => place < mostSuspects && probability >= leastShare)
          .map(({ name, probability }) => `${name}, ${inHundred(probability)}`),
        oneLine: true,
        none: 'nothing in particular',
      },
    ],
    cautions: [
      ...assessment.stops.map(({ id }) => `${stops.get(id)?.name ?? id}: ${stops.get(id)?.why ?? ''}`),
      ...situation.stopsLifted.map(
        (id) => `${stops.get(id)?.name ?? id}: lifted here. ${stops.get(id)?.lift ?? ''}`,
      ),
      ...hazards(on),
    ],
    packing,
    disinfected: disinfected(bench),
  }
}

/** What was answered with no; the danger signs in one item where each was a no, so that the slip keeps to one sheet. */
function notSo(on: OnBench, answered: readonly string[]): readonly string[] {
  const noes = answered.filter((id) => on.situation.answers[id] === 'no')
  const signs = dangerStep(on.knowledge, on.bench.kind)?.questions.map(({ id }) => id) ?? []
  const none = signs.length > 0 && signs.every((id) => noes.includes(id))
  const others = none ? noes.filter((id) => !signs.includes(id)) : noes
  return [...(none ? [`Any of the ${signs.length} danger signs`] : []), ...others.map(statementOf(on))]
}

function statementOf({ knowledge }: OnBench): (id: string) => string {
  const { questions } = lookupOf(knowledge)
  return (id) => questions.get(id)?.question.statement ?? id
}

function tried({ knowledge, bench }: OnBench): readonly string[] {
  const { fixes } = lookupOf(knowledge)
  const outcomes = { cured: 'cured it then', better: 'better, not right', no: 'no change' } as const
  const struck = struckOut(bench.events)
  return bench.events.flatMap((event, place) =>
    event.type === 'tried' && !struck.fix(place)
      ? [`${fixes.get(event.fix)?.name ?? event.fix}: ${outcomes[event.outcome]}`]
      : [],
  )
}

/** What the likeliest causes could do to the hands that open the box. */
function hazards({ knowledge, assessment }: OnBench): readonly string[] {
  const { causes } = lookupOf(knowledge)
  return assessment.causes
    .filter(({ probability }, place) => place < 2 && probability >= 0.1)
    .flatMap(({ id, name }) => {
      const hazard = causes.get(id)?.hazard
      return hazard === undefined ? [] : [`${name}: ${hazard}`]
    })
}
