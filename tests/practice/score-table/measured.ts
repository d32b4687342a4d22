/** What the players of the score table come to, on average over some tools of a level. */
import type { Prepared } from '../../../server/diagnosis/prepare.js'
import { scoreOf } from '../../../server/practice/score.js'
import { exerciseOf, playedBy } from '../bench.js'
import { players } from './players.js'

export interface Sample {
  readonly kind: string
  readonly level: string
  readonly tools: number
}

/** By player: the score of each tool. A tool with a danger sign goes by other rules than money: it is left out. */
export async function scoresOf(
  prepared: Prepared,
  { kind, level, tools }: Sample,
): Promise<Readonly<Record<string, readonly number[]>>> {
  const scores: Record<string, number[]> = Object.fromEntries(Object.keys(players).map((name) => [name, []]))
  for (let seed = 1; scores['good']!.length < tools; seed++) {
    const exercise = exerciseOf({ kind, level, seed })
    const plan = await playedBy(prepared, exercise, players['good']!)
    const danger = plan.desk.kind.model.steps.find(({ form }) => form === 'danger')!
    if (danger.questions.some(({ id }) => plan.now.situation.answers[id] === 'yes')) continue
    for (const [name, player] of Object.entries(players)) {
      const played = name === 'good' ? plan : await playedBy(prepared, exercise, player)
      scores[name]!.push((await scoreOf(played)).score!)
    }
  }
  return scores
}

export const mean = (list: readonly number[]): number => list.reduce((sum, it) => sum + it, 0) / list.length
