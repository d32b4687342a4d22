import type { CaseEvent } from '../../shared/case.js'

/** Which answers and fixes were taken back later on. `place` is an event's place in the case, from 0. */
export interface Struck {
  answer(place: number, question: string): boolean
  fix(place: number): boolean
}

/**
 * `took-back` strikes every earlier answer to its questions; `untried` strikes the latest try of its fix
 * that is not struck yet.
 */
export function struckOut(events: readonly CaseEvent[]): Struck {
  const tookBackAt = new Map<string, number>()
  const fixes = new Set<number>()

  events.forEach((event, place) => {
    if (event.type === 'took-back') {
      for (const question of event.questions) tookBackAt.set(question, place)
    }
    if (event.type === 'untried') {
      const last = events.findLastIndex(
        (it, at) => at < place && it.type === 'tried' && it.fix === event.fix && !fixes.has(at),
      )
      if (last >= 0) fixes.add(last)
    }
  })

  return {
    answer: (place, question) => place < (tookBackAt.get(question) ?? -1),
    fix: (place) => fixes.has(place),
  }
}
