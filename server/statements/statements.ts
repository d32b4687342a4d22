/** What somebody says in their own words → statements to confirm, best first, with the chance that each is meant. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge, Question } from '../../shared/knowledge.js'
import { modelOf } from '../diagnosis/model.js'
import type { Evidence } from './chances.js'
import { chances } from './chances.js'
import { clausesOf } from './clauses.js'
import { toldOf } from './how-often.js'
import type { Lexicon } from './lexicon.js'
import { lexiconOf, plainWords } from './lexicon.js'
import { likeness, windowsOf } from './likeness.js'
import type { Ways } from './ways.js'
import { waysOf } from './ways.js'

/** One line that somebody may mean. */
export interface Statement {
  /** of the question that it says yes to */
  readonly id: string
  readonly statement: string
  /** P(it is meant | what was said); several may be meant at once */
  readonly chance: number
}

/** Below this a statement is not offered. */
const leastChance = 0.08
/** More would be a second list to read through. */
const mostOffered = 8
/** What is longer is a letter: its beginning tells the complaint. */
const longest = 600

/**
 * @param kind a kind of the rulebook
 * @param words as typed or dictated
 * @returns none where nothing is understood
 */
export function statementsMeant(knowledge: Knowledge, kind: string, words: string): readonly Statement[] {
  const statementOf = new Map(heardIn(knowledge, kind).questions.map(({ id, statement }) => [id, statement]))
  return chances(evidenceIn(knowledge, kind, words))
    .filter(({ chance }) => chance >= leastChance)
    .slice(0, mostOffered)
    .map(({ id, chance }) => ({ id, statement: statementOf.get(id)!, chance }))
}

/** All that speaks for each statement of the kind that shares something with what was said. */
export function evidenceIn(knowledge: Knowledge, kind: string, words: string): readonly Evidence[] {
  const { questions, lexicon, ways, told } = heardIn(knowledge, kind)
  const windows = windowsOf(ways, clausesOf(lexicon, words.slice(0, longest)))
  return questions.flatMap(({ id }): Evidence[] => {
    const alike = windows.flatMap((window) =>
      ways.of.get(id)!.flatMap((way) => likeness(ways, way, window) ?? []),
    )
    return alike.length > 0 ? [{ id, alike, told: told.get(id)! }] : []
  })
}

/** Those told unasked most often in a kind, dangers and all, likeliest first: what the person most likely came with. */
export function commonComplaints(knowledge: Knowledge, kind: string, most = 8): readonly Statement[] {
  const { questions, told } = heardIn(knowledge, kind)
  return questions
    .map(({ id, statement }) => ({ id, statement, chance: told.get(id)! }))
    .sort((a, b) => b.chance - a.chance)
    .slice(0, most)
}

/** The questions that a person may answer unasked: those that some sense or the story tells. */
export function tellable(knowledge: Knowledge, kind: string): readonly Question[] {
  return bookOf(knowledge, kind)
    .steps.flatMap((step) => step.questions)
    .filter((question) => question.sense !== undefined && question.kind === 'yes-no')
}

/** A kind's rulebook, ready to listen. */
interface Heard {
  readonly questions: readonly Question[]
  readonly lexicon: Lexicon
  readonly ways: Ways
  readonly told: ReadonlyMap<string, number>
}

const made = new WeakMap<Knowledge, Map<string, Heard>>()

function heardIn(knowledge: Knowledge, kind: string): Heard {
  const ofKnowledge = made.get(knowledge) ?? new Map<string, Heard>()
  made.set(knowledge, ofKnowledge)
  let heard = ofKnowledge.get(kind)
  if (!heard) ofKnowledge.set(kind, (heard = prepared(knowledge, kind)))
  return heard
}

function prepared(knowledge: Knowledge, kind: string): Heard {
  const questions = tellable(knowledge, kind)
  const saidAnywhere = waysByQuestion(knowledge)
  const said = questions.map(({ id, statement }) => ({ id, statement, words: saidAnywhere.get(id)! }))
  const lexicon = lexiconOf(
    knowledge.speech,
    said.flatMap(({ statement, words }) => [statement, ...words].flatMap(plainWords)),
  )
  return {
    questions,
    lexicon,
    ways: waysOf(lexicon, said),
    told: toldOf(modelOf(knowledge, kind), questions),
  }
}

/** A question that several steps ask, one for each sort of tool, is said in the words of all of them. */
function waysByQuestion({ steps }: Knowledge): Map<string, string[]> {
  const ways = new Map<string, string[]>()
  for (const { id, words } of steps.flatMap(({ questions }) => questions)) {
    ways.set(id, [...(ways.get(id) ?? []), ...words])
  }
  return ways
}
