import type { BenchCase } from '../../shared/case.js'
import type { SomeFigures } from '../../shared/figures.js'

/**
 * The figures that were said in a case and stand: of each the last one said, unless it was given back since. Pure, and
 * apart from all else that happened in the case.
 */
export function ownFigures({ events }: Pick<BenchCase, 'events'>): SomeFigures {
  let own: SomeFigures = {}
  for (const event of events) {
    if (event.type !== 'figured') continue
    const kept = Object.entries(own).filter(([name]) => !event.forget.some((gone) => gone === name))
    own = { ...(Object.fromEntries(kept) as SomeFigures), ...event.figures }
  }
  return own
}
