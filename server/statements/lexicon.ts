/** The words that the rulebook knows, ready to be looked up: what a word or phrase may mean, whatever its form. */
import SearchableMap from 'minisearch/SearchableMap'
import { stemmer } from 'stemmer'
import type { Speech } from '../../shared/knowledge.js'

type Role = NonNullable<Speech['role']>

/** What one phrase may mean; several where only the rest of the sentence tells. */
interface Entry {
  readonly meanings: readonly string[]
  readonly role: Role | undefined
}

export interface Lexicon {
  /** the entry of the longest phrase that begins at a place, and how many words it has */
  readonly longestAt: (words: readonly string[], at: number) => { entry: Entry; length: number } | undefined
  /** the nearest known word; the word itself where it is known or nothing is near */
  readonly corrected: (word: string) => string
  readonly oppositeOf: ReadonlyMap<string, string>
}

const anyNumber = '#'

/**
 * @param speech meanings, from `rules/speech/`
 * @param others words in other texts, known as spelt right but without an entry
 */
export function lexiconOf(speech: readonly Speech[], others: readonly string[]): Lexicon {
  const entries = new Map<string, Entry>()
  const numbers = new Set<string>()
  const known = new SearchableMap<true>()
  const stems = new Set<string>()
  let longest = 1
  const knows = (word: string): void => {
    known.set(word, true)
    stems.add(stemmer(word))
  }
  for (const { id, role, words } of speech) {
    for (const phrase of words) {
      const parts = plainWords(phrase)
      parts.forEach(knows)
      if (role === 'number') parts.forEach((part) => numbers.add(part))
      longest = Math.max(longest, parts.length)
      const key = keyOf(parts)
      entries.set(
        key,
        joined(entries.get(key), { meanings: role === 'begins' || role === 'number' ? [] : [id], role }),
      )
    }
  }
  others.forEach(knows)
  const isNumber = (word: string): boolean => numbers.has(word) || /^\d+$/.test(word)

  return {
    oppositeOf: new Map(speech.flatMap(({ id, opposite }) => (opposite ? [[id, opposite]] : []))),
    longestAt(words, at) {
      for (let length = Math.min(longest, words.length - at); length > 0; length--) {
        const phrase = words.slice(at, at + length)
        const counted = phrase.map((word) => (isNumber(word) ? anyNumber : word))
        const entry = entries.get(keyOf(phrase)) ?? entries.get(keyOf(counted))
        if (entry) return { entry, length }
      }
      return isNumber(words[at]!) ? { entry: { meanings: [], role: 'number' }, length: 1 } : undefined
    },
    corrected(word) {
      if (word.length < 4 || known.has(word) || stems.has(stemmer(word)) || isNumber(word)) return word
      return nearest(known, word) ?? word
    },
  }
}

/** A text as plain words: lower case, no accents, apostrophes or points; a number apart from its unit. */
export function plainWords(text: string): string[] {
  return (
    text
      .toLowerCase()
      .normalize('NFKD')
      .replace(/[\u0300-\u036f'’‘`´]/g, '')
      .match(/#|%|\d+|[\p{L}]+/gu) ?? []
  )
}

const keyOf = (words: readonly string[]): string => words.map((word) => stemmer(word)).join(' ')

/** A phrase that tells something in one file and nothing in another tells something. */
function joined(before: Entry | undefined, now: Entry): Entry {
  if (before === undefined || before.role === 'little') return now
  if (now.role === 'little') return before
  return { meanings: [...new Set([...before.meanings, ...now.meanings])], role: before.role ?? now.role }
}

/** One slip for a short word, two for a long one; the first letter is seldom wrong, and neighbours change places. */
function nearest(known: SearchableMap<true>, word: string): string | undefined {
  for (let i = 0; i < word.length - 1; i++) {
    const swapped = word.slice(0, i) + word[i + 1]! + word[i]! + word.slice(i + 2)
    if (known.has(swapped)) return swapped
  }
  const slips = word.length < 7 ? 1 : 2
  const near = [...known.fuzzyGet(word, slips)]
    .map(([found, [, distance]]) => ({ found, distance }))
    .filter(({ found }) => found[0] === word[0] && found.length > 2)
    .sort((a, b) => a.distance - b.distance || (a.found < b.found ? -1 : 1))
  return near[0]?.found
}
