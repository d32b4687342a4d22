/** Free words → clauses of meanings: spelling mended, little words dropped, "not" put where it belongs. */
import { stemmer } from 'stemmer'
import type { Lexicon } from './lexicon.js'
import { plainWords } from './lexicon.js'

/** One word or phrase that tells something. A meaning turned round by "not" begins with a minus. */
interface Said {
  readonly meanings: readonly string[]
}
export type Clause = readonly Said[]

/** Clauses in the order in which they were said; none is empty. */
export function clausesOf(lexicon: Lexicon, text: string): Clause[] {
  return text
    .split(/[.,;:!?()\n\r\t"“”…]+|\s[-–—]+\s/u)
    .flatMap((sentence) => inSentence(lexicon, plainWords(sentence)))
    .filter((clause) => clause.length > 0)
}

function inSentence(lexicon: Lexicon, spelt: readonly string[]): Said[][] {
  const words = spelt.map(lexicon.corrected)
  const clauses: Said[][] = [[]]
  let turned = false
  const say = (meanings: readonly string[]): void => {
    clauses.at(-1)!.push({ meanings: turned ? meanings.map((it) => turnedRound(lexicon, it)) : meanings })
    turned = false
  }
  for (let at = 0; at < words.length;) {
    const found = lexicon.longestAt(words, at)
    const next = at + (found?.length ?? 1)
    const role = found?.entry.role
    if (found === undefined) say([stemmer(words[at]!)])
    else if (role === 'not') turned = true
    else if (role === 'ends' && isDoing(words[next])) turned = !turned
    else if (role === 'border' || role === 'opens') {
      clauses.push([])
      turned = false
      if (role === 'opens') say(found.entry.meanings)
    } else if (
      found.entry.meanings.length > 0 &&
      role !== 'little' &&
      !(role === 'begins' && isDoing(words[next]))
    ) {
      say(found.entry.meanings)
    }
    at = next
  }
  return clauses
}

/** "smoking", as in "started smoking". */
const isDoing = (word: string | undefined): boolean => word !== undefined && /..ing$/.test(word)

/** "not slow" is fast where the rulebook names the opposite. */
const turnedRound = (lexicon: Lexicon, meaning: string): string =>
  lexicon.oppositeOf.get(meaning) ?? `-${meaning}`
