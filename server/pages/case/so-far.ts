import type { OnBench } from '../../bench/on-bench.js'
import { inHundred } from '../layout/words.js'

/** How it stands, would end now, and how many looks are likely left: "Worn carbon brushes, 62 in 100. Stop here: fix it. Or 2 more looks." */
export function soFarWords(on: OnBench): string {
  const { causes, next } = on.assessment
  const words = causes.slice(0, 1).map(({ name, probability }) => `${name}, ${inHundred(probability)}.`)
  const { outlook } = next
  if (outlook && (next.step === 'ask' || next.step === 'check')) {
    const left = Math.max(1, Math.round(outlook.left))
    const looks = left === 1 ? 'one more look' : `${left} more looks`
    words.push(`Stop here: ${nowWords[outlook.now.step]}. Or ${looks}.`)
  }
  return words.join(' ')
}

const nowWords = {
  fix: 'fix it',
  'nothing-found': 'call it sound',
  'send-in': 'send it in',
  retire: 'retire it',
} as const
