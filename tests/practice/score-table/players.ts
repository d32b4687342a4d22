/** Apprentices and cheats of the score table: the plan's player with one way of their own. Chance is keyed by tool and turn. */
import { isMended } from '../../../server/practice/desk.js'
import type { BenchState, Desk } from '../../../server/practice/desk.js'
import { plansMove, plansSpread } from '../../../server/practice/model-player.js'
import { moveKey } from '../../../server/practice/score.js'
import { refusalOf } from '../../../server/practice/refusals.js'
import { slipsOf } from '../../../server/practice/slips.js'
import { chance } from '../../../server/simulation/chance.js'
import type { PracticeMove, Spread } from '../../../shared/practice.js'
import type { Player } from '../bench.js'

const sendIn: PracticeMove = { type: 'ended', way: 'send-in' }
const handBack: PracticeMove = { type: 'ended', way: 'hand-back' }

const ends = (move: PracticeMove, way: string) => move.type === 'ended' && move.way === way

/** The plan's move where the danger signs are still to be asked, or a danger ends the work; else undefined. */
async function dangersFirst(desk: Desk, now: BenchState): Promise<PracticeMove | undefined> {
  const danger = desk.kind.model.steps.find(({ form }) => form === 'danger')!
  const planned = await plansMove(desk, now)
  const asked = danger.questions.every(({ id }) => now.situation.answers[id] !== undefined)
  return !asked || ends(planned, 'set-aside') || isMended(now) ? planned : undefined
}

/** What can be done here without hurting anybody, its set-up first where one is missing. */
async function able(
  desk: Desk,
  now: BenchState,
  wanted: readonly PracticeMove[],
): Promise<PracticeMove | undefined> {
  for (const move of wanted) {
    if ((await refusalOf(desk, now, move)) !== undefined) continue
    const setups = setupsOf(desk, move).filter((id) => !now.situation.standing.includes(id))
    if (setups[0] !== undefined) return { type: 'stood', setup: setups[0] }
    if ((await slipsOf(desk, now, move)).every(({ grade }) => grade !== 'ends')) return move
  }
  return undefined
}

function setupsOf({ kind: { model } }: Desk, move: PracticeMove): string[] {
  const own =
    move.type === 'looked'
      ? model.steps.find(({ id }) => id === move.step)!.setups
      : move.type === 'tried'
        ? model.fixes.find(({ id }) => id === move.fix)!.setups
        : []
  const needs = (id: string): string[] => [
    ...(model.setups.find((it) => it.id === id)?.needs ?? []).flatMap(needs),
    id,
  ]
  return own.flatMap(needs)
}

const looksLeft = ({ kind: { model } }: Desk, { situation }: BenchState): PracticeMove[] =>
  model.steps
    .filter(
      (it) => it.form !== 'danger' && it.questions.some(({ id }) => situation.answers[id] === undefined),
    )
    .map(({ id }) => ({ type: 'looked', step: id }))

/** What somebody looks at who does not know where to look: questions and quick looks, nothing that opens the tool. */
const easyLooks = (desk: Desk, now: BenchState): PracticeMove[] =>
  looksLeft(desk, now).filter((move) => {
    const step = desk.kind.model.steps.find(({ id }) => move.type === 'looked' && id === move.step)!
    const opens = setupsOf(desk, move).some(
      (id) => desk.kind.model.setups.find((it) => it.id === id)?.opensBody,
    )
    return !opens && step.minutes <= 3
  })

const fixesLeft = ({ kind: { model } }: Desk, { situation }: BenchState): PracticeMove[] =>
  model.fixes
    .filter(({ id }) => !situation.fixesTried.includes(id))
    .map(({ id }) => ({ type: 'tried', fix: id }))

/** In an order of this tool's and purpose's own. */
const shuffled = <T>(list: readonly T[], desk: Desk, purpose: number): T[] =>
  list
    .map((it, k) => ({ it, at: chance(desk.tool.number, purpose, k) }))
    .sort((a, b) => a.at - b.at)
    .map(({ it }) => it)

const looksMade = ({ kind: { model }, complaint }: Desk, { situation }: BenchState): number =>
  model.steps.filter(
    (it) =>
      it.form !== 'danger' &&
      it.questions.some(({ id }) => situation.answers[id] !== undefined && !complaint.includes(id)),
  ).length

