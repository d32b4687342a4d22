import { z } from 'zod'
import type { BenchCase } from '../../shared/case.js'
import { CaseEvent } from '../../shared/case.js'
import { KindId } from '../../shared/ids.js'
import type { Moved } from '../../shared/ids-of-today.js'
import { today, withIdsOfToday } from '../../shared/ids-of-today.js'
import { onceFor } from '../../shared/once-for.js'
import type { CaseStore } from './case-store.js'

/** The store hands out one object for each version of a case, and so does this: what is folded from it is kept by it. */
const renaming = onceFor((moved: Moved) => onceFor((stored: BenchCase) => caseOfToday(stored, moved)))

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

/** The case with ids of today: one stored before a file of `rules/` was renamed names it by its old id. */
export const caseOfToday = (stored: BenchCase, moved: Moved): BenchCase =>
  withIdsOfToday(Stored, stored, moved)

const Stored = z.object({ kind: KindId, events: z.array(CaseEvent) })
