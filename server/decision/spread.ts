/**
 * How far the cost of a way may come out from what is expected: which fault it turns out to be, whether the fix works,
 * what the service asks and how long it is away. Every outcome is weighed; a range of fee and days counts as ten equal
 * parts, dear where it is long.
 */
import type { Course } from './course.js'
import { totalOf } from './course.js'
import type { View, Way } from './options.js'
import { chanceOf, endingOf, jobsDone, replaced, sent, sentOnMean, triesMade } from './options.js'
import { minuteCost } from './prices.js'
import type { MayBe, Trouble } from './trouble.js'

/** A cost that 1 in 10 stay below, the middle one, and one that 1 in 10 exceed; minor units. */
export interface Spread {
  readonly low: number
  readonly middle: number
  readonly high: number
}

/** An outcome and how likely it is; the shares of a way sum to 1. */
interface Outcome {
  readonly cost: number
  readonly share: number
}

const parts = Array.from({ length: 10 }, (_, k) => (k + 0.5) / 10)

export function spreadsOf({ asking, mayBe }: Trouble, view: View): Readonly<Record<Way, Spread>> {
  const looking = asking * minuteCost(view.figures)
  const all = (outcomesOf: (it: MayBe) => readonly Outcome[]): readonly Outcome[] =>
    mayBe.flatMap((it) => outcomesOf(it).map(({ cost, share }) => ({ cost, share: share * it.weight })))
  return {
    'mend-here': spread(all((it) => here(view, it)).map((it) => ({ ...it, cost: it.cost + looking }))),
    'send-in': spread(all((it) => away(view, it))),
    replace: spread(all((it) => [fresh(view, it)])),
  }
}

const costOf = ({ makeup }: Course): number => totalOf(makeup)
const fresh = (view: View, it: MayBe): Outcome => ({ cost: costOf(replaced(view, it)), share: 1 })

function away(view: View, it: MayBe): Outcome[] {
  const chance = it.serviceMends ? view.figures.serviceMends : 0
  return parts.flatMap((within) => {
    const { works, fails } = sent(view, it, within)
    return [
      { cost: costOf(works), share: chance / parts.length },
      { cost: costOf(fails), share: (1 - chance) / parts.length },
    ]
  })
}

function here(view: View, it: MayBe): Outcome[] {
  const sends = endingOf(view, it) === 'send-in'
  const end = costOf(sends ? sentOnMean(view, it) : replaced(view, it))
  const outcomes: Outcome[] = []
  let spent = 0
  let left = 1
  for (const jobs of it.tries.slice(0, triesMade(view, it, end))) {
    spent += costOf(jobsDone(view, jobs))
    const chance = chanceOf(jobs)
    outcomes.push({ cost: spent - view.figures.teaches, share: left * chance })
    left *= 1 - chance
  }
  const ends = sends ? away(view, it) : [fresh(view, it)]
  return [...outcomes, ...ends.map(({ cost, share }) => ({ cost: spent + cost, share: share * left }))]
}

function spread(outcomes: readonly Outcome[]): Spread {
  const sorted = [...outcomes].sort((a, b) => a.cost - b.cost)
  const quantile = (share: number): number => {
    let sum = 0
    for (const outcome of sorted) if ((sum += outcome.share) >= share - 1e-9) return outcome.cost
    return sorted.at(-1)?.cost ?? 0
  }
  return { low: quantile(0.1), middle: quantile(0.5), high: quantile(0.9) }
}
