/** Which kind of tool somebody holds who does not know: what to ask next, or what it comes to. Pure. */
import type { Sign } from '../../shared/knowledge.js'
import type { KindBook, KindOdds, SignAnswers } from './kind-odds.js'
import { kindOdds } from './kind-odds.js'
import { expectedBits, nextSign } from './next-sign.js'

/** A kind is found when it stands at 19 in 20. */
export const sure = 0.95

export type Identification = { readonly odds: KindOdds } & (
  | { readonly state: 'asking'; readonly sign: Sign }
  | { readonly state: 'found'; readonly kind: string }
  /** the likeliest first; together they stand at 19 in 20 of all kinds */
  | { readonly state: 'between'; readonly kinds: readonly string[] }
  | { readonly state: 'none' }
)

/**
 * Where it stands after these answers.
 *
 * @param mayRun may the tool be switched on for a look?
 */
export function identify(book: KindBook, answers: SignAnswers, mayRun: boolean): Identification {
  const odds = kindOdds(book, answers)
  const found = odds.kinds.find(({ probability }) => probability >= sure)
  if (found) return { odds, state: 'found', kind: found.id }
  if (odds.none >= sure) return { odds, state: 'none' }
  const sign = nextSign(book, odds, answers, mayRun)
  if (sign) return { odds, state: 'asking', sign }
  if (odds.none >= 0.5) return { odds, state: 'none' }
  return { odds, state: 'between', kinds: likeliest(odds) }
}

/** As few kinds as hold 19 in 20 of what the kinds have together. */
function likeliest({ kinds, none }: KindOdds): string[] {
  const ranked = [...kinds].sort((a, b) => b.probability - a.probability)
  let held = 0
  return ranked
    .filter(({ probability }) => {
      const needed = held < sure * (1 - none)
      held += probability
      return needed
    })
    .map(({ id }) => id)
}

/**
 * Signs that would tell these kinds apart and have no yes or no yet, the most telling first: what to look for with
 * better light or another pair of eyes.
 */
export function tellingApart(
  { signs }: KindBook,
  odds: KindOdds,
  among: readonly string[],
  answers: SignAnswers,
): readonly Sign[] {
  const these = odds.kinds.filter(({ id }) => among.includes(id))
  const together = these.reduce((sum, { probability }) => sum + probability, 0)
  const onlyThese = {
    kinds: these.map(({ id, probability }) => ({ id, probability: probability / together })),
    none: 0,
  }
  return signs
    .filter(({ id }) => answers[id] !== 'yes' && answers[id] !== 'no')
    .map((sign) => ({ sign, bits: expectedBits(sign, onlyThese) }))
    .filter(({ bits }) => bits >= 0.05)
    .sort((a, b) => b.bits - a.bits)
    .map(({ sign }) => sign)
}
