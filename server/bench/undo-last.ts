import type { BenchCase, CaseEvent } from '../../shared/case.js'
import { lookedEnough } from '../cases/fold.js'
import { struckOut } from '../cases/struck-out.js'
import { complaintStep } from './case-state.js'

/**
 * What takes back the last thing said that still stands, so that the screen before comes again. `complaint` when that
 * is the complaint itself, which has a page of its own to change it; null when nothing stands that could be taken back.
 */
export function undoLast({ events }: Pick<BenchCase, 'events'>): CaseEvent | 'complaint' | null {
  if (lookedEnough({ events })) return { type: 'looked-enough', so: false }
  const struck = struckOut(events)
  const ableAgain = new Set<string>()
  for (const [place, event] of [...events.entries()].reverse()) {
    switch (event.type) {
      case 'answered': {
        const standing = Object.keys(event.answers).filter((question) => !struck.answer(place, question))
        if (event.step === complaintStep && (standing.length > 0 || event.words)) return 'complaint'
        if (standing.length > 0) return { type: 'took-back', questions: standing }
        break
      }
      case 'tried':
        if (!struck.fix(place)) return { type: 'untried', fix: event.fix }
        break
      case 'can-do-after-all':
        ableAgain.add(event.id)
        break
      case 'cannot-do':
        if (!ableAgain.delete(event.id)) return { type: 'can-do-after-all', id: event.id }
        break
      case 'lifted':
      case 'finished':
      case 'reopened':
      case 'came-back':
      case 'still-away':
        return null
    }
  }
  return null
}
