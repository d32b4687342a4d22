/**
 * A drawn tool whose answers agree with each other. Findings are drawn one by one, each with its chance of being true
 * without any of its causes; of a real tool with one fault nobody sees what speaks very strongly for another, and two
 * signs that exclude each other (`excludes` in rules/findings/) are never seen together.
 */
import { onceFor } from '../../shared/once-for.js'
import type { KindModel } from '../diagnosis/model.js'
import type { DrawnTool } from '../simulation/tool.js'

/** From this ratio of chances on a finding speaks very strongly for the one cause against the other. */
const veryStrongly = 10

/** @param oneFault does a yes have to be the fault's own? */
export function agreeing(model: KindModel, tool: DrawnTool, oneFault: boolean): DrawnTool {
  const excluded = exclusionsOf(model)
  const seen = (f: number, causes: readonly number[]): boolean =>
    tool.shows(f, causes) && !(oneFault && misleads(model, f, causes))
  return {
    ...tool,
    shows: (f, causes) =>
      seen(f, causes) &&
      !(excluded.get(f) ?? []).some((other) => stronger(model, other, f, causes) && seen(other, causes)),
  }
}

/** P(true | these causes), the rest of the trouble left out. */
export const chanceOf = ({ leaks, strengths }: KindModel, f: number, causes: readonly number[]): number =>
  1 - causes.reduce((none, c) => none * (1 - strengths[f]![c]!), 1 - leaks[f]!)

/** Does a yes speak very strongly for a cause that is not there? What tells of an earlier fix tells of no cause. */
export function misleads(model: KindModel, f: number, causes: readonly number[]): boolean {
  if (model.earlier.has(f)) return false
  const own = chanceOf(model, f, causes)
  return model.causes.some((_, c) => !causes.includes(c) && chanceOf(model, f, [c]) >= veryStrongly * own)
}

/** Of two that exclude each other the likelier is seen; the first in the rulebook where neither is. */
function stronger(model: KindModel, one: number, other: number, causes: readonly number[]): boolean {
  const [p, q] = [chanceOf(model, one, causes), chanceOf(model, other, causes)]
  return p > q || (p === q && one < other)
}

/** By finding: those that it excludes, whichever side says so. */
const exclusionsOf = onceFor((model: KindModel): ReadonlyMap<number, readonly number[]> => {
  const pairs = model.findings.flatMap(({ excludes = [] }, f) =>
    excludes.flatMap((id) => {
      const other = model.findingIndex.get(id)
      return other === undefined ? [] : [[f, other] as const, [other, f] as const]
    }),
  )
  return new Map(
    model.findings.map((_, f) => [f, pairs.flatMap(([one, other]) => (one === f ? [other] : []))] as const),
  )
})
