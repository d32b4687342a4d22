/**
 * How likely each kind is, given what was seen of the tool: naive Bayes over the kinds. The signs are taken as
 * independent given the kind. "Can't tell" and "not asked" are no evidence.
 */
import type { Kind, Sign } from '../../shared/knowledge.js'

/** What is known of kinds and signs. */
export interface KindBook {
  readonly kinds: readonly Pick<Kind, 'id' | 'usual'>[]
  readonly signs: readonly Sign[]
}

export type SignAnswer = 'yes' | 'no' | 'cant-tell'

/** For a sign's id, what was said of it. */
export type SignAnswers = Readonly<Record<string, SignAnswer>>

/** They sum to 1. */
export interface KindOdds {
  /** in the order of the rulebook */
  readonly kinds: readonly { readonly id: string; readonly probability: number }[]
  /** that it is a tool of none of these kinds */
  readonly none: number
}

/** Of so many troubled tools a kind's `usual` is counted; what the kinds leave is none of them. */
const counted = 1000

/** What a tool of no kind at hand would say to any sign: nobody knows, so either is as likely. */
const unknownChance = 0.5

/** Chance that somebody who holds this kind says yes; a kind that the sign leaves out might say either. */
export function chanceOfYes(sign: Sign, kind: string): number {
  return sign.kinds[kind] ?? unknownChance
}

/** @param answers answers to signs that the book does not have are passed over */
export function kindOdds({ kinds, signs }: KindBook, answers: SignAnswers): KindOdds {
  const said = signs.filter(({ id }) => answers[id] === 'yes' || answers[id] === 'no')
  const weights = kinds.map(({ id, usual }) =>
    said.reduce((weight, sign) => {
      const yes = chanceOfYes(sign, id)
      return weight * (answers[sign.id] === 'yes' ? yes : 1 - yes)
    }, usual ?? 1),
  )
  const left = Math.max(1, counted - kinds.reduce((sum, { usual }) => sum + (usual ?? 1), 0))
  const none = left * unknownChance ** said.length
  const total = weights.reduce((sum, weight) => sum + weight, none)
  return {
    kinds: kinds.map(({ id }, k) => ({ id, probability: weights[k]! / total })),
    none: none / total,
  }
}
