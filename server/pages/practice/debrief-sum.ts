/** The score of an exercise in words. */
import type { Debrief } from '../../practice/debrief.js'
import type { Played } from '../../practice/played.js'
import { noLoss } from '../../practice/take-along.js'
import { minutes } from '../layout/words.js'

export interface Sum {
  /** a whole number of 100 */
  readonly score: number
  readonly means: string
  readonly lead: string
  readonly luck: string
  readonly counted: string
}

export function sumOf({ desk }: Played, debrief: Debrief): Sum {
  const { rate } = desk.shop
  const plan = debrief.plan / rate
  const lost = debrief.losses / rate
  const score = scoreShown(debrief.score ?? 0, debrief.slips.length === 0 ? lost : Infinity)
  return {
    score,
    means: meansOf(debrief, lost),
    lead: leadOf(debrief, plan, lost),
    luck: 'Luck has no part in it: the same moves with the same answers come to the same, whatever had been wrong with the tool.',
    counted:
      'An average over all tools that come in like this one. Parts, and a trip to the service, are counted as the minutes that they are worth.',
  }
}

/** 100 only where nothing was lost. */
const scoreShown = (score: number, lost: number): number =>
  score === 0 ? 0 : lost < noLoss ? 100 : Math.min(99, Math.max(1, Math.round(score)))

function meansOf({ over, slips }: Debrief, lost: number): string {
  if (over === 'slip') return 'A safety mistake that can hurt ends it at 0.'
  if (slips.length > 0)
    return `${slips.length === 1 ? 'A safety mistake takes' : 'Each safety mistake takes'} a quarter off.`
  if (lost < noLoss) return 'You could not have done better.'
  return '100 is a good plan’s way; sending it in at once comes to about 40.'
}

function leadOf({ over }: Debrief, plan: number, lost: number): string {
  if (over === 'slip')
    return lost < noLoss
      ? 'Up to the safety mistake you had lost nothing against the plan.'
      : `Up to the safety mistake you had lost ${minutes(lost)} against the plan.`
  const [own, spared] = [Math.round(plan), Math.max(1, Math.round(lost))]
  if (lost < noLoss) return `Your way should cost about ${own} minutes on average, and so does the plan’s.`
  // whole minutes throughout, so that they can be added up
  return `Your way should cost about ${own + spared} minutes on average, the plan’s ${own}: ${spared === 1 ? 'a minute' : `${spared} minutes`} lost.`
}
