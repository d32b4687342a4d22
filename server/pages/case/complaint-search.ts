/** From what a user says in their own words to statements that can be ticked. */
import MiniSearch from 'minisearch'
import type { Knowledge, Question } from '../../../shared/knowledge.js'

const indexes = new WeakMap<Knowledge, Map<string, MiniSearch>>()

/** Little words that fit every statement and so tell nothing. */
const little = new Set(
  'a an and are as at be but by do does for from get gets has have i in is it its my of on or so that the then there they this to was when while with'.split(
    ' ',
  ),
)

/** At most this many statements are offered; more would be a second list to read through. */
const most = 12

/**
 * The ids of the statements that fit `words`, best first, at most 12. Typing errors of about one letter in
 * four are forgiven, and the beginning of a word finds it.
 */
export function matching(knowledge: Knowledge, kind: string, words: string): readonly string[] {
  return words.trim() === '' ? [] : best(indexOf(knowledge, kind), words)
}

/** What can be found by words: a name, what it means, and other ways to say it. */
export type Findable = Pick<Question, 'id' | 'statement' | 'text' | 'words'>

/** The same over anything, such as questions that only a check answers, or causes. */
export function matchingAmong(questions: readonly Findable[], words: string): readonly string[] {
  return words.trim() === '' ? [] : best(indexOver(questions), words)
}

function best(index: MiniSearch, words: string): readonly string[] {
  const found = index.search(words)
  const top = found[0]?.score ?? 0
  // A long sentence touches many statements with one common word each: keep those near the best.
  return found
    .filter(({ score }) => score >= top / 6)
    .slice(0, most)
    .map(({ id }) => String(id))
}

/** The questions that a person may answer unasked: those that some sense or the story tells. */
export function tellable(knowledge: Knowledge, kind: string): readonly Question[] {
  return knowledge.steps
    .filter((step) => step.kinds.includes(kind))
    .flatMap((step) => step.questions)
    .filter((question) => question.sense !== undefined && question.kind === 'yes-no')
}

function indexOf(knowledge: Knowledge, kind: string): MiniSearch {
  const ofKnowledge = indexes.get(knowledge) ?? new Map<string, MiniSearch>()
  indexes.set(knowledge, ofKnowledge)
  const known = ofKnowledge.get(kind)
  if (known) return known
  const index = indexOver(tellable(knowledge, kind))
  ofKnowledge.set(kind, index)
  return index
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
