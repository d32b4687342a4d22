/**
 * The marks of one kind at a glance, for a page that changes a number and shows what it does to them.
 *
 *     const before = await quickMarks(knowledge, kind)
 *     const after  = await quickMarks({ ...knowledge, causes: [...] }, kind)
 *
 * A fixed sample of simulated tools, the same for the same kind whatever the numbers (common random numbers, keyed by
 * id): what differs between two rulebooks is their doing and not the luck of the draw. Tools are drawn from the
 * rulebook itself, like the figures of `npm run prove`, or from another one given as `world` ("the tools stay as they
 * are, only the book changes"). About a second for 200 tools; nothing is kept, nothing is written.
 *
 * `knowledge` is the whole rulebook or its book of the kind, as loaded or with numbers changed (shares, strengths,
 * leaks, `severalFaults`); it should have passed the schemas. Rules must be left the same objects where they are not
 * changed, which spreading does: what the engine settled about them is remembered by object.
 */
import type { Knowledge } from '../../shared/knowledge.js'
import type { Estimate } from '../../shared/proof.js'
import { modelOf } from '../diagnosis/model.js'
import type { MarkCase } from './mark-case.js'
import { markCase } from './mark-case.js'
import { proofAsker } from './proof-asker.js'
import { repairItems } from './repair-items.js'
import { meanOf, sharesWithin } from './shares.js'

export interface QuickMarks {
  /** tools in the sample */
  readonly tools: number
  /** share of tools isolated to 1, 2 and 3 repairs, in [0, 1], with standard errors */
  readonly isolation: readonly [Estimate, Estimate, Estimate]
  /** share of faults there whose cause is itself the likeliest of all causes */
  readonly causeFirst: Estimate
  /** tool by tool, in the order of the sample: the least number of repairs to which it is isolated */
  readonly within: readonly number[]
}

export interface QuickMarksOptions {
  /** how many tools; 200 unless told otherwise */
  readonly tools?: number
  /** the rulebook that tools are drawn from; `knowledge` itself unless told otherwise. It must have the same ids. */
  readonly world?: Knowledge
  /** called after each tool, so that whoever has other work can let it through */
  readonly pause?: () => Promise<void>
}

/** @throws RangeError for an unknown kind, or for shares from which no priors can be made */
export async function quickMarks(
  knowledge: Knowledge,
  kind: string,
  { tools = 200, world = knowledge, pause }: QuickMarksOptions = {},
): Promise<QuickMarks> {
  const asker = await proofAsker(knowledge, kind)
  const items = repairItems(asker.model)
  const source = world === knowledge ? asker.model : modelOf(world, kind)
  const cases: MarkCase[] = []
  for (let number = 0; number < tools; number++) {
    cases.push(await markCase(asker, items, source, number))
    await pause?.()
  }
  return {
    tools,
    isolation: sharesWithin(cases.map((c) => c.within)),
    causeFirst: meanOf(cases.flatMap((c) => c.causePlaces.map((place) => Number(place === 1)))),
    within: cases.map((c) => c.within),
  }
}
