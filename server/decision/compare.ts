/** Mend it here, send it in, or replace it: the three with their reasons, from a trouble and the figures at hand. */
import type { Verdict } from '../../shared/knowledge.js'
import type { Flip } from './break-even.js'
import { flipsOf } from './break-even.js'
import type { Option, View, Way } from './options.js'
import { cheapest, optionsOf } from './options.js'
import type { Spread } from './spread.js'
import { spreadsOf } from './spread.js'
import type { Trouble } from './trouble.js'
import type { BenchState } from './verdicts.js'
import { judged } from './verdicts.js'

/** The three with their reasons, at one set of figures. */
export interface Weighed {
  /** all three, also those that a rule bars */
  readonly options: readonly Option[]
  readonly spreads: Readonly<Record<Way, Spread>>
  /** rules that hold, in rulebook order */
  readonly verdicts: readonly Verdict[]
  readonly barred: ReadonlyMap<Way, Verdict>
  /** the least expected cost of those that no rule bars */
  readonly best: Option
  /** the best had no rule barred a way; another one than `best` where a rule decided */
  readonly bySum: Option
}

export interface Comparison extends Weighed {
  /** at which value of which figure another way would be best, the closest first */
  readonly flips: readonly Flip[]
}

export async function weighed(trouble: Trouble, view: View, standing: BenchState): Promise<Weighed> {
  const options = optionsOf(trouble, view)
  const { held, barred } = await judged(trouble, view, standing)
  return {
    options,
    spreads: spreadsOf(trouble, view),
    verdicts: held,
    barred,
    best: cheapest(options, (way) => !barred.has(way))!, // the verdicts leave one way open
    bySum: cheapest(options)!,
  }
}

/** With the flips that there would be were nothing planned anew: the same questions, whatever the figures. */
export async function compared(trouble: Trouble, view: View, standing: BenchState): Promise<Comparison> {
  const it = await weighed(trouble, view, standing)
  return { ...it, flips: flipsOf(trouble, view, (way) => !it.barred.has(way)) }
}
