import type { OnBench } from '../../bench/on-bench.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { inHundred } from '../layout/words.js'

/** How it stands, would end now, and how many looks are likely left: "Worn carbon brushes, 62 in 100. Now: send it in, or 2 more looks." */
export function soFarWords(on: OnBench): string {
  const { causes, next } = on.assessment
  const words = causes.slice(0, 1).map(({ name, probability }) => `${name}, ${inHundred(probability)}.`)
  const { outlook } = next
  if (outlook && (next.step === 'ask' || next.step === 'check')) {
    const left = Math.max(1, Math.round(outlook.left))
    const looks = left === 1 ? 'one more look' : `${left} more looks`
    words.push(`Now: ${nowWords(on, outlook.now)}, or ${looks}.`)
  }
  return words.join(' ')
}

function nowWords(
  { knowledge }: OnBench,
  { step, fix }: NonNullable<OnBench['assessment']['next']['outlook']>['now'],
): string {
  if (step === 'send-in') return 'send it in'
  if (step === 'retire') return 'retire it'
  const name = fix === null ? undefined : lookupOf(knowledge).fixes.get(fix)?.name
  return name ? `${name.charAt(0).toLowerCase()}${name.slice(1)}` : 'try a fix'
}
