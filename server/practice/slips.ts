/** What may hurt about a move, judged before it is made: the rules of `rules/slips/` over facts of the bench. */
import { comparisonsOf } from '../../shared/conditions.js'
import type { FactValue } from '../../shared/diagnosis.js'
import type { Slip } from '../../shared/knowledge.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { PracticeMove } from '../../shared/practice.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import { firedRules } from '../diagnosis/fired-rules.js'
import { rulesHolding } from '../simulation/holding.js'
import type { Desk, BenchState } from './desk.js'
import { dangerLooked, findingsAt, isMended } from './desk.js'

/** How a move is called in the rules. */
const moveNames: Readonly<Record<Exclude<PracticeMove['type'], 'ended'>, string>> = {
  stood: 'stand',
  'put-back': 'put-back',
  looked: 'look',
  tried: 'fix',
  spread: 'spread',
  disinfected: 'disinfect',
  'made-safe': 'make-safe',
  dared: 'dare',
}

/** The slips that this move would be, worst first: those that end the exercise, then by rulebook order. */
export async function slipsOf(desk: Desk, standing: BenchState, move: PracticeMove): Promise<Slip[]> {
  const slips = bookOf(desk.book.knowledge, desk.kind.model.kind.id).slips
  if (move.type === 'spread' || slips.length === 0) return []
  const asked = [...new Set(slips.flatMap(({ when }) => comparisonsOf(when).map(({ fact }) => fact)))]
  const factOf = await factsOf(desk, standing, move)
  const held = new Set(await firedRules(slips, Object.fromEntries(asked.map((fact) => [fact, factOf(fact)]))))
  const fired = slips.filter(({ id }) => held.has(id))
  return [...fired.filter(({ grade }) => grade === 'ends'), ...fired.filter(({ grade }) => grade !== 'ends')]
}

const yesNo = (is: boolean): string => (is ? 'yes' : 'no')

/**
 * Any fact that a slip may ask for, as listed in the checks of the rulebook. `shows-…` and `holds-…` are the truth
 * about the tool, whatever the learner knows of it.
 */
async function factsOf(
  desk: Desk,
  standing: BenchState,
  move: PracticeMove,
): Promise<(fact: string) => FactValue> {
  const { model } = desk.kind
  const { situation, causes } = standing
  const findings = await findingsAt(desk, situation)
  const step = move.type === 'looked' ? model.steps.find(({ id }) => id === move.step) : undefined
  const fix = move.type === 'tried' ? model.fixes.find(({ id }) => id === move.fix) : undefined
  const wanted = step?.setups ?? fix?.setups ?? (move.type === 'stood' ? [move.setup] : [])
  const needs = new Set(setupsNeeded(model.setups, wanted).map(({ id }) => id))
  const shows = (finding: string): 'yes' | 'no' | 'unknown' => {
    const f = model.findingIndex.get(finding)
    return f === undefined ? 'unknown' : desk.tool.shows(f, causes) ? 'yes' : 'no'
  }
  const holding = new Set((await rulesHolding(model.stops, shows)).map(({ id }) => id))
  const plain: Readonly<Record<string, FactValue>> = {
    move: move.type === 'ended' ? move.way : moveNames[move.type],
    step: step?.id ?? 'none',
    fix: fix?.id ?? 'none',
    act: move.type === 'dared' ? move.act : 'none',
    power: yesNo(step?.power ?? false),
    disinfected: yesNo(standing.disinfected),
    mended: yesNo(isMended(standing)),
    stopped: yesNo(findings.stops.some(({ grade }) => grade === 'set-aside')),
    'danger-looked': yesNo(dangerLooked(desk, situation)),
  }
  const families: Readonly<Record<string, (id: string) => FactValue>> = {
    'needs-': (id) => yesNo(needs.has(id)),
    'sets-up-': (id) => yesNo(needs.has(id) && !situation.standing.includes(id)),
    'stands-': (id) => yesNo(situation.standing.includes(id)),
    'shows-': (id) => (shows(id) === 'yes' ? 'yes' : 'no'),
    'told-': (id) => findings.states.get(id) ?? 'unknown',
    'holds-': (id) => yesNo(holding.has(id) && !situation.stopsLifted.includes(id)),
  }
  return (fact) => {
    if (fact in plain) return plain[fact]!
    const family = Object.keys(families).find((prefix) => fact.startsWith(prefix))
    return family === undefined ? 'unknown' : families[family]!(fact.slice(family.length))
  }
}
