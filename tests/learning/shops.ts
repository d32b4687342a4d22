/**
 * Invented shops whose true figures are not the rulebook's: twelve tools, three years, one kind. They learn from what
 * they confirm; then both ways of scoring are asked about new cases. Numbers come from the minimal standard generator
 * (ISO/IEC 14882 minstd_rand0), so that a seed is a shop.
 */
import type { FindingState } from '../../shared/diagnosis.js'
import type { KindModel } from '../../server/diagnosis/model.js'
import type { Person } from '../../server/diagnosis/person.js'
import { personRelearned } from '../../server/diagnosis/person.js'
import { learnedShares, relearned } from '../../server/diagnosis/relearned.js'
import { weigh } from '../../server/diagnosis/posterior.js'
import type { ConfirmedCase } from '../../server/learning/count-case.js'
import { countCases } from '../../server/learning/count-case.js'

/** 12 tools, 3 years, 1.5 troubles a tool and year that end confirmed. */
const casesLearned = 54
const casesAsked = 40
/** Findings that somebody comes to know in a case. */
const known = 14
/** How far the truth lies from the rulebook, as standard deviations of logarithm (shares, minutes) and log-odds. */
const away = { shares: 1, strengths: 0.7, telling: 0.7, minutes: 0.4 }
/** Screens of a case; share of cases whose fix somebody timed, and how the same fix varies, as before. */
const [screens, timed, varies] = [6, 0.6, 0.3]

interface ShopResult {
  /** half the sum of absolute differences of shares from the true ones */
  readonly sharesOff: { readonly rulebook: number; readonly learned: number }
  /** mean −ln of the score of the true cause, in nats */
  readonly logLoss: { readonly rulebook: number; readonly learned: number }
  /** mean distance of the chances to tell from the true ones, over the ways of telling */
  readonly tellingOff: { readonly rulebook: number; readonly learned: number }
  /** mean distance of the logarithm of minutes from the true ones, over the fixes that were done */
  readonly minutesOff: { readonly rulebook: number; readonly learned: number }
}

/** What the rulebook says of the kind that the shops have. */
interface Told {
  readonly model: KindModel
  readonly person: Person
}

function chances(seed: number): () => number {
  let x = seed
  return () => (x = (x * 16_807) % 2_147_483_647) / 2_147_483_647
}

/** @param wrong share of confirmations that name another cause than the true one */
function runShop({ model, person }: Told, seed: number, wrong: number): ShopResult {
  const chance = chances(seed)
  for (let k = 0; k < 10; k++) chance()
  const normal = () => Math.sqrt(-2 * Math.log(chance())) * Math.cos(2 * Math.PI * chance())
  const rulebookShares = model.causes.map(({ shares }) => shares[model.kind.id]!)
  const raw = rulebookShares.map((share) => share * Math.exp(away.shares * normal()))
  const sum = raw.reduce((a, b) => a + b, 0)
  const trueShares = raw.map((share) => share / sum)
  const trueStrengths = model.strengths.map((row) =>
    row.map((s) => (s === 0 ? 0 : moved(s, away.strengths * normal()))),
  )

  const ways = new Map([...person.telling.values()].map(({ way, chance: p }) => [way, p]))
  const trueTelling = new Map([...ways].map(([way, p]) => [way, moved(p, away.telling * normal())]))
  const trueMinutes = new Map(
    model.fixes.map(({ id, minutes }) => [id, minutes * Math.exp(away.minutes * normal())]),
  )
  const drawTold = () =>
    Array.from({ length: screens }, () => {
      const way = [...ways.keys()][Math.floor(chance() * ways.size)]!
      return { way, told: Number(chance() < trueTelling.get(way)!) }
    })
  const drawTook = (cause: string) => {
    const fix = bestFix(model, cause)
    if (!fix || chance() > timed) return []
    return [{ fix, minutes: trueMinutes.get(fix)! * Math.exp(varies * normal()) }]
  }

  const drawCase = (): ConfirmedCase => {
    let left = chance()
    const cause = trueShares.findIndex((share) => (left -= share) < 0)
    const c = cause < 0 ? trueShares.length - 1 : cause
    const states = new Map<string, FindingState>()
    for (let k = 0; k < known; k++) {
      const f = Math.floor(chance() * model.findings.length)
      const p = 1 - (1 - model.leaks[f]!) * (1 - trueStrengths[f]![c]!)
      if (!states.has(model.findings[f]!.id)) states.set(model.findings[f]!.id, chance() < p ? 'yes' : 'no')
    }
    const { id } = model.causes[c]!
    return { cause: id, states, tried: [], took: drawTook(id), told: drawTold() }
  }
  const confirmed = Array.from({ length: casesLearned }, (): ConfirmedCase => {
    const it = drawCase()
    const other = model.causes[Math.floor(chance() * model.causes.length)]!.id
    return chance() < wrong ? { ...it, cause: other } : it
  })
  const counts = countCases(confirmed, `shop ${seed}`)
  const learned = relearned(model, counts)
  const asked = Array.from({ length: casesAsked }, drawCase)
  const off = (shares: readonly number[]) =>
    shares.reduce((sum, share, i) => sum + Math.abs(share - trueShares[i]!), 0) / 2
  const all = rulebookShares.reduce((a, b) => a + b, 0)
  return {
    sharesOff: {
      rulebook: off(rulebookShares.map((share) => share / all)),
      learned: off(learnedShares(model, counts)),
    },
    logLoss: { rulebook: lossOf(model, asked), learned: lossOf(learned, asked) },
    tellingOff: {
      rulebook: tellingOff(person, trueTelling),
      learned: tellingOff(personRelearned(person, counts), trueTelling),
    },
    minutesOff: {
      rulebook: minutesOff(model, Object.keys(counts.minutes), trueMinutes),
      learned: minutesOff(learned, Object.keys(counts.minutes), trueMinutes),
    },
  }
}

