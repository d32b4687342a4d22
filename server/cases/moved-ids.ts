import type { BenchCase, CaseEvent } from '../../shared/case.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { onceFor } from '../../shared/once-for.js'
import type { CaseStore } from './case-store.js'

type Moved = Knowledge['moved']

/** The store hands out one object for each version of a case, and so does this: what is folded from it is kept by it. */
const renaming = onceFor((moved: Moved) => onceFor((stored: BenchCase) => withIdsOfToday(stored, moved)))

/**
 * The store as one rulebook reads it: every case it hands out names kinds, questions, fixes and so on by the ids of
 * that rulebook. The store itself keeps what was written, so a rulebook may be exchanged while cases are open.
 */
export function casesOfToday(cases: CaseStore, moved: Moved): CaseStore {
  if (Object.keys(moved).length === 0) return cases
  const ofToday = renaming(moved)
  return {
    ...cases,
    begin: async (start) => ofToday(await cases.begin(start)),
    get: async (id) => ofToday(await cases.get(id)),
    list: async (filter) =>
      (await cases.list(filter)).map((summary) => ({
        ...summary,
        kind: today(moved, ['kinds'], summary.kind),
        outcome: summary.outcome && {
          ...summary.outcome,
          cause: today(moved, ['causes'], summary.outcome.cause),
        },
      })),
    append: async (...what) => ofToday(await cases.append(...what)),
    change: async (...what) => ofToday(await cases.change(...what)),
  }
}

/**
 * The case with ids of today: one stored before a file of `rules/` was renamed names it by its old id.
 * Keys of `rules/moved.json` are the folders, and `questions` for the questions inside steps and fixes.
 */
export function withIdsOfToday(benchCase: BenchCase, moved: Moved): BenchCase {
  if (Object.keys(moved).length === 0) return benchCase
  return {
    ...benchCase,
    kind: today(moved, ['kinds'], benchCase.kind),
    events: benchCase.events.map((event) => eventOfToday(event, moved)),
  }
}

function eventOfToday(event: CaseEvent, moved: Moved): CaseEvent {
  const question = (id: string) => today(moved, ['questions'], id)
  switch (event.type) {
    case 'answered':
      return {
        ...event,
        step: today(moved, ['steps'], event.step),
        answers: Object.fromEntries(
          Object.entries(event.answers).map(([id, answer]) => [question(id), answer]),
        ),
      }
    case 'took-back':
      return { ...event, questions: event.questions.map(question) }
    case 'cannot-do':
    case 'can-do-after-all':
      return { ...event, id: today(moved, ['steps', 'fixes'], event.id) }
    case 'tried':
    case 'untried':
      return { ...event, fix: today(moved, ['fixes'], event.fix) }
    case 'lifted':
      return { ...event, stop: today(moved, ['stops'], event.stop) }
    case 'finished':
    case 'came-back':
      return event.cause === undefined ? event : { ...event, cause: today(moved, ['causes'], event.cause) }
    default:
      return event
  }
}

/** Follows renames of renames; a ring of them ends where it began. */
function today(moved: Moved, folders: readonly string[], id: string): string {
  const been = new Set<string>()
  let now = id
  while (!been.has(now)) {
    been.add(now)
    const at = now
    now = folders.map((folder) => moved[folder]?.[at]).find((next) => next !== undefined) ?? at
  }
  return now
}
