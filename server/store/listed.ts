/** What the list shows of a case and finds it by: columns that are made anew with every event. */
import type { BenchCase } from '../../shared/case.js'
import { caseStateOf } from '../cases/fold.js'
import { confirmedOutcome } from '../cases/outcome.js'
import { nameKey } from '../register/name-key.js'

export interface Listed {
  state: string
  /** the complaint in the user's own words */
  words: string | null
  /** as JSON */
  outcome: string | null
  event_count: number
  /** name and words without capitals, to search in */
  found_by: string
}

export function listedAs({ tool, events }: Pick<BenchCase, 'tool' | 'events'>): Listed {
  const told = events.find((event) => event.type === 'answered' && event.words !== undefined)
  const words = told?.type === 'answered' ? (told.words ?? null) : null
  const outcome = confirmedOutcome({ events })
  return {
    state: caseStateOf({ events }),
    words,
    outcome: outcome && JSON.stringify(outcome),
    event_count: events.length,
    found_by: nameKey(`${tool} ${words ?? ''}`),
  }
}