const mean = (values: readonly number[]): number => values.reduce((a, b) => a + b, 0) / values.length

const bestFix = ({ fixes }: KindModel, cause: string): string | undefined =>
  [...fixes].sort((a, b) => (b.cures[cause] ?? 0) - (a.cures[cause] ?? 0)).find(({ cures }) => cures[cause])
    ?.id

const tellingOff = ({ telling }: Person, truth: ReadonlyMap<string, number>): number =>
  mean([
    ...new Map(
      [...telling.values()].map((it) => [it.way, Math.abs(it.chance - truth.get(it.way)!)]),
    ).values(),
  ])

const minutesOff = (
  { fixes }: KindModel,
  done: readonly string[],
  truth: ReadonlyMap<string, number>,
): number =>
  mean(
    fixes
      .filter(({ id }) => done.includes(id))
      .map(({ id, minutes }) => Math.abs(Math.log(minutes / truth.get(id)!))),
  )

function lossOf(model: KindModel, cases: readonly ConfirmedCase[]): number {
  const losses = cases.map(({ cause, states }) => {
    const observations = [...states].map(([finding, state]) => ({
      finding: model.findingIndex.get(finding)!,
      present: state === 'yes',
      after: 0,
    }))
    const { there } = weigh(model, observations, [])
    const sum = there.reduce((a, b) => a + b, 0)
    return -Math.log(Math.max(1e-12, there[model.causeIndex.get(cause)!]! / sum))
  })
  return losses.reduce((a, b) => a + b, 0) / losses.length
}

const moved = (p: number, by: number): number => {
  const odds = (Math.min(0.99, Math.max(0.01, p)) / (1 - Math.min(0.99, Math.max(0.01, p)))) * Math.exp(by)
  return odds / (1 + odds)
}

/** The mean of many shops. */
export function meanOver(told: Told, seeds: readonly number[], wrong: number): ShopResult {
  const results = seeds.map((seed) => runShop(told, seed, wrong))
  const both = (what: keyof ShopResult) => ({
    rulebook: mean(results.map((it) => it[what].rulebook)),
    learned: mean(results.map((it) => it[what].learned)),
  })
  return {
    sharesOff: both('sharesOff'),
    logLoss: both('logLoss'),
    tellingOff: both('tellingOff'),
    minutesOff: both('minutesOff'),
  }
}

/** The kind of most shops. */
export const kindAsked = 'universal-motor'
