/** The tool of a first exercise: whoever has never seen the bench is shown the whole way, not a danger that ends it. */
import type { Prepared } from '../diagnosis/prepare.js'
import { rulesHolding } from '../simulation/holding.js'
import type { Beginning } from './begin.js'
import { layOut } from './desk.js'

/** Tools tried for one without a danger sign. */
const mostTries = 50

/** The same for everybody: the first tool, by number, that shows no danger. Where none is found, the one that was drawn. */
export async function harmless(prepared: Prepared, drawn: Beginning): Promise<Beginning> {
  const blank = { id: 'not-begun', learner: 'nobody', begunAt: '', changedAt: '', moves: [] }
  for (let seed = 1; seed <= mostTries; seed++) {
    const { kind, tool } = await layOut(prepared, { ...blank, ...drawn, seed })
    const shows = (id: string) => {
      const f = kind.model.findingIndex.get(id)
      return f === undefined ? 'unknown' : tool.shows(f, tool.causes) ? 'yes' : 'no'
    }
    if ((await rulesHolding(kind.model.stops, shows)).length === 0) return { ...drawn, seed }
  }
  return drawn
}
