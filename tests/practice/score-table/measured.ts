/** What the players of the score table come to, on average over some tools of a level. */
import type { Prepared } from '../../../server/diagnosis/prepare.js'
import { brierScore, forecastsOf } from '../../../server/practice/confidence.js'
import { plansSpread } from '../../../server/practice/model-player.js'
import { planAt } from '../../../server/practice/plan-at.js'
import type { Played } from '../../../server/practice/played.js'
import { ratingOf } from '../../../server/practice/recall.js'
import { resultFrom } from '../../../server/practice/result.js'
import { scoreOf } from '../../../server/practice/score.js'
import type { Spread } from '../../../shared/practice.js'
import { exerciseOf, playedBy } from '../bench.js'
import { players, pointers } from './players.js'
import { tapsOf } from './taps.js'

export interface Sample {
  readonly kind: string
  readonly level: string
  readonly tools: number
}

/** Played with every tool; the others differ little from tool to tool, and some take long to reckon. */
const apprentices = ['good', 'beginner', 'sure and wrong', 'straight to the fix']

export interface Measured {
  /** by player: the score of each tool */
  readonly scores: Readonly<Record<string, readonly number[]>>
  /** by pointer: of each tool, how far off in hundredths is to be expected, and is it found if the likeliest is there? */
  /** of each tool, what a good way takes */
  readonly taps: readonly number[]
  readonly points: Readonly<Record<string, readonly { readonly off: number; readonly rating: number }[]>>
}

/** A tool with a danger sign goes by other rules than money: it is left out. */
export async function measured(prepared: Prepared, { kind, level, tools }: Sample): Promise<Measured> {
  const scores: Record<string, number[]> = {}
  const taps: number[] = []
  const points: Record<string, { off: number; rating: number }[]> = {}
  for (let seed = 1, done = 0; done < tools; seed++) {
    const exercise = exerciseOf({ kind, level, seed })
    const plan = await playedBy(prepared, exercise, players['good']!)
    const danger = plan.desk.kind.model.steps.find(({ form }) => form === 'danger')!
    if (danger.questions.some(({ id }) => plan.now.situation.answers[id] === 'yes')) continue
    done++
    for (const [name, player] of Object.entries(players)) {
      if (done > 1 && !apprentices.includes(name)) continue
      const played = name === 'good' ? plan : await playedBy(prepared, exercise, player)
      ;(scores[name] ??= []).push((await scoreOf(played)).score!)
    }
    taps.push(await tapsOf(prepared.knowledge, plan))
    const allowed = await pointed(plan)
    for (const [name, spreadOf] of Object.entries(pointers))
      (points[name] ??= []).push(judged(plan, allowed, spreadOf(allowed.spread, allowed.suspects)))
  }
  return { scores, taps, points }
}

interface Allowed {
  readonly spread: Spread
  /** likeliest first */
  readonly suspects: readonly string[]
  /** by suspect: chance that it is the one that is there */
  readonly chances: ReadonlyMap<string, number>
}

/** What the answers allowed just before the first fix. */
async function pointed({ desk, done }: Played): Promise<Allowed> {
  const { before } = done.find(({ move }) => move.type === 'tried' || move.type === 'ended')!
  const { weights } = await planAt(desk, before.situation)
  const total = weights.there.reduce((sum, w) => sum + w, 0)
  const chances = new Map(desk.kind.model.causes.map(({ id }, c) => [id, weights.there[c]! / total]))
  const suspects = [...chances].sort(([, a], [, b]) => b - a).map(([id]) => id)
  return { spread: await plansSpread(desk, before), suspects, chances }
}

/** Over all that may be there, so that luck has no part in it. */
function judged({ exercise }: Played, { suspects, chances }: Allowed, spread: Spread) {
  const off = suspects.reduce(
    (sum, id) => sum + chances.get(id)! * 100 * brierScore(forecastsOf(spread, suspects, [id])),
    0,
  )
  const causes = suspects.slice(0, 1)
  const result = resultFrom(exercise, {
    over: 'hand-back',
    mended: true,
    causes,
    suspects: [...suspects],
    slips: [],
    spread,
  })
  return { off, rating: ratingOf(result, causes[0]!) }
}

export const mean = (list: readonly number[]): number => list.reduce((sum, it) => sum + it, 0) / list.length
