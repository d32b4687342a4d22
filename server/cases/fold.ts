/**
 * What a case's events come to. Pure; nothing is stored that can be folded.
 *
 * Two passes. The first settles which answers and fixes stand once everything taken back is struck out,
 * the second walks over what stands. So what was taken back leaves no trace.
 */
import type { BenchCase, CaseEvent, CaseState } from '../../shared/case.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { standingAfter } from './standing.js'
import { struckOut } from './struck-out.js'

/** An answer that stands, and where it came from. */
interface BenchState {
  readonly value: Answer
  /** how many fixes had been tried */
  readonly after: number
  /** place of the event; a correction that changes nothing keeps the earlier one */
  readonly from: number
}

/**
 * The situation that the diagnosis is asked about.
 *
 * - A later answer replaces an earlier one. Said `now`, it counts as seen after the fixes tried so far;
 *   said `as-before`, it corrects what was seen and keeps its place (with nothing to correct, it is `now`).
 * - Every fix that was done counts as tried, whatever its outcome: a case that goes on after `cured` has
 *   its trouble back.
 * - A fix that is its own test answers its outcome question, as seen *before* that fix: how the tool took
 *   to it tells of the causes that were there then.
 * - A danger sign that was asked for twice and told neither time cannot be settled here.
 * - A stop stays lifted while the answers that it was lifted over stand. A danger seen again is a new one.
 */
export function situationFrom(benchCase: BenchCase, rulebook: Knowledge): Situation {
  const { kind, events } = benchCase
  const knowledge = bookOf(rulebook, kind)
  const danger = knowledge.steps.find(({ form }) => form === 'danger')?.id
  const struck = struckOut(events)
  // after a change of kind a case holds tries of fixes that the new kind does not have
  const fixes = new Set(knowledge.fixes.map(({ id }) => id))
  const answers = new Map<string, BenchState>()
  const fixesTried: string[] = []
  const cannotDo = new Set<string>()
  const lifts = new Map<string, Set<number>>()
  const sure = new Set<string>()

  events.forEach((event, place) => {
    switch (event.type) {
      case 'answered':
        for (const [question, value] of Object.entries(event.answers)) {
          if (struck.answer(place, question)) continue
          const earlier = answers.get(question)
          if (value === 'cant-tell' && earlier?.value === value && event.step === danger) cannotDo.add(danger)
          // said unasked, or asked for once more: either way nobody slipped
          const again = earlier !== undefined && earlier.value !== 'cant-tell'
          if (event.step === 'complaint' || again) sure.add(question)
          const corrects = event.when === 'as-before' ? earlier : undefined
          const after = corrects?.after ?? fixesTried.length
          const from = corrects?.value === value ? corrects.from : place
          answers.set(question, { value, after, from })
        }
        break
      case 'tried': {
        if (struck.fix(place) || !fixes.has(event.fix)) break
        const told = outcomeTold(knowledge, event)
        if (told && !struck.answer(place, told.question)) {
          answers.set(told.question, { value: told.value, after: fixesTried.length, from: place })
        }
        fixesTried.push(event.fix)
        break
      }
      case 'cannot-do':
        cannotDo.add(event.id)
        break
      case 'can-do-after-all':
        cannotDo.delete(event.id)
        break
      case 'lifted':
        lifts.set(event.stop, new Set([...answers.values()].map(({ from }) => from)))
        break
    }
  })

  return {
    kind,
    answers: Object.fromEntries([...answers].map(([question, { value }]) => [question, value])),
    fixesTried,
    answeredAfter: Object.fromEntries(
      [...answers].filter(([, { after }]) => after > 0).map(([question, { after }]) => [question, after]),
    ),
    cannotDo: [...cannotDo],
    stopsLifted: [...lifts]
      .filter(([stop, over]) => liftStands(knowledge, stop, over, answers))
      .map(([id]) => id),
    ...(sure.size > 0 ? { sure: [...sure] } : {}),
    standing: standingAfter(events, struck, knowledge),
    looksWanted: looksWantedAfter(events, knowledge),
    ...(lookedEnough({ events }) && { lookedEnough: true }),
  }
}

/** Was it said that no further look is wanted, and did nothing happen since that may change that? */
export function lookedEnough({ events }: Pick<BenchCase, 'events'>): boolean {
  const last = events.findLast(({ type }) => type === 'looked-enough' || anew.has(type))
  return last?.type === 'looked-enough' && last.so
}

/** What makes looking worth a thought again. */
const anew: ReadonlySet<CaseEvent['type']> = new Set([
  'tried',
  'untried',
  'cannot-do',
  'can-do-after-all',
  'took-back',
  'look-further',
  'reopened',
])

/** Looks asked for beyond an ending that was offered, less those taken or passed over since. */
function looksWantedAfter(events: readonly CaseEvent[], { steps }: Knowledge): number {
  const looks = new Set(steps.map(({ id }) => id))
  return events.reduce((wanted, event) => {
    if (event.type === 'look-further') return event.looks
    const taken =
      (event.type === 'answered' && looks.has(event.step)) ||
      (event.type === 'cannot-do' && looks.has(event.id))
    return taken ? Math.max(0, wanted - 1) : wanted
  }, 0)
}

/**
 * `running-again`, `boxed-for-service` or `set-aside` once finished, until it is opened again. What was boxed is what
 * was said when it came back, and boxed again if that was a mistake.
 */
export function caseStateOf({ events }: Pick<BenchCase, 'events'>): CaseState {
  const last = events.findLast(({ type }) => turns.has(type))
  if (last?.type === 'finished' || last?.type === 'came-back') return last.state
  return last?.type === 'still-away' ? 'boxed-for-service' : 'on-the-bench'
}

/** Events that put a case into another state. */
const turns: ReadonlySet<CaseEvent['type']> = new Set(['finished', 'reopened', 'came-back', 'still-away'])

/** The fix that was told to have cured it, unless that was taken back or the case was opened again. */
export function curedBy({ events }: Pick<BenchCase, 'events'>): string | null {
  const struck = struckOut(events)
  const last = events.findLast(
    (event, place) => event.type === 'reopened' || (event.type === 'tried' && !struck.fix(place)),
  )
  return last?.type === 'tried' && last.outcome === 'cured' ? last.fix : null
}

function outcomeTold(knowledge: Knowledge, event: Extract<CaseEvent, { type: 'tried' }>) {
  const question = knowledge.fixes.find(({ id }) => id === event.fix)?.outcome?.id
  if (question === undefined || event.outcome === 'cured') return null
  return { question, value: event.outcome === 'better' ? ('yes' as const) : ('no' as const) }
}

/** Does the lift still cover every answer that the stop looks at? One at least must be there. */
function liftStands(
  knowledge: Knowledge,
  stop: string,
  over: ReadonlySet<number>,
  answers: ReadonlyMap<string, BenchState>,
): boolean {
  const now = questionsOfStop(knowledge, stop).flatMap((question) => answers.get(question) ?? [])
  return now.length > 0 && now.every(({ from }) => over.has(from))
}

function questionsOfStop(knowledge: Knowledge, id: string): string[] {
  const stop = knowledge.stops.find((it) => it.id === id)
  const findings = new Set(stop ? comparisonsOf(stop.when).map(({ fact }) => fact) : [])
  return knowledge.findings
    .filter((finding) => findings.has(finding.id))
    .flatMap((finding) => comparisonsOf(finding.when).map(({ fact }) => fact))
}
