/** The door to the rulebook: a frozen Knowledge, or one error that lists everything wrong with it. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { KnowledgeError, type RulebookProblem } from '../errors.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { runChecks } from './checks.js'
import { readFiles } from './read-files.js'
import { rulebookOf } from './rulebook.js'

const projectRules = new URL('../../rules/', import.meta.url)
/** Where the drawings lie that the rulebook may name. */
export const projectDrawings = new URL('../../views/partials/drawings/', import.meta.url)

/** The rulebook as far as it can be read, with everything wrong with it. */
export interface ReadRulebook {
  readonly knowledge: Knowledge
  readonly problems: readonly RulebookProblem[]
  /** checks that could not run because a file could not be read */
  readonly waiting: readonly string[]
}

/**
 * Reads and checks the rulebook.
 *
 * @param dir the folder to read; the project's `rules/` unless told otherwise
 * @returns the knowledge, frozen all the way down; lists by `order` where a file has one, then by id
 * @throws KnowledgeError with every problem: unreadable files, wrong fields, and what the checks find
 */
export function loadKnowledge(dir: string | URL = projectRules): Knowledge {
  const { knowledge, problems, waiting } = readRulebook(dir)
  if (problems.length > 0) throw new KnowledgeError(problems, waiting.length)
  return frozen(knowledge)
}

/** The same without the throw, for whoever wants to show the problems. */
export function readRulebook(dir: string | URL = projectRules): ReadRulebook {
  const { knowledge, problems, unreadable } = readFiles(dir instanceof URL ? fileURLToPath(dir) : dir)
  const checked = runChecks(
    rulebookOf(knowledge, { unreadable, drawings: drawingNames(), partsDrawn: partsDrawn() }),
  )
  return { knowledge, problems: [...problems, ...checked.problems], waiting: checked.waiting }
}

/** Names of the drawings, or undefined while there is no folder of them. */
export function drawingNames(): Set<string> | undefined {
  const path = fileURLToPath(projectDrawings)
  if (!existsSync(path)) return undefined
  const files = readdirSync(path).filter((name) => name.endsWith('.ejs'))
  return new Set(files.map((name) => name.slice(0, -'.ejs'.length)))
}

/** For each drawing of the parts of a kind, the parts that have a place in it; undefined while there are none. */
function partsDrawn(): Map<string, Set<string>> | undefined {
  const path = fileURLToPath(new URL('parts/', projectDrawings))
  if (!existsSync(path)) return undefined
  const files = readdirSync(path).filter((name) => name.endsWith('.json'))
  return new Map(
    files.map((name) => [
      name.slice(0, -'.json'.length),
      new Set(Object.keys(JSON.parse(readFileSync(`${path}${name}`, 'utf8')) as object)),
    ]),
  )
}

function frozen<T>(value: T): T {
  if (typeof value === 'object' && value !== null && !Object.isFrozen(value)) {
    Object.freeze(value)
    Object.values(value).forEach(frozen)
  }
  return value
}
