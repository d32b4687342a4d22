/** Use cases: what a fix or care takes from the shelf. */
import type { BenchCase } from '../../shared/case.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Fix } from '../../shared/knowledge.js'
import type { Part } from '../../shared/part.js'
import { struckOut } from '../cases/struck-out.js'
import type { AtHand } from '../wiring/deps.js'

export const batchOfCase = (caseId: string): string => `case-${caseId}`

/** What lies on the shelf of what a fix takes. */
export const shelfForFix = ({ parts }: Pick<Fix, 'parts'>, shelf: readonly Part[]): readonly Part[] =>
  shelf.filter(({ details }) => parts.some(({ name }) => details.is.includes(name)))

/** Takes what the fixes of a closed case needed; closed twice, it is taken once. */
export async function takeForCase(hand: AtHand, bench: BenchCase): Promise<void> {
  const shelf = await hand.parts.list()
  if (shelf.length === 0) return
  const struck = struckOut(bench.events)
  const fixes = new Map(bookOf(hand.knowledge, bench.kind).fixes.map((fix) => [fix.id, fix]))
  const moves = bench.events.flatMap((event, place) =>
    event.type === 'tried' && !struck.fix(place)
      ? shelfForFix(fixes.get(event.fix) ?? { parts: [] }, shelf).map((part) => ({
          key: `${event.fix}.${part.id}`,
          partId: part.id,
          change: -part.details.perUse,
          why: { for: 'case', caseId: bench.id, fix: event.fix } as const,
        }))
      : [],
  )
  await hand.parts.move(batchOfCase(bench.id), moves, hand.now().toISOString())
}

/** Takes what care of so many tools needs. @returns those of which there was too little */
export async function takeForCare(
  hand: AtHand,
  batch: string,
  task: string,
  tools: number,
  at: string,
): Promise<readonly Part[]> {
  const parts = (await hand.parts.list()).filter(({ details }) => details.care.includes(task))
  return hand.parts.move(
    batch,
    parts.map(({ id, details }) => ({
      key: id,
      partId: id,
      change: -details.perUse * tools,
      why: { for: 'care', task },
    })),
    at,
  )
}
