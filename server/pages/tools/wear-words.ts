import type { Knowledge } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { WearOdds } from '../../care/wear-odds.js'

/** Care that changes what is likely: "Not done for 4 months: One drop into the ball oiler. Dry bearing is likelier." */
export function wearWords(knowledge: Knowledge, wear: readonly WearOdds[]): string[] {
  const { causes } = lookupOf(knowledge)
  return wear
    .filter(({ times }) => times >= worthSaying || times <= 1 / worthSaying)
    .map(({ cause, task, days, times }) => {
      const name = causes.get(cause)?.name ?? cause
      return times > 1
        ? `Not done for ${spanWords(days)}: “${task.name}”. Likelier: ${name}.`
        : `Done ${spanWords(days)} ago: “${task.name}”. Less likely: ${name}.`
    })
}

/** Below this, the odds hardly move. */
const worthSaying = 1.5

function spanWords(days: number): string {
  if (days < 1) return 'less than a day'
  if (days < 14) return days === 1 ? 'a day' : `${days} days`
  if (days < 60) return `${Math.round(days / 7)} weeks`
  return `${Math.round(days / 30.4)} months`
}
