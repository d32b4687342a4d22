/** What a tool has cost since a day: services, parts, minutes. */
import { lookupOf } from '../../shared/rulebook-index.js'
import { batchOfCase } from '../parts/take.js'
import type { AtHand } from '../wiring/deps.js'
import type { PastCase } from './tool-life.js'

/** Money in minor units. */
export interface Spent {
  readonly services: number
  /** as far as the shelf knows their prices */
  readonly parts: number
  /** names of the parts that were taken, one entry for each time */
  readonly taken: readonly string[]
  /** at the bench: as somebody told, else as the rulebook has it */
  readonly minutes: number
}

/** @param since ISO 8601 instant; cases that changed after it count */
export async function spentOn(
  { knowledge, parts }: Pick<AtHand, 'knowledge' | 'parts'>,
  cases: readonly PastCase[],
  since: string,
): Promise<Spent> {
  const lately = cases.filter(({ changedAt }) => changedAt >= since)
  const [shelf, moves] = await Promise.all([
    parts.list(),
    parts.movesOf(lately.map(({ id }) => batchOfCase(id))),
  ])
  const { fixes } = lookupOf(knowledge)
  const used = moves.flatMap(({ partId, change }) => {
    const part = shelf.find(({ id }) => id === partId)
    return part && change < 0 ? [{ name: part.name, cost: -change * (part.details.price ?? 0) }] : []
  })
  return {
    services: lately.reduce((sum, { service }) => sum + (service?.paid ?? 0), 0),
    parts: Math.round(used.reduce((sum, { cost }) => sum + cost, 0)),
    taken: used.map(({ name }) => name),
    minutes: lately
      .flatMap(({ tried }) => tried)
      .reduce((sum, { fix, minutes }) => sum + (minutes ?? fixes.get(fix)?.minutes ?? 0), 0),
  }
}
