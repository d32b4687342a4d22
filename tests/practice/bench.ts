/** Exercises over the project's own rulebook, and players to play them. */
import { type Prepared } from '../../server/diagnosis/prepare.js'
import type { Desk, BenchState } from '../../server/practice/desk.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import { plansMove } from '../../server/practice/model-player.js'
import type { Done } from '../../server/practice/moves.js'
import { makeMove } from '../../server/practice/moves.js'
import type { Played } from '../../server/practice/played.js'
import { slipsOf } from '../../server/practice/slips.js'
import { chance } from '../../server/simulation/chance.js'
import type { Exercise, PracticeMove } from '../../shared/practice.js'
import { Exercise as ExerciseShape } from '../../shared/practice.js'

export const exerciseOf = (more: Partial<Exercise> & Pick<Exercise, 'kind' | 'level'>): Exercise =>
  ExerciseShape.parse({
    id: 'exercise-1',
    learner: 'learner-1',
    seed: 1,
    setting: {},
    begunAt: '2026-01-05T09:00:00Z',
    changedAt: '2026-01-05T09:20:00Z',
    moves: [],
    ...more,
  })

export type Player = (desk: Desk, standing: BenchState, turn: number) => Promise<PracticeMove>

/** An exercise played to its end; what is refused is not counted as a move. */
export async function playedBy(prepared: Prepared, exercise: Exercise, player: Player): Promise<Played> {
  const desk = await layOut(prepared, exercise)
  const start = startOf(desk)
  const done: Done[] = []
  let now = start
  for (let turn = 0; now.over === undefined && turn < 100; turn++) {
    const made = await makeMove(desk, now, await player(desk, now, turn))
    if (made.refused !== undefined) continue
    done.push(made)
    now = made.after
  }
  return { exercise: { ...exercise, moves: done.map(({ move }) => move) }, desk, start, done, now }
}

export const byPlan: Player = plansMove

/** Careful hands without a head: looks and repairs picked blindly, every set-up stood first, nothing that hurts. */
export const careful =
  (number: number, most: number): Player =>
  async (desk, standing, turn) => {
    const { model } = desk.kind
    const pick = <T>(list: readonly T[], purpose: number): T =>
      list[Math.floor(chance(number, turn, purpose) * list.length)]!
    if (standing.causes.length === 0) return plansMove(desk, standing)
    const planned = await plansMove(desk, standing)
    if (planned.type === 'ended' && planned.way === 'set-aside') return planned
    if (turn >= most) return { type: 'ended', way: 'send-in' }
    const danger = model.steps.find(({ form }) => form === 'danger')!
    if (turn === 0) return { type: 'stood', setup: danger.setups[0]! }
    if (turn === 1) return { type: 'looked', step: danger.id }
    const action = chance(number, turn, 1) < 0.8 ? pick(model.steps, 2) : pick(model.fixes, 3)
    const missing = action.setups.find((id) => !standing.situation.standing.includes(id))
    const needs = model.setups.find(({ id }) => id === missing)?.needs ?? []
    const first = needs.find((id) => !standing.situation.standing.includes(id)) ?? missing
    const move: PracticeMove =
      first !== undefined
        ? { type: 'stood', setup: first }
        : 'cures' in action
          ? { type: 'tried', fix: action.id }
          : { type: 'looked', step: action.id }
    const hurts = (await slipsOf(desk, standing, move)).some(({ grade }) => grade === 'ends')
    return hurts ? { type: 'disinfected' } : move
  }
