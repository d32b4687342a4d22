/** What the debrief says beyond figures: the one thing to take along, and why the plan went another way. */
import type { FindingState } from '../../shared/diagnosis.js'
import type { Chain } from '../../shared/knowledge.js'
import { chainOf } from './chain.js'
import type { Compared } from './compared.js'
import { comparedWithPlan } from './compared.js'
import type { Debrief } from './debrief.js'
import { barredAt, findingsAt } from './desk.js'
import type { Misled } from './misled.js'
import { misledBy } from './misled.js'
import type { Played } from './played.js'
import type { TakeAlong } from './take-along.js'
import { noLoss, takeAlong } from './take-along.js'
import type { Apart } from './telling-apart.js'
import { tellingApart } from './telling-apart.js'
import type { WrongAnswer } from './wrong-answers.js'
import { wrongIn } from './wrong-answers.js'

export interface LookedBack {
  readonly lesson: TakeAlong
  /** what tells apart the two causes that were mixed up, and how it stood when the points were spread */
  readonly apart: (Apart & { readonly stood: FindingState }) | undefined
  /** by move: undefined where it was as good as the plan's */
  readonly compared: readonly (Compared | undefined)[]
  /** answers that spoke against what was there, and wrong ones, in order */
  readonly misled: readonly Misled[]
  /** by move: the answers that were wrong */
  readonly wrong: readonly (readonly WrongAnswer[])[]
  /** where one fault led to the other */
  readonly chain: Chain | undefined
}

export async function lookBack(played: Played, debrief: Debrief): Promise<LookedBack> {
  const { desk, done } = played
  const lesson = takeAlong(debrief)
  const wrong = done.map((it) => wrongIn(desk, it))
  return {
    lesson,
    apart: await apartFor(played, lesson),
    compared: await Promise.all(
      debrief.steps.map(async (step) =>
        step.worth && step.lostMinutes >= noLoss ? comparedWithPlan(desk, step) : undefined,
      ),
    ),
    misled: debrief.steps.flatMap((step, k) => misledBy(desk, step.done, step.tells, wrong[k] ?? [])),
    wrong,
    chain: chainOf(desk.book.knowledge, desk.kind.model.kind.id, debrief.causes),
  }
}

async function apartFor({ desk, done }: Played, lesson: TakeAlong): Promise<LookedBack['apart']> {
  if (lesson.what !== 'mixed-up') return undefined
  const pointed = done.findLast(({ move, refused }) => move.type === 'spread' && refused === undefined)
  if (!pointed) return undefined
  const { situation } = pointed.before
  const barred = new Set((await barredAt(desk, situation)).keys())
  const apart = tellingApart(desk.kind.model, lesson.there.cause, lesson.taken.cause, barred)
  if (!apart) return undefined
  const { states } = await findingsAt(desk, situation)
  return { ...apart, stood: states.get(apart.finding.id) ?? 'unknown' }
}