/** Fixes by how sure the suspects are that they cure; `wrong`: of those only that are not there. */
async function bySuspicion(desk: Desk, now: BenchState, wrong = false): Promise<PracticeMove[]> {
  const { points } = await plansSpread(desk, now)
  const { model } = desk.kind
  const suspects = Object.entries(points)
    .filter(([cause]) => !wrong || !now.causes.includes(model.causeIndex.get(cause)!))
    .sort(([, a], [, b]) => b - a)
  return suspects.flatMap(([cause]) => {
    const c = model.causeIndex.get(cause)!
    return [...model.fixes]
      .sort((a, b) => model.curesOf.get(b.id)![c]! - model.curesOf.get(a.id)![c]!)
      .slice(0, 1)
      .map(({ id }): PracticeMove => ({ type: 'tried', fix: id }))
      .filter((it) => it.type === 'tried' && !now.situation.fixesTried.includes(it.fix))
  })
}

const patience = 6
/** Turns after which somebody who looks at everything has lost the morning. */
const many = 40

export const players: Readonly<Record<string, Player>> = {
  good: plansMove,
  'good but unclean': async (desk, now) => {
    const move = await plansMove(desk, now)
    return isMended(now) && move.type === 'disinfected' ? handBack : move
  },
  beginner: async (desk, now, turn) => {
    const planned = await plansMove(desk, now)
    if (await dangersFirst(desk, now)) return planned
    // what gets the tool ready is no look
    const isTurn = looksMade(desk, now) % 2 === 0
    if (!isTurn || (planned.type !== 'looked' && planned.type !== 'tried')) return planned
    const needless = easyLooks(desk, now).filter((it) => moveKey(it) !== moveKey(planned))
    return (await able(desk, now, shuffled(needless, desk, turn))) ?? planned
  },
  'sure and wrong': async (desk, now) => {
    const first = await dangersFirst(desk, now)
    if (first) return first
    if (now.situation.fixesTried.length >= patience) return sendIn
    const isFirst = now.situation.fixesTried.length === 0
    return (await able(desk, now, await bySuspicion(desk, now, isFirst))) ?? sendIn
  },
  'straight to the fix': async (desk, now) => {
    const first = await dangersFirst(desk, now)
    if (first) return first
    if (now.situation.fixesTried.length >= patience) return sendIn
    return (await able(desk, now, await bySuspicion(desk, now))) ?? sendIn
  },
  guess: async (desk, now) => {
    const first = await dangersFirst(desk, now)
    if (first) return first
    if (now.situation.fixesTried.length >= patience) return sendIn
    return (await able(desk, now, shuffled(fixesLeft(desk, now), desk, 9))) ?? sendIn
  },
  'do everything': async (desk, now, turn) =>
    (await dangersFirst(desk, now)) ??
    (turn < many ? await able(desk, now, looksLeft(desk, now)) : undefined) ??
    (await able(desk, now, await bySuspicion(desk, now))) ??
    sendIn,
  'send in at once': async (desk, now) =>
    (await dangersFirst(desk, now)) ?? (now.disinfected ? sendIn : { type: 'disinfected' }),
  'hand back at once': async (desk, now) =>
    (await dangersFirst(desk, now)) ?? (now.disinfected ? handBack : { type: 'disinfected' }),
  'hand back unclean': () => Promise.resolve(handBack),
  'safety mistake': async (desk, now) => {
    const { setups } = desk.kind.model
    for (const move of [
      ...setups.map(({ id }): PracticeMove => ({ type: 'stood', setup: id })),
      ...fixesLeft(desk, now),
    ])
      if ((await slipsOf(desk, now, move)).some(({ grade }) => grade === 'ends')) return move
    throw new Error('nothing hurts here')
  },
}

/** Ways to give points, from what the answers allow and the suspects, likeliest first. */
export const pointers: Readonly<Record<string, (allowed: Spread, suspects: readonly string[]) => Spread>> = {
  'as the answers allow': (allowed) => allowed,
  'spread evenly': (_, suspects) => ({
    points: Object.fromEntries(suspects.slice(0, 10).map((id) => [id, 10])),
    other: 0,
  }),
  'sure of the wrong one': (_, [, second]) => ({ points: { [second!]: 90 }, other: 10 }),
  'names nobody': () => ({ points: {}, other: 100 }),
}
