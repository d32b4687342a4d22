/** Learners of an invented class: the plan's player with a habit or two. Pure; chance is keyed by tool and turn. */
import { z } from 'zod'
import type { Desk, BenchState } from '../../server/practice/desk.js'
import { isMended } from '../../server/practice/desk.js'
import { plansMove, plansSpread } from '../../server/practice/model-player.js'
import { refusalOf } from '../../server/practice/refusals.js'
import { slipsOf } from '../../server/practice/slips.js'
import { chance } from '../../server/simulation/chance.js'
import type { PracticeMove, Spread } from '../../shared/practice.js'

export const Habits = z.strictObject({
  /** gives up after so many looks */
  sendsInAfter: z.number().optional(),
  /** a set-up that is forgotten before looks and repairs */
  forgets: z.string().optional(),
  /** two causes that are taken for one another */
  mixesUp: z.tuple([z.string(), z.string()]).optional(),
  /** all points on the leader after so many looks, and its repair at once */
  sureAfter: z.number().optional(),
  /** share of the points that goes to "something else" */
  unsure: z.number().optional(),
  /** share of turns in which another look is taken than the plan's */
  wanders: z.number().optional(),
  handsBackDirty: z.boolean().optional(),
  /** the usual repair first, nothing asked */
  mendsFirst: z.boolean().optional(),
  /** share of tools with which it happens */
  share: z.number().default(1),
})
export type Habits = z.infer<typeof Habits>

/** What somebody with these habits does next. `moves`: what was done before. */
export async function moveOf(
  desk: Desk,
  standing: BenchState,
  moves: readonly PracticeMove[],
  habits: Habits,
  seed: number,
): Promise<PracticeMove> {
  const has = habits.share >= 1 || chance(seed, 7) < habits.share ? habits : Habits.parse({})
  const planned = await plansMove(desk, standing)
  // a tool comes in plugged in: whoever forgets the plug has the blade in hand first
  const bare = moves.length === 0 && has.forgets !== undefined ? takenOffFirst(desk, has.forgets) : undefined
  if (bare !== undefined) return { type: 'stood', setup: bare }
  if (planned.type === 'ended' && planned.way === 'set-aside') return planned
  const wanted = await ownWay(desk, standing, moves, has, planned, seed)
  const mends = wanted.type === 'tried' || wanted.type === 'ended'
  if (mends && standing.spread === undefined && !isMended(standing) && !moves.some(isFix))
    return { type: 'spread', spread: await pointsOf(desk, standing, has) }
  return wanted
}

/** What comes off by hand once the forgotten set-up stands. */
const takenOffFirst = ({ kind: { model } }: Desk, forgotten: string): string | undefined =>
  model.setups.find(({ needs }) => needs.includes(forgotten))?.id

const isFix = (move: PracticeMove) => move.type === 'tried'

async function ownWay(
  desk: Desk,
  standing: BenchState,
  moves: readonly PracticeMove[],
  habits: Habits,
  planned: PracticeMove,
  seed: number,
): Promise<PracticeMove> {
  if (isMended(standing))
    return habits.handsBackDirty && planned.type === 'disinfected'
      ? { type: 'ended', way: 'hand-back' }
      : planned
  if (habits.mendsFirst && !moves.some(isFix)) {
    const fix = fixFor(desk, leaderOf(await pointsOf(desk, standing, habits)))
    const stands = planned.type === 'stood' ? planned : undefined
    if (stands) return stands
    if (fix !== undefined) return { type: 'tried', fix }
  }
  // nobody skips the danger questions but whoever mends first
  const danger = desk.kind.model.steps.find(({ form }) => form === 'danger')
  if (planned.type === 'looked' && planned.step === danger?.id) return planned
  const looks = moves.filter((it) => it.type === 'looked' && it.step !== danger?.id).length
  if (habits.sendsInAfter !== undefined && looks >= habits.sendsInAfter)
    return { type: 'ended', way: 'send-in' }
  if (habits.sureAfter !== undefined && looks >= habits.sureAfter && !moves.some(isFix)) {
    const fix = fixFor(desk, leaderOf(await pointsOf(desk, standing, habits)))
    if (fix !== undefined && planned.type !== 'stood') return { type: 'tried', fix }
  }
  if (habits.mixesUp && planned.type === 'tried') {
    const fix = fixFor(desk, leaderOf(await pointsOf(desk, standing, habits)))
    if (fix !== undefined && !standing.situation.fixesTried.includes(fix)) return { type: 'tried', fix }
  }
  if (planned.type === 'stood' && planned.setup === habits.forgets)
    return without(desk, standing, planned.setup)
  if (habits.wanders !== undefined && chance(seed, moves.length, 1) < habits.wanders)
    return (await otherLook(desk, standing, chance(seed, moves.length, 2))) ?? planned
  return planned
}

