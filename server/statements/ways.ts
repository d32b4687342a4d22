/** The ways in which a statement is said, as meanings, and what each meaning weighs. */
import type { Question } from '../../shared/knowledge.js'
import type { Clause } from './clauses.js'
import { clausesOf } from './clauses.js'
import type { Lexicon } from './lexicon.js'

export interface Way {
  readonly said: Clause
  /** weight of all its meanings together */
  readonly weight: number
}

/** What people may say of one kind of tool. */
export interface Ways {
  readonly of: ReadonlyMap<string, readonly Way[]>
  readonly weigh: (meanings: readonly string[]) => number
}

/** What a word weighs that no way of any statement has: it shows that something else is meant. */
const unheardOf = 1.2

/** @param questions every question that may be told, with all ways to say it in `words` */
export function waysOf(
  lexicon: Lexicon,
  questions: readonly Pick<Question, 'id' | 'statement' | 'words'>[],
): Ways {
  const said = new Map(
    questions.map(({ id, statement, words }) => [
      id,
      [statement, ...words].map((way) => clausesOf(lexicon, way).flat()).filter((way) => way.length > 0),
    ]),
  )
  const weights = new Map<string, number>()
  for (const ways of said.values()) {
    for (const meaning of new Set(ways.flatMap((way) => way.flatMap(({ meanings }) => meanings)))) {
      weights.set(meaning, (weights.get(meaning) ?? 0) + 1)
    }
  }
  for (const [meaning, count] of weights) weights.set(meaning, rarity(questions.length / count))
  const weigh = (meanings: readonly string[]): number =>
    Math.max(...meanings.map((meaning) => weights.get(meaning) ?? unheardOf))
  const weighed = (way: Clause): Way => ({
    said: way,
    weight: way.reduce((sum, { meanings }) => sum + weigh(meanings), 0),
  })
  return { of: new Map([...said].map(([id, ways]) => [id, ways.map(weighed)])), weigh }
}

/** Inverse document frequency (Spärck Jones 1972), damped: a word that many statements share tells less. */
const rarity = (oneIn: number): number => Math.sqrt(Math.log(1 + oneIn))
