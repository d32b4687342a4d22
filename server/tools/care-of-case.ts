/** Use case: a fix that does what care would have done begins that care anew. */
import type { BenchCase } from '../../shared/case.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Care, Fix } from '../../shared/knowledge.js'
import { dayIn } from '../care/rhythm.js'
import { struckOut } from '../cases/struck-out.js'
import type { AtHand } from '../wiring/deps.js'

/** From this chance of cure on, a fix has renewed what the care keeps from wearing. */
const renewsFrom = 0.5

/** The care that need not be done again once a fix was: all the wear that it keeps off begins anew. */
const careRenewedBy = ({ cures }: Pick<Fix, 'cures'>, care: readonly Care[]): readonly Care[] =>
  care.filter(
    ({ everyDays, resets }) =>
      everyDays !== undefined &&
      Object.keys(resets).length > 0 &&
      Object.keys(resets).every((cause) => (cures[cause] ?? 0) >= renewsFrom),
  )

/** Logs the care that the fixes of a closed case have done, cured or not; closed twice, it is logged once. */
export async function logCareOfCase(hand: AtHand, bench: BenchCase): Promise<void> {
  const tool = await hand.tools.ofCase(bench.id)
  if (!tool) return
  const { care, fixes } = bookOf(hand.knowledge, bench.kind)
  const struck = struckOut(bench.events)
  const tried = new Set(
    bench.events.flatMap((event, place) => (event.type === 'tried' && !struck.fix(place) ? [event.fix] : [])),
  )
  const renewed = fixes.filter(({ id }) => tried.has(id)).flatMap((fix) => careRenewedBy(fix, care))
  const at = hand.now().toISOString()
  const day = dayIn(hand.habits.record.zone, at)
  await hand.care.log(
    `case-${bench.id}`,
    [...new Set(renewed.map(({ id }) => id))].map((task) => ({ toolId: tool.id, task, day })),
    { who: '', at, details: { caseId: bench.id } },
  )
}
