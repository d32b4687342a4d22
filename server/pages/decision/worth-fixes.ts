/** Which fixes are meant by "fix it here", and how often. */
import type { View } from '../../decision/options.js'
import { chanceOf } from '../../decision/options.js'
import type { Trouble } from '../../decision/trouble.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { inHundred, minutes } from '../layout/words.js'
import { sum } from './worth-words.js'

export interface MeantFix {
  readonly count: string
  readonly name: string
  readonly href: string
  readonly words: string
}

/** More are read by nobody at once. */
const most = 4

/** The first try for each thing that it may be, likeliest first. */
export function meantFixes(on: OnBench, { mayBe }: Trouble, { figures }: View): readonly MeantFix[] {
  const { fixes } = lookupOf(on.knowledge)
  const found = new Map<string, { weight: number; minutes: number; parts: number; chance: number }>()
  for (const { tries, weight } of mayBe)
    for (const job of tries[0] ?? []) {
      const before = found.get(job.fix) ?? { weight: 0, minutes: 0, parts: 0, chance: 0 }
      found.set(job.fix, {
        weight: before.weight + weight,
        minutes: before.minutes + weight * job.minutes,
        parts: job.parts,
        chance: before.chance + weight * chanceOf([job]),
      })
    }
  return [...found]
    .filter(([, { weight }]) => weight >= 0.01)
    .sort(([, a], [, b]) => b.weight - a.weight)
    .slice(0, most)
    .map(([id, { weight, minutes: spent, parts, chance }]) => ({
      count: inHundred(weight),
      name: fixes.get(id)?.name ?? id,
      href: `/rulebook/fixes/${id}`,
      words: [
        minutes(spent / weight),
        ...(parts > 0 ? [`parts ${sum(parts, on.currency)}`] : []),
        ...(figures.partDays > 0 && parts > 0 ? [`after ${figures.partDays} days`] : []),
        `works in ${inHundred(chance / weight)}`,
      ].join(', '),
    }))
}
