/** A learner with a phone: makes a player's moves at a set exercise through the server's forms, one by one. */
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { keyOf } from '../../server/pages/practice/move-key.js'
import { otherField, pointsField } from '../../server/forms/points-form.js'
import type { Desk, BenchState } from '../../server/practice/desk.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import { plansSpread } from '../../server/practice/model-player.js'
import { makeMove } from '../../server/practice/moves.js'
import type { PracticeMove, SetExercise } from '../../shared/practice.js'
import { exerciseOf } from '../practice/bench.js'
import type { Player } from '../practice/bench.js'

export interface AtPhone {
  readonly learner: string
  readonly player: Player
}

/** What a learner sent, and how the bench stands for them if the server has understood it. */
export interface Hand {
  readonly address: string
  readonly sent: readonly PracticeMove[]
  readonly over: BenchState['over']
  readonly desk: Desk
}

export interface Wire {
  post(path: string, fields: Readonly<Record<string, string>>): Promise<{ status: number; to: string }>
}

/** @yields after each move, so that many can be dealt out in turns */
export async function* working(
  prepared: Prepared,
  { post }: Wire,
  set: SetExercise,
  { learner, player }: AtPhone,
): AsyncGenerator<Hand, Hand> {
  const { kind, level, seed, setting } = set
  const begun = await post('/practice/exercises', { learner, set: set.id })
  if (begun.status !== 303) throw new Error(`begin: ${begun.status}`)
  const address = begun.to
  const desk = await layOut(prepared, exerciseOf({ kind, level, seed, setting }))
  let now = startOf(desk)
  const sent: PracticeMove[] = []
  const hand = (): Hand => ({ address, sent, over: now.over, desk })
  const make = async (move: PracticeMove): Promise<boolean> => {
    const done = await makeMove(desk, now, move)
    if (done.refused !== undefined) return false
    const seen = String(sent.length)
    const path = move.type === 'spread' ? 'points' : 'moves'
    const fields = move.type === 'spread' ? pointFields(move.spread) : { move: keyOf(move) }
    const { status, to } = await post(`${address}/${path}`, { seen, ...fields })
    if (status !== 303 || to.includes('/points')) throw new Error(`${JSON.stringify(move)}: ${status} ${to}`)
    sent.push(move)
    now = done.after
    return true
  }
  yield hand()
  for (let turn = 0; now.over === undefined && turn < 100; turn++) {
    const move = await player(desk, now, turn)
    const needsPoints = move.type === 'tried' || (move.type === 'ended' && move.way === 'send-in')
    if (needsPoints && now.spread === undefined && now.situation.fixesTried.length === 0)
      if (await make({ type: 'spread', spread: await plansSpread(desk, now) })) yield hand()
    if (await make(move)) yield hand()
  }
  return hand()
}

const pointFields = ({ points, other }: Awaited<ReturnType<typeof plansSpread>>): Record<string, string> => ({
  ...Object.fromEntries(Object.entries(points).map(([id, given]) => [pointsField(id), String(given)])),
  [otherField]: String(other),
})

/** Talks to a server by its address. */
export const wireTo = (base: string): Wire => ({
  async post(path, fields) {
    const body = new URLSearchParams(fields)
    const response = await fetch(`${base}${path}`, { method: 'POST', body, redirect: 'manual' })
    await response.arrayBuffer()
    return { status: response.status, to: response.headers.get('location')?.split('#')[0] ?? '' }
  },
})
