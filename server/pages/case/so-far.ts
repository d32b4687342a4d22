import type { OnBench } from '../../bench/on-bench.js'
import { inHundred } from '../layout/words.js'

/** The likeliest suspect, in one line: "So far: worn carbon brushes, 62 in 100." */
export function soFarWords({ assessment }: OnBench): string | null {
  const [likeliest] = [...assessment.causes].sort((a, b) => b.probability - a.probability)
  return likeliest ? `So far: ${likeliest.name.toLowerCase()}, ${inHundred(likeliest.probability)}.` : null
}
