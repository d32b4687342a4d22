/** Finding things by their words in a list: questions that only a check answers, causes, moves. */
import MiniSearch from 'minisearch'
import type { Question } from '../../../shared/knowledge.js'

/** Little words that fit every statement and so tell nothing. */
const little = new Set(
  'a an and are as at be but by do does for from get gets has have i in is it its my of on or so that the then there they this to was when while with'.split(
    ' ',
  ),
)

/** At most this many are offered; more would be a second list to read through. */
const most = 12

/** What can be found by words: a name, what it means, and other ways to say it. */
export type Findable = Pick<Question, 'id' | 'statement' | 'text' | 'words'>

/**
 * The ids of those that fit `words`, best first, at most 12. Typing errors of about one letter in four are forgiven,
 * and the beginning of a word finds it.
 */
export function matchingAmong(questions: readonly Findable[], words: string): readonly string[] {
  if (words.trim() === '') return []
  const found = indexOver(questions).search(words)
  const top = found[0]?.score ?? 0
  // A long sentence touches many statements with one common word each: keep those near the best.
  return found
    .filter(({ score }) => score >= top / 6)
    .slice(0, most)
    .map(({ id }) => String(id))
}

function indexOver(questions: readonly Findable[]): MiniSearch {
  const index = new MiniSearch({
    fields: ['statement', 'text', 'words'],
    processTerm: (term) => {
      const plain = term
        .toLowerCase()
        .normalize('NFKD')
        .replace(/[\u0300-\u036f'’]/g, '')
      return little.has(plain) || plain === '' ? null : plain
    },
    searchOptions: {
      prefix: (term) => term.length > 2,
      fuzzy: (term) => (term.length > 3 ? 0.25 : false),
      boost: { words: 2, statement: 1.5 },
    },
  })
  index.addAll(questions.map((question) => ({ ...question, words: question.words.join('. ') })))
  return index
}
