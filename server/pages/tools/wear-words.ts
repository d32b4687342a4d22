import type { Knowledge } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { WearOdds } from '../../care/wear-odds.js'
import { listWords } from '../layout/words.js'

/** Care that changes what is likely: "Not done for 4 months: “One drop into the ball oiler”. Likelier: Dry bearing." */
export function wearWords(knowledge: Knowledge, wear: readonly WearOdds[]): string[] {
  const { causes } = lookupOf(knowledge)
  const sayings = new Map<string, string[]>()
  // the strongest first
  for (const { cause, task, days, done, times } of [...wear].sort((a, b) => reach(b) - reach(a))) {
    if (times < worthSaying && times > 1 / worthSaying) continue
    const saying =
      times > 1
        ? `Not ${done ? 'done' : 'logged'} for ${spanWords(days)}: “${task.name}”. Likelier:`
        : `Done ${spanWords(days)} ago: “${task.name}”. Less likely:`
    sayings.set(saying, [...(sayings.get(saying) ?? []), causes.get(cause)?.name ?? cause])
  }
  return [...sayings].map(([saying, names]) => `${saying} ${listWords(names)}.`)
}

const reach = ({ times }: WearOdds): number => Math.abs(Math.log(times))

/** Below this, the odds hardly move. */
const worthSaying = 1.5

function spanWords(days: number): string {
  if (days < 1) return 'less than a day'
  if (days < 14) return days === 1 ? 'a day' : `${days} days`
  if (days < 60) return `${Math.round(days / 7)} weeks`
  return `${Math.round(days / 30.4)} months`
}
