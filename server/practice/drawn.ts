/** What an exercise is about: the hidden tool, and the complaint it comes with. */
import type { Chain, Knowledge, Level } from '../../shared/knowledge.js'
import type { Exercise, Setting } from '../../shared/practice.js'
import type { KindModel } from '../diagnosis/model.js'
import type { PreparedKind } from '../diagnosis/prepare.js'
import { chance, exponential, keyOf } from '../simulation/chance.js'
import { seeing } from '../simulation/complaint.js'
import type { DrawnTool } from '../simulation/tool.js'
import { drawTool, mainShares } from '../simulation/tool.js'
import { agreeing } from './agreeing.js'
import type { FirstWords } from './first-words.js'
import { firstWords } from './first-words.js'
import { kindsOf } from './level-book.js'

/**
 * The kind of tool that comes in next: of the level's, by how usual each is in a shop.
 *
 * @returns the same for the same seed
 */
export function kindFor(knowledge: Knowledge, level: Level, seed: number): string {
  const ids = kindsOf(knowledge, level)
  const usual = ids.map((id) => knowledge.kinds.find((kind) => kind.id === id)!.usual ?? 1)
  let left = chance(seed, keyOf('kind')) * usual.reduce((sum, it) => sum + it, 0)
  return ids.find((_, k) => (left -= usual[k]!) < 0) ?? ids.at(-1)!
}

/** Seeds tried, one after the other, for a tool that has something to complain about. */
const mostTries = 200

/** The same for the same seed, level, kind and setting, while the rulebook stays as it is. */
export function drawnFor(
  { model, effectOfYes }: PreparedKind,
  level: Level,
  chains: readonly Chain[],
  { seed, setting }: Pick<Exercise, 'seed' | 'setting'>,
): FirstWords & { readonly tool: DrawnTool } {
  const seen = seeing(model, effectOfYes)
  const agrees = level.faults === 'one' && level.wrongAnswers === 0
  for (let k = 0; k < mostTries; k++) {
    const number = (seed + k * 0x9e3779b1) >>> 0
    const tool = agreeing(model, toolOf(model, level, chains, setting, number), agrees)
    const words = firstWords(model, tool, seen, level.told)
    if (words) return { tool, ...words }
  }
  throw new RangeError('these causes show nothing that anybody would complain of: choose others')
}

function toolOf(
  model: KindModel,
  level: Level,
  chains: readonly Chain[],
  setting: Setting,
  number: number,
): DrawnTool {
  const index = (id: string) => model.causeIndex.get(id)
  const chosen = (setting.causes ?? []).flatMap((id) => index(id) ?? [])
  if (chosen.length > 0)
    return { ...drawTool(model, number, chosen[0]), causes: [...chosen].sort((a, b) => a - b) }
  const about = setting.about === undefined ? undefined : index(setting.about)
  const tool = drawTool(model, number, about)
  if (level.faults === 'as-they-come') return tool
  if (level.faults === 'one') return { ...tool, causes: [tool.main] }
  const chain = chainFor(model, chains, number, about)
  if (chain) return { ...tool, main: chain[0], causes: [...chain].sort((a, b) => a - b) }
  const main = model.exclusive[tool.main] ? firstOf(model, number, 'instead', -1) : tool.main
  const causes = [main, firstOf(model, number, 'behind', main)].sort((a, b) => a - b)
  return { ...tool, main, causes }
}

/**
 * Two causes of which one led to the other, drawn by how common the first is.
 *
 * @param about one of the two, where it is given
 * @returns undefined where the rulebook knows no chain of this kind (with that cause in it)
 */
function chainFor(
  model: KindModel,
  chains: readonly Chain[],
  number: number,
  about: number | undefined,
): readonly [number, number] | undefined {
  const shares = mainShares(model)
  const known = chains.flatMap(({ kinds, first, then }) => {
    const pair = [model.causeIndex.get(first), model.causeIndex.get(then)] as const
    const [a, b] = pair
    if (a === undefined || b === undefined || !kinds.includes(model.kind.id)) return []
    return about === undefined || pair.includes(about) ? [{ pair: [a, b] as const, share: shares[a]! }] : []
  })
  let left = chance(number, keyOf('chain')) * known.reduce((sum, { share }) => sum + share, 0)
  return (known.find(({ share }) => (left -= share) < 0) ?? known.at(-1))?.pair
}

/** The ordinary cause that comes first of all but one: arrivals at rates that go by the shares. */
function firstOf(model: KindModel, number: number, purpose: string, but: number): number {
  let first = -1
  let earliest = Infinity
  mainShares(model).forEach((share, c) => {
    if (share <= 0 || c === but || model.exclusive[c]) return
    const time = exponential(chance(number, keyOf(purpose), keyOf(model.causes[c]!.id))) / share
    if (time < earliest) [first, earliest] = [c, time]
  })
  return first
}
