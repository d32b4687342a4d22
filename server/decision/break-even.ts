/**
 * At which value of a figure the choice flips. Looked for with the plan as it stands, which costs nothing; the few that
 * are told are planned anew on both sides, as the page will plan when the value is entered. Nothing is told that the
 * estimate cannot tell apart.
 */
import type { Figures } from '../../shared/figures.js'
import type { Advice } from './advice.js'
import { clearBest } from './advice.js'
import type { CasePlanner } from './case-plan.js'
import type { Weighed } from './compare.js'
import { weighed } from './compare.js'
import type { Turned } from './dials.js'
import { differs } from './noise.js'
import { dials, limitOf, sayable, turnedNames } from './dials.js'
import type { Option, View, Way } from './options.js'
import { optionsOf } from './options.js'
import type { MayBe } from './trouble.js'

/** Where a figure, turned one way with all others as they are, makes another way best. */
export interface Flip {
  readonly figure: Turned
  readonly now: number
  readonly at: number
  readonly to: Way
}

export interface BreakEvens {
  /** the closest first */
  readonly flips: readonly Flip[]
  /** does no figure change it, within what is likely? false too where a change was seen and could not be proven */
  readonly firm: boolean
  /** would a day without the tool change the answer, were it to cost something? */
  readonly dayMatters: boolean
}

/** As many are told. */
const told = 3
/** As many plans are made for them; each takes as long as an assessment. */
const plans = 6
/** Halfway to the value the choice must still be what it is now. */
const near = 0.5
/** Where the plan at the value is not of that mind yet, it is looked for so much farther out. */
const farther = 1.15

interface Found extends Flip {
  readonly distance: number
}

const openOnes = (options: readonly Option[], closed: Pick<ReadonlySet<Way>, 'has'>): readonly Option[] =>
  options.filter(({ way }) => !closed.has(way))

/** Those for which the same is done and paid, in one: no rule looks at them here. */
function alike(mayBe: readonly MayBe[]): readonly MayBe[] {
  const groups = new Map<string, MayBe>()
  for (const it of mayBe) {
    const key = JSON.stringify([it.tries, it.serviceMends, it.covered, it.renews])
    groups.set(key, { ...it, weight: it.weight + (groups.get(key)?.weight ?? 0) })
  }
  return [...groups.values()]
}

export async function breakEvens(
  planner: CasePlanner,
  view: View,
  now: Weighed,
  { act, option, clear }: Advice,
  unit: number,
): Promise<BreakEvens> {
  const { way } = option
  const closed = new Set(now.barred.keys())
  const trouble = { ...planner.now.trouble, mayBe: alike(planner.now.trouble.mayBe) }
  const roughly = (figures: Figures): Way | null =>
    clearBest(openOnes(optionsOf(trouble, { ...view, figures, closed }), closed), figures)?.way ?? null
  let left = plans
  const inFull = async (figures: Figures): Promise<Way | null> => {
    left--
    const planned = await planner.at(figures)
    const at = await weighed(planned.trouble, { ...view, figures }, planned.standing)
    return clearBest(openOnes(at.options, at.barred), figures)?.way ?? null
  }
  const { figures } = view
  const day = Math.round(figures.newPrice / 4)
  const there = roughly({ ...figures, dayWithout: day })
  const dayMatters = figures.dayWithout === 0 && !figures.hasSpare && there !== null && there !== way
  if (!clear || act === 'ask' || act === 'safe-first') return { flips: [], firm: false, dayMatters }

  const costOf = new Map(now.options.map((it) => [it.way, it.cost]))
  const clearlyDearer = (other: Way): boolean => {
    const cost = costOf.get(other)!
    return cost > option.cost && differs(cost, option.cost, figures)
  }
  const found = turnedNames
    .flatMap((figure) =>
      [-1, 1].flatMap((direction) => foundOn(figure, direction, figures, way, roughly, unit)),
    )
    .filter(({ to }) => clearlyDearer(to))
    .sort((a, b) => a.distance - b.distance)
  const flips: Flip[] = []
  for (const flip of found) {
    if (flips.length === told || left < 2) break
    const sure = await proven(flip, figures, way, inFull, unit, () => left)
    if (sure) flips.push(sure)
  }
  return { flips, firm: found.length === 0, dayMatters }
}

/** The nearest value in one direction at which another way is clearly best, by the plan as it stands. */
function foundOn(
  figure: Turned,
  direction: number,
  figures: Figures,
  way: Way,
  best: (at: Figures) => Way | null,
  unit: number,
): Found[] {
  const { read, turn } = dials[figure]
  const now = read(figures)
  const limit = limitOf(figure, figures, direction)
  if (direction > 0 ? now >= limit : now <= limit) return []
  const other = (share: number): Way | null => {
    const there = best(turn(figures, now + share * (limit - now)))
    return there === way ? null : there
  }
  let to = other(1)
  if (to === null) return []
  let [no, yes] = [0, 1]
  for (let k = 0; k < halvings; k++) {
    // from far to near: most of what flips does so close by
    const middle = no === 0 && yes > 0.02 ? yes / 4 : (no + yes) / 2
    const there = other(middle)
    if (there === null) no = middle
    else [yes, to] = [middle, there]
  }
  const at = sayable(figure, now + yes * (limit - now), direction, unit)
  const distance = Math.abs(at - now) / (now === 0 ? Math.abs(limit) : now)
  return at === now ? [] : [{ figure, now, at, to, distance }]
}
const halvings = 7

/** Planned anew at the value, or a little farther, and halfway to it. */
async function proven(
  flip: Flip,
  figures: Figures,
  way: Way,
  best: (at: Figures) => Promise<Way | null>,
  unit: number,
  left: () => number,
): Promise<Flip | null> {
  const { turn, least, most } = dials[flip.figure]
  const direction = Math.sign(flip.at - flip.now)
  for (const times of [1, farther]) {
    if (left() < 2) return null
    const at = sayable(flip.figure, flip.now + (flip.at - flip.now) * times, direction, unit)
    if (at < least || at > most) return null
    const to = await best(turn(figures, at))
    if (to === null || to === way) continue
    const before = await best(turn(figures, flip.now + (at - flip.now) * near))
    return before === null || before === way ? { figure: flip.figure, now: flip.now, at, to } : null
  }
  return null
}
