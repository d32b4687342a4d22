/** The rules that come before the sum: which hold for this trouble, and which ways out they leave open. */
import { comparisonsOf } from '../../shared/conditions.js'
import type { Facts, FindingState } from '../../shared/diagnosis.js'
import type { Cause, Knowledge, Policy, Verdict } from '../../shared/knowledge.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import { firedRules } from '../diagnosis/fired-rules.js'
import type { View, Way } from './options.js'
import { ways } from './options.js'
import { warrantyHolds } from './prices.js'
import type { MayBe, Trouble } from './trouble.js'

export interface Judged {
  /** every rule that holds, in rulebook order */
  readonly held: readonly Verdict[]
  /** by way: the first rule that closes it, those left out that a short act here lifts */
  readonly barred: ReadonlyMap<Way, Verdict>
}

/** What the rules look at, besides the figures. */
export interface BenchState {
  /** the book of the tool's kind */
  readonly knowledge: Knowledge
  readonly findings: ReadonlyMap<string, FindingState>
  /** fixes that policy bars here, with the rule */
  readonly barredBy: ReadonlyMap<string, Pick<Policy, 'id'>>
  /** does a stop hold that ends the work? */
  readonly setAside: boolean
  readonly disinfected: boolean
}

export async function judged(trouble: Trouble, view: View, standing: BenchState): Promise<Judged> {
  const rules = standing.knowledge.verdicts
  const facts = factsOf(trouble, view, standing)
  // a finding of another kind, a part that this one has not: nobody can know it
  for (const { when } of rules) for (const { fact } of comparisonsOf(when)) facts[fact] ??= absent(fact)
  const ids = new Set(await firedRules(rules, facts))
  const held = rules.filter(({ id }) => ids.has(id))
  const barred = new Map<Way, Verdict>()
  for (const way of ways) {
    const rule = held.find(({ bars, first }) => first === undefined && bars.includes(way))
    if (rule) barred.set(way, rule)
  }
  return { held, barred }
}

const absent = (fact: string): string | number => (/^(suspected|barred-by)-/.test(fact) ? 0 : 'unknown')
const yesNo = (is: boolean): string => (is ? 'yes' : 'no')

function factsOf(trouble: Trouble, view: View, standing: BenchState): Record<string, Facts[string]> {
  const { figures, opened } = view
  const { knowledge } = standing
  const facts: Record<string, Facts[string]> = Object.fromEntries(standing.findings)
  const causes = new Map(knowledge.causes.map((cause) => [cause.id, cause]))
  const share = (is: (it: MayBe) => boolean): number =>
    Math.round(100 * trouble.mayBe.reduce((sum, it) => (is(it) ? sum + it.weight : sum), 0))
  for (const { id } of knowledge.policy)
    facts[`barred-by-${id}`] = share((it) => isBarredBy(it, id, standing))
  for (const { id } of knowledge.kinds.flatMap(({ parts }) => parts))
    facts[`suspected-${id}`] = share((it) => it.causes.some((cause) => causes.get(cause)?.part === id))
  return {
    ...facts,
    'in-warranty': yesNo(warrantyHolds(figures, opened)),
    'opening-voids': yesNo(figures.openingVoids),
    covered: share(({ covered }) => covered),
    'wear-part': share((it) => hasCause(it, causes, 'wear')),
    'own-doing': share((it) => hasCause(it, causes, 'handling')),
    opened: yesNo(opened),
    'set-aside': yesNo(standing.setAside),
    disinfected: yesNo(standing.disinfected),
    'can-safety-test': yesNo(figures.canSafetyTest),
    'parts-to-be-had': yesNo(figures.partsToBeHad),
    'needs-opening': share(
      (it) => (it.tries[0] ?? []).some((job) => job.opensBody) || opensIfAllowed(it, standing),
    ),
    'age-of-life': Math.round((100 * (figures.age ?? figures.newLife / 2)) / figures.newLife),
    'motor-faults-this-year': figures.motorFaultsThisYear,
  }
}

/** Is some cause of it of that sort in a warranty? */
const hasCause = (it: MayBe, causes: ReadonlyMap<string, Cause>, sort: Cause['warranty']): boolean =>
  it.causes.some((id) => causes.get(id)?.warranty === sort)

/** Has some cause of it repairs, every one of them barred here, and one at least by this rule? */
function isBarredBy({ causes, tries }: MayBe, rule: string, { knowledge, barredBy }: BenchState): boolean {
  if (tries.length > 0) return false
  return causes.some((cause) => {
    const fixes = knowledge.fixes.filter((fix) => fix.cures[cause] !== undefined)
    return (
      fixes.length > 0 &&
      fixes.every(({ id }) => barredBy.has(id)) &&
      fixes.some(({ id }) => barredBy.get(id)!.id === rule)
    )
  })
}

/** Would the repair open the body, were it allowed? A warranty bars such repairs, and is asked about them all the same. */
function opensIfAllowed({ causes, tries }: MayBe, { knowledge }: BenchState): boolean {
  if (tries.length > 0) return false
  const opens = (setups: readonly string[]): boolean =>
    setupsNeeded(knowledge.setups, setups).some(({ opensBody }) => opensBody)
  return causes.some((cause) => {
    const fixes = knowledge.fixes.filter((fix) => fix.cures[cause] !== undefined)
    return fixes.length > 0 && fixes.every((fix) => opens(fix.setups))
  })
}