/** What the plan would do if the set-up stood. */
async function without(desk: Desk, standing: BenchState, setup: string): Promise<PracticeMove> {
  const { situation } = standing
  const move = await plansMove(desk, {
    ...standing,
    situation: { ...situation, standing: [...situation.standing, setup] },
  })
  return move.type === 'stood'
    ? without(
        desk,
        { ...standing, situation: { ...situation, standing: [...situation.standing, setup] } },
        move.setup,
      )
    : move
}

async function otherLook(desk: Desk, standing: BenchState, luck: number): Promise<PracticeMove | undefined> {
  const { answers, standing: stands } = standing.situation
  const looks = desk.kind.model.steps
    .filter(
      ({ questions, setups }) =>
        questions.some(({ id }) => answers[id] === undefined) && setups.every((id) => stands.includes(id)),
    )
    .map(({ id }): PracticeMove => ({ type: 'looked', step: id }))
  const able: PracticeMove[] = []
  for (const look of looks)
    if (
      (await refusalOf(desk, standing, look)) === undefined &&
      (await slipsOf(desk, standing, look)).length === 0
    )
      able.push(look)
  return able[Math.floor(luck * able.length)]
}

/** The points that somebody with these habits spreads. */
async function pointsOf(desk: Desk, standing: BenchState, habits: Habits): Promise<Spread> {
  let { points, other } = await plansSpread(desk, standing)
  const [one, two] = habits.mixesUp ?? []
  if (one !== undefined && two !== undefined && (points[one] ?? 0) !== (points[two] ?? 0)) {
    const swapped = { ...points, [one]: points[two] ?? 0, [two]: points[one] ?? 0 }
    points = Object.fromEntries(Object.entries(swapped).filter(([, it]) => it > 0))
  }
  const leader = leaderOf({ points, other })
  if ((habits.sureAfter !== undefined || habits.mendsFirst) && leader !== undefined)
    return { points: { [leader]: 100 }, other: 0 }
  if (habits.unsure !== undefined) {
    const kept = Object.entries(points).map(([id, it]) => [
      id,
      Math.floor((it * (1 - habits.unsure!)) / 10) * 10,
    ])
    points = Object.fromEntries(kept.filter(([, it]) => Number(it) > 0)) as Spread['points']
    other = 100 - Object.values(points).reduce((sum, it) => sum + it, 0)
  }
  return { points, other }
}

const leaderOf = ({ points }: Spread): string | undefined =>
  Object.entries(points).sort(([a, x], [b, y]) => y - x || (a < b ? -1 : 1))[0]?.[0]

/** The repair that cures it likeliest. */
function fixFor({ kind: { model } }: Desk, cause: string | undefined): string | undefined {
  const c = model.causes.findIndex(({ id }) => id === cause)
  if (c < 0) return undefined
  return model.fixes
    .map(({ id }) => ({ id, cures: model.curesOf.get(id)?.[c] ?? 0 }))
    .sort((a, b) => b.cures - a.cures)
    .find(({ cures }) => cures > 0)?.id
}
