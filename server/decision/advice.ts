/** What an owner should do: one act, what it beats and by how much. */
import type { NextKind, NextStep } from '../../shared/diagnosis.js'
import type { Figures } from '../../shared/figures.js'
import type { Verdict } from '../../shared/knowledge.js'
import type { Weighed } from './compare.js'
import { differs } from './noise.js'
import type { Option, View } from './options.js'
import { jobsDone, sent } from './options.js'
import { replacingToday } from './prices.js'
import type { MayBe } from './trouble.js'

/** Fix what is known; look, where it is not; send in; buy new; ask the seller before paying; make it safe first. */
export type Act = 'fix' | 'look' | 'send' | 'buy' | 'ask' | 'safe-first'

export interface Advice {
  readonly act: Act
  /** the way that it goes; after `safe-first` and `ask`, the way that would follow */
  readonly option: Option
  /** what it costs today, where it goes as meant: the fix, the fee with carriage, the new one; minor units */
  readonly today: number
  /** minutes after which looking is no longer worth it; null where nobody looks, or a minute costs nothing */
  readonly minutes: number | null
  /** the rule that comes before the sum, where one does */
  readonly rule: Verdict | null
  /** the next best way that is open; null where there is none */
  readonly next: Option | null
  /** do the two differ by more than the estimate can tell? */
  readonly clear: boolean
}

/** A fix is known where so many such tools need it. */
const known = 2 / 3
/** A way that works more seldom is not called by its name. */
const mostly = 1 / 2

/** @param next what the plan would do now */
export function adviceOf(
  { options, verdicts, barred }: Weighed,
  mayBe: readonly MayBe[],
  view: View,
  next: Pick<NextStep, 'step' | 'worthMinutes' | 'minutes'>,
): Advice {
  const { figures } = view
  const open = options.filter(({ way }) => !barred.has(way))
  const first = verdicts.find((rule) => rule.first !== undefined)
  const candidates = open.length > 0 ? open : options.filter(({ way }) => way === 'replace')
  const ranked = [...candidates].sort((a, b) => a.cost - b.cost)
  const best = chosen(ranked, figures)
  const other = runnerUp(best, ranked, figures)
  const act = actOf(best, mayBe, next.step)
  const common = {
    option: best,
    today: todayOf(best, mayBe, view),
    minutes: act === 'look' ? (next.worthMinutes ?? next.minutes) : null,
    next: other,
    clear: other === null || differs(best.cost, other.cost, figures),
  }
  if (first) return { ...common, act: 'safe-first', rule: first }
  if (open.length === 0) {
    const seller = verdicts.find(({ speaksFor, bars }) => speaksFor === 'send-in' && bars.includes('replace'))
    if (seller) return { ...common, act: 'ask', rule: seller }
  }
  return { ...common, act, rule: decidingRule(options, best, barred, figures) }
}

/** Looking that mostly ends elsewhere must save more than the estimate can tell; else that end is the advice. */
function chosen(ranked: readonly Option[], figures: Figures): Option {
  const [best, second] = ranked
  const idle = best!.way === 'mend-here' && best!.works < mostly
  return second && idle && !differs(best!.cost, second.cost, figures) ? second : best!
}

/** The best of the others. Looking that comes to the same end is no other way. */
function runnerUp(best: Option, ranked: readonly Option[], figures: Figures): Option | null {
  const others = ranked.filter((it) => it !== best)
  const looking = (it: Option): boolean =>
    it.way === 'mend-here' && it.works < mostly && !differs(it.cost, best.cost, figures)
  return others.find((it) => !looking(it)) ?? null
}

/** The best of the open ways, where it beats the next by more than the estimate can tell; else null. */
export function clearBest(options: readonly Option[], figures: Figures): Option | null {
  const ranked = [...options].sort((a, b) => a.cost - b.cost)
  if (ranked.length === 0) return null
  const best = chosen(ranked, figures)
  const next = runnerUp(best, ranked, figures)
  return next === null || differs(best.cost, next.cost, figures) ? best : null
}

function actOf({ way, works }: Option, mayBe: readonly MayBe[], next: NextKind): Act {
  if (way === 'send-in') return 'send'
  if (way === 'replace') return 'buy'
  return works >= mostly && (next === 'fix' || leading(mayBe) >= known) ? 'fix' : 'look'
}

/** The share of such tools for which the likeliest first fix is the right one. */
function leading(mayBe: readonly MayBe[]): number {
  const shares = new Map<string, number>()
  for (const { tries, weight } of mayBe) {
    const fix = tries[0]?.[0]?.fix
    if (fix !== undefined) shares.set(fix, (shares.get(fix) ?? 0) + weight)
  }
  return Math.max(0, ...shares.values())
}

/** The money that changes hands where it goes as meant. Of fixing here: on the mean of what would be fixed. */
function todayOf({ way }: Option, mayBe: readonly MayBe[], view: View): number {
  if (way === 'replace') return replacingToday(view.figures)
  const fixed = mayBe.filter((it) => (way === 'send-in' ? it.serviceMends : it.tries.length > 0))
  const weight = fixed.reduce((sum, it) => sum + it.weight, 0)
  const paid = (it: MayBe): number =>
    way === 'send-in' ? sent(view, it).works.cash : jobsDone(view, it.tries[0]!).cash
  return weight === 0 ? 0 : fixed.reduce((sum, it) => sum + it.weight * paid(it), 0) / weight
}

/** The rule that closes what the sum alone would choose. */
function decidingRule(
  options: readonly Option[],
  best: Option,
  barred: Weighed['barred'],
  figures: Figures,
): Verdict | null {
  const bySum = [...options].sort((a, b) => a.cost - b.cost)[0]!
  return differs(bySum.cost, best.cost, figures) ? (barred.get(bySum.way) ?? null) : null
}
