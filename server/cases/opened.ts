/** Was the body of the tool opened? Nobody is asked: what was done tells it, by the set-ups that it took. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { BenchCase } from '../../shared/case.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Situation } from '../../shared/situation.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import { looksOf } from './standing.js'
import { struckOut } from './struck-out.js'

/** Has a check that was made or a fix that was tried in this case opened the body? What was taken back has not. */
export function openedIn({ kind, events }: BenchCase, rulebook: Knowledge): boolean {
  const knowledge = bookOf(rulebook, kind)
  const struck = struckOut(events)
  const looks = looksOf(events, struck, knowledge)
  return events.some((event, place) => {
    if (event.type === 'tried') return !struck.fix(place) && fixOpens(knowledge, event.fix)
    const step = looks.get(place)
    return step !== undefined && opensBody(knowledge, step.setups)
  })
}

/** The same of a situation without a case, as far as it tells: by its fixes, and by what stands open. */
export function openedBy(
  situation: Pick<Situation, 'kind' | 'fixesTried' | 'standing'>,
  rulebook: Knowledge,
): boolean {
  const knowledge = bookOf(rulebook, situation.kind)
  return (
    opensBody(knowledge, situation.standing) || situation.fixesTried.some((fix) => fixOpens(knowledge, fix))
  )
}

function fixOpens(knowledge: Knowledge, id: string): boolean {
  const fix = knowledge.fixes.find((it) => it.id === id)
  return fix !== undefined && opensBody(knowledge, fix.setups)
}

const opensBody = ({ setups }: Knowledge, ids: readonly string[]): boolean =>
  setupsNeeded(setups, ids).some((setup) => setup.opensBody)
