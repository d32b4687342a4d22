/** Which tools in hand must not be used: whoever takes one up sees it before anything else. */
import { lookupOf } from '../../shared/rulebook-index.js'
import { situationFrom } from '../cases/fold.js'
import type { AtHand } from '../wiring/deps.js'

type Hand = Pick<AtHand, 'knowledge' | 'stopsIn' | 'cases'>

/** By case: the name of the gravest stop that holds and that nobody has lifted; only those where one does. */
export async function stopsStanding(
  hand: Hand,
  ids: readonly string[],
): Promise<ReadonlyMap<string, string>> {
  const named = await Promise.all(ids.map(async (id) => [id, await stopOf(hand, id)] as const))
  return new Map(named.flatMap(([id, name]) => (name === null ? [] : [[id, name]])))
}

async function stopOf({ knowledge, stopsIn, cases }: Hand, id: string): Promise<string | null> {
  const bench = await cases.get(id)
  if (!knowledge.kinds.some((kind) => kind.id === bench.kind)) return null
  const stops = await stopsIn(situationFrom(bench, knowledge))
  const gravest = stops.find(({ grade }) => grade === 'set-aside') ?? stops[0]
  return gravest ? (lookupOf(knowledge).stops.get(gravest.id)?.name ?? gravest.id) : null
}
