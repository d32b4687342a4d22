import type { Outlook } from '../../../shared/diagnosis.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { inHundred } from '../layout/words.js'

/** How it stands, and what would be done if nobody looked any further. */
export interface SoFar {
  /** "Worn carbon brushes, 62 in 100. About 2 more looks, or:" */
  readonly words: string
  /** the button that stops the looking; null where nothing is to be weighed up */
  readonly stop: { readonly action: string; readonly words: string } | null
}

/** The likeliest cause: "Worn carbon brushes, 62 in 100." */
export const likeliestWords = ({ assessment: { causes } }: OnBench): string =>
  causes.slice(0, 1).map(({ name, probability }) => `${name}, ${inHundred(probability)}.`)[0] ?? ''

export function soFar(on: OnBench): SoFar {
  const { next } = on.assessment
  const likeliest = likeliestWords(on)
  if (!next.outlook || (next.step !== 'ask' && next.step !== 'check')) return { words: likeliest, stop: null }
  const left = Math.max(1, Math.round(next.outlook.left))
  const looks = left === 1 ? 'One more look' : `About ${left} more looks`
  return {
    words: `${likeliest} ${looks}, or:`,
    stop: {
      action: `/cases/${on.bench.id}/looked-enough`,
      words: `Stop looking: ${wordsOf(next.outlook.now, on)}`,
    },
  }
}

function wordsOf({ step, fix }: Outlook['now'], { knowledge, assessment: { causes } }: OnBench): string {
  if (step !== 'fix') return endings[step]
  const likeliest = causes[0]?.id ?? ''
  // the first fix may be a cheap one for something else, and then says so
  return lookupOf(knowledge).fixes.get(fix ?? '')?.cures[likeliest] === undefined ? 'try a fix' : 'fix that'
}

const endings = {
  'nothing-found': 'call it sound',
  'send-in': 'send it in',
  retire: 'retire it',
} as const
