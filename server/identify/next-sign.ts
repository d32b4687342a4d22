/** Which sign to ask for next: the one that is expected to tell most about the kind in a second's looking. */
import type { Sign } from '../../shared/knowledge.js'
import type { KindBook, KindOdds, SignAnswers } from './kind-odds.js'
import { chanceOfYes } from './kind-odds.js'

/** Below this, in bits, an answer is not worth a question: it would change next to nothing. */
const leastBits = 0.01

/** Two signs whose gain differs by less are alike; the order of the rulebook decides. */
const alike = 1e-9

/**
 * What the answer to a sign is expected to tell about the kind, in bits: the mutual information of kind and
 * answer (Shannon 1948), at least 0 and at most 1.
 */
export function expectedBits(sign: Sign, odds: KindOdds): number {
  const rows = [
    ...odds.kinds.map(({ id, probability }) => ({ probability, yes: chanceOfYes(sign, id) })),
    { probability: odds.none, yes: 0.5 },
  ]
  const yes = rows.reduce((sum, row) => sum + row.probability * row.yes, 0)
  const doubtLeft = rows.reduce((sum, row) => sum + row.probability * doubtOf(row.yes), 0)
  return Math.max(0, doubtOf(yes) - doubtLeft)
}

/** Entropy of a yes or no, in bits, whose chance of yes is `p`. */
function doubtOf(p: number): number {
  const term = (q: number) => (q <= 0 ? 0 : -q * Math.log2(q))
  return term(p) + term(1 - p)
}

/** Not what needs a tool to run that must stay off, nor what makes no sense after what was said. */
function mayBeAsked({ needsPower, after }: Sign, answers: SignAnswers, mayRun: boolean): boolean {
  if (needsPower && !mayRun) return false
  return after === undefined || answers[after.sign] === after.answer
}

/**
 * @param mayRun may the tool be switched on for a look? if not, signs that need it running are left out
 * @returns null when no sign that is left tells anything worth a question
 */
export function nextSign(
  { signs }: KindBook,
  odds: KindOdds,
  answers: SignAnswers,
  mayRun: boolean,
): Sign | null {
  let best: { sign: Sign; gain: number } | null = null
  for (const sign of signs) {
    if (answers[sign.id] !== undefined || !mayBeAsked(sign, answers, mayRun)) continue
    const bits = expectedBits(sign, odds)
    const gain = bits / sign.seconds
    if (bits >= leastBits && (best === null || gain > best.gain + alike)) best = { sign, gain }
  }
  return best?.sign ?? null
}
