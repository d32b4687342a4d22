/** The three ways with what the rules say of them, at one set of figures. */
import type { Verdict } from '../../shared/knowledge.js'
import type { Option, View, Way } from './options.js'
import { optionsOf } from './options.js'
import type { Trouble } from './trouble.js'
import type { BenchState } from './verdicts.js'
import { judged } from './verdicts.js'

export interface Weighed {
  /** all three, also those that a rule closes */
  readonly options: readonly Option[]
  /** rules that hold, in rulebook order */
  readonly verdicts: readonly Verdict[]
  /** by way: the rule that closes it */
  readonly barred: ReadonlyMap<Way, Verdict>
}

export async function weighed(trouble: Trouble, view: View, standing: BenchState): Promise<Weighed> {
  const { held, barred } = await judged(trouble, view, standing)
  const options = optionsOf(trouble, { ...view, closed: new Set(barred.keys()) })
  return { options, verdicts: held, barred }
}
