/**
 * At which value of each figure the choice for a case flips, planned anew at every value that is tried: dearer sending
 * in also changes what is worth asking. Most of it by a short look ahead; what is shown first is held against the plan
 * in full.
 */
import type { FigureName, Figures } from '../../shared/figures.js'
import type { Flip, Turned } from './break-even.js'
import { dials } from './break-even.js'
import { amountNames } from './figure-sorts.js'
import type { CasePlanner, Planned } from './case-plan.js'
import type { Weighed } from './compare.js'
import type { View, Way } from './options.js'
import { cheapest, optionsOf } from './options.js'
import { judged } from './verdicts.js'

/** A figure that is no number, told otherwise. */
export interface Switched {
  readonly figure: SwitchName
  readonly told: Partial<Figures>
  readonly to: Way
}
export type SwitchName = Extract<
  FigureName,
  'hasSpare' | 'inWarranty' | 'partsToBeHad' | 'canSafetyTest' | 'skill' | 'motorFaultsThisYear'
>

export interface CaseFlips {
  /** the closest first; those up to `sure` were held against the plan in full */
  readonly flips: readonly Flip[]
  readonly sure: number
  readonly switched: readonly Switched[]
}

/** As many as are shown without opening a fold. */
const shownFirst = 3

/** A flip is found to this share of its value, or to the finest step that somebody would enter. */
const fine = 0.02

/** Which way is best at these figures, rules included. */
export async function choiceOf(planned: Planned, figures: Figures, opened: boolean): Promise<Way> {
  const view = { figures, opened }
  const { barred } = await judged(planned.trouble, view, planned.standing)
  return cheapest(optionsOf(planned.trouble, view), (way) => !barred.has(way))!.way
}

/**
 * @param weighed what is best at the figures of the case, and what is barred
 * @param unit minor units in a major one: flips are told no finer than one would say them
 */
export async function caseFlips(
  planner: CasePlanner,
  { figures, opened }: View,
  { best, barred }: Pick<Weighed, 'best' | 'barred'>,
  unit: number,
): Promise<CaseFlips> {
  const { way } = best
  // the rules seldom turn with a number, and take longest; what is shown first is judged anew
  const roughly = async (at: Figures): Promise<Way> => {
    const options = optionsOf((await planner.inShort(at)).trouble, { figures: at, opened })
    return cheapest(options, (it) => !barred.has(it))!.way
  }
  const roughlyJudged = async (at: Figures): Promise<Way> => choiceOf(await planner.inShort(at), at, opened)
  const inFull = async (at: Figures): Promise<Way> => choiceOf(await planner.inFull(at), at, opened)
  const found: Flip[] = []
  for (const figure of Object.keys(dials) as Turned[])
    for (const direction of [-1, 1]) {
      const flip = await flipOf({ figure, direction, unit }, figures, way, roughly)
      if (flip !== null) found.push(flip)
    }
  const byDistance = (a: Flip, b: Flip): number => a.distance - b.distance
  const sure: Flip[] = []
  const left: Flip[] = []
  for (const flip of found.sort(byDistance)) {
    const held = sure.length < shownFirst ? await heldInFull(flip, figures, way, inFull, unit) : null
    if (held === null) left.push(flip)
    else sure.push(held)
  }
  return {
    flips: [...sure.sort(byDistance), ...left],
    sure: sure.length,
    switched: await switchesOf(figures, way, roughlyJudged, inFull),
  }
}

/** The nearest value in one direction at which another way is best; null if there is none on the dial. */
async function flipOf(
  { figure, direction, unit }: { figure: Turned; direction: number; unit: number },
  figures: Figures,
  best: Way,
  choice: (at: Figures) => Promise<Way>,
): Promise<Flip | null> {
  const dial = dials[figure]!
  const now = dial.read(figures)
  const limit = direction > 0 ? Math.min(dial.most, reachable(now, dial.most)) : dial.least
  if (direction > 0 ? now >= limit : now <= limit) return null
  const other = async (value: number): Promise<Way | null> => {
    const way = await choice(dial.turn(figures, value))
    return way === best ? null : way
  }
  let no = now
  let yes = limit
  let to = await other(yes)
  if (to === null) return null
  while (Math.abs(yes - no) > Math.max(dial.step, fine * Math.abs(yes))) {
    const middle = onGrid(between(no, yes), dial.step)
    if (middle === no || middle === yes) break
    const way = await other(middle)
    if (way === null) no = middle
    else [yes, to] = [middle, way]
  }
  const at = sayable(figure, yes, direction, unit)
  return { figure, now, at, to, distance: distanceOf(now, at, dial.most - dial.least) }
}

