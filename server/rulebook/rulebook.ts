/** The rulebook as the checks see it: the knowledge with the look-ups that most checks need. */
import type { RulebookProblem } from '../errors.js'
import {
  folderNames,
  type Cause,
  type Fix,
  type Folder,
  type Knowledge,
  type Question,
  type Step,
} from '../../shared/knowledge.js'

/** A question and the step or fix that asks it. */
interface Asked {
  readonly question: Question
  readonly folder: 'steps' | 'fixes'
  readonly by: Step | Fix
  /** where in the file it stands, such as `questions[2]` or `outcome` */
  readonly field: string
}

/** One text in a file and where it stands. */
export interface RulebookText {
  readonly file: string
  readonly field: string
  readonly text: string
}

export interface Rulebook {
  readonly knowledge: Knowledge
  /** `causes/worn-brushes` of each file that is there but cannot be read: to point at it is no second mistake */
  readonly unreadable: ReadonlySet<string>
  /** names of the drawings that there are; undefined = not known, so not checked */
  readonly drawings: ReadonlySet<string> | undefined
  /** for each drawing of the parts of a kind, the parts that it shows; undefined as above */
  readonly partsDrawn: ReadonlyMap<string, ReadonlySet<string>> | undefined
  readonly asked: readonly Asked[]
  readonly askedById: ReadonlyMap<string, Asked>
  readonly causesById: ReadonlyMap<string, Cause>
  readonly ids: ReadonlyMap<Folder, ReadonlySet<string>>
  /** every text in every file, in file order; sources.json and moved.json apart */
  readonly texts: readonly RulebookText[]
}

/** One mistake that a rulebook can hold. Checks collect problems; they throw nothing. */
export interface Check {
  readonly name: string
  readonly description: string
  /** folders whose files must all be readable, or the check would blame one file for another's mistake */
  readonly needs?: readonly Folder[]
  run(rulebook: Rulebook): RulebookProblem[]
}

export function rulebookOf(
  knowledge: Knowledge,
  about: {
    unreadable?: ReadonlySet<string>
    drawings?: ReadonlySet<string> | undefined
    partsDrawn?: ReadonlyMap<string, ReadonlySet<string>> | undefined
  } = {},
): Rulebook {
  const asked = [...askedBySteps(knowledge), ...askedByFixes(knowledge)]
  return {
    knowledge,
    unreadable: about.unreadable ?? new Set(),
    drawings: about.drawings,
    partsDrawn: about.partsDrawn,
    asked,
    askedById: new Map(asked.map((it) => [it.question.id, it])),
    causesById: new Map(knowledge.causes.map((it) => [it.id, it])),
    ids: new Map(folderNames.map((folder) => [folder, new Set(knowledge[folder].map((it) => it.id))])),
    texts: folderNames.flatMap((folder) =>
      knowledge[folder].flatMap((entry) => textsIn(entry, fileOf(folder, entry.id), '')),
    ),
  }
}

function askedBySteps(knowledge: Knowledge): Asked[] {
  return knowledge.steps.flatMap((by) =>
    by.questions.map((question, i): Asked => ({ question, folder: 'steps', by, field: `questions[${i}]` })),
  )
}

function askedByFixes(knowledge: Knowledge): Asked[] {
  return knowledge.fixes.flatMap((by) =>
    by.outcome === undefined
      ? []
      : [{ question: by.outcome, folder: 'fixes' as const, by, field: 'outcome' }],
  )
}

function textsIn(value: unknown, file: string, field: string): RulebookText[] {
  if (typeof value === 'string') return [{ file, field, text: value }]
  if (Array.isArray(value)) return value.flatMap((it, i) => textsIn(it, file, `${field}[${i}]`))
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) =>
    textsIn(inner, file, field === '' ? key : `${field}.${key}`),
  )
}

/** Path of an entry's file from the project's root. */
export function fileOf(folder: Folder, id: string): string {
  return `rules/${folder}/${id}.json`
}

/** Problem list for a reference: empty when `rules/<folder>/<id>.json` is there. */
export function missing(
  book: Rulebook,
  folder: Folder,
  id: string,
  file: string,
  field: string,
): RulebookProblem[] {
  if (book.ids.get(folder)!.has(id) || book.unreadable.has(`${folder}/${id}`)) return []
  const message = `there is no ${fileOf(folder, id)}`
  return [{ file, field, message, remedy: 'add that file or correct the name' }]
}

/** Causes with a share in a kind, in rulebook order. */
export function causesOf(book: Rulebook, kind: string): Cause[] {
  return book.knowledge.causes.filter((it) => it.shares[kind] !== undefined)
}

/** Is this question put by some step or fix of the kind? */
export function isAskedIn(book: Rulebook, question: string | undefined, kind: string): boolean {
  return book.asked.some((it) => it.question.id === question && it.by.kinds.includes(kind))
}

/** `a, b and c` */
export function listed(words: readonly string[]): string {
  return words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`
}