/** The next value beyond, on the grid of what one would say: whole sums, tenths below ten, minor units below one. */
function sayable(figure: Turned, value: number, direction: number, unit: number): number {
  const dial = dials[figure]!
  const grid = amounts.has(figure) ? Math.max(1, gridOfSum(value / unit) * unit) : dial.step
  const steps = value / grid
  const rounded = (direction > 0 ? Math.ceil(steps - 1e-9) : Math.floor(steps + 1e-9)) * grid
  return Math.min(dial.most, Math.max(dial.least, Math.round(rounded * 1e6) / 1e6))
}

const amounts: ReadonlySet<string> = new Set(['fee', ...amountNames])
const gridOfSum = (sum: number): number => (sum < 1 ? 0 : sum < 10 ? 0.1 : sum < 1000 ? 1 : 10)

/** What is more than thirty times as high is another figure, not a guess that was off. */
const reachable = (now: number, most: number): number => (now === 0 ? most : now * 30)

/** Halfway by proportion where the two are far apart, so that cents and thousands are found as fast. */
const between = (a: number, b: number): number =>
  Math.min(a, b) > 0 && Math.max(a, b) / Math.min(a, b) > 4 ? Math.sqrt(a * b) : (a + b) / 2

const onGrid = (value: number, step: number): number =>
  Math.round(Math.round(value / step) * step * 1e6) / 1e6

const distanceOf = (now: number, at: number, whole: number): number =>
  Math.abs(at - now) / (now === 0 ? whole : Math.abs(now))

/** How much farther it is looked for in full where the short look ahead was too hopeful, as shares of the distance. */
const farther = [1, 1.06, 1.2]

async function heldInFull(
  flip: Flip,
  figures: Figures,
  best: Way,
  choice: (at: Figures) => Promise<Way>,
  unit: number,
): Promise<Flip | null> {
  const dial = dials[flip.figure]!
  for (const times of farther) {
    const far = flip.now + (flip.at - flip.now) * times
    const value = sayable(flip.figure, onGrid(far, dial.step), Math.sign(flip.at - flip.now), unit)
    if (value < dial.least || value > dial.most) return null
    const to = await choice(dial.turn(figures, value))
    if (to !== best)
      return { ...flip, at: value, to, distance: distanceOf(flip.now, value, dial.most - dial.least) }
  }
  return null
}

async function switchesOf(
  figures: Figures,
  best: Way,
  roughly: (at: Figures) => Promise<Way>,
  inFull: (at: Figures) => Promise<Way>,
): Promise<readonly Switched[]> {
  const found: Switched[] = []
  for (const [figure, told] of tellings(figures)) {
    const at = { ...figures, ...told }
    if ((await roughly(at)) === best) continue
    const to = await inFull(at)
    if (to !== best) found.push({ figure, told, to })
  }
  return found
}

function tellings(figures: Figures): [SwitchName, Partial<Figures>][] {
  const { hasSpare, inWarranty, partsToBeHad, canSafetyTest, skill, motorFaultsThisYear } = figures
  const turned: [SwitchName, Partial<Figures>][] = [
    ['inWarranty', { inWarranty: !inWarranty }],
    ['partsToBeHad', { partsToBeHad: !partsToBeHad }],
    ['motorFaultsThisYear', { motorFaultsThisYear: motorFaultsThisYear > 0 ? 0 : 1 }],
    // who may open a mains tool tests it afterwards: the two go together
    canSafetyTest
      ? ['canSafetyTest', { canSafetyTest: false }]
      : ['canSafetyTest', { canSafetyTest: true, skill: skill < 'S3' ? 'S3' : skill }],
  ]
  // Where a day costs nothing a spare changes nothing.
  if (figures.dayWithout > 0) turned.push(['hasSpare', { hasSpare: !hasSpare }])
  return turned
}
