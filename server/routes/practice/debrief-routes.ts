import type { Request, Response } from 'express'
import { Router } from 'express'
import type { ExerciseOutcome } from '../../../shared/practice.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { NotFound } from '../../errors.js'
import { playedOf } from '../../remembered/played.js'
import { debriefPage, debriefWaitPage } from '../../pages/practice/debrief-page.js'
import { renderPage } from '../../pages/render.js'
import type { Debrief } from '../../practice/debrief.js'
import { lookBack } from '../../practice/look-back.js'
import type { Played } from '../../practice/played.js'
import { asLearner } from '../../register/who-may.js'
import { keepDebrief } from '../../practice-bench/keep-outcome.js'
import { standingOfSet } from '../../practice-bench/set-of.js'
import { heldPage } from '../../pages/practice/held-page.js'
import { isRefused } from './refusal.js'

/** Milliseconds that somebody waits for a debrief before a small page takes over, and seconds until that asks again. */
const patience = 900
const askAgainAfter = 2

/** What an exercise was about, once it is over. */
export function practiceDebriefRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/practice/exercises/:id/debrief', async (req: Request, res: Response) => {
    const hand = atHand(deps, req)
    const exercise = await hand.register.exercise(String(req.params['id']))
    const [learner, kept] = await Promise.all([
      hand.register.learner(exercise.learner),
      hand.register.outcome(exercise.id),
    ])
    const played = await playedToday(hand, exercise)
    const over = kept !== null || played.now.over !== undefined
    const set = await standingOfSet(hand.register, exercise)
    if (set && (set.hushed ? over : set.closed && !over)) {
      if (set.hushed) res.set('Refresh', '5').set('Cache-Control', 'no-store')
      return renderPage(res, 'practice/held', heldPage(hand.knowledge, played, learner, set))
    }
    if (!set && played.now.over === 'slip' && req.query['told'] !== 'yes')
      return renderPage(res, 'practice/held', heldPage(hand.knowledge, played, learner, null))
    if (!over) return res.redirect(303, `/practice/exercises/${exercise.id}`)
    const wish = { to: 'see the debrief', of: { learner: learner.id, class: learner.class, over } } as const
    if (isRefused(res, asLearner(learner), wish, 'A debrief is for the person who made the moves.')) return
    if (played.now.over === undefined) throw gone()
    const debrief = await within(patience, keepDebrief(hand, played))
    if (!debrief) {
      res.set('Refresh', String(askAgainAfter)).set('Cache-Control', 'no-store')
      return renderPage(res, 'practice/debrief-wait', debriefWaitPage(exercise.id))
    }
    const back = await lookBack(played, debrief)
    renderPage(res, 'practice/debrief', debriefPage(played, debrief, back, learner, isOther(kept, debrief)))
  })
  return router
}

/** @throws NotFound where the rulebook of today has no such kind or level any more */
async function playedToday(
  { prepared, register }: AtHand,
  exercise: Parameters<typeof playedOf>[1],
): Promise<Played> {
  try {
    return await playedOf(prepared, exercise, register)
  } catch (error) {
    if (error instanceof RangeError) throw gone()
    throw error
  }
}

const gone = () =>
  new NotFound(
    'this exercise as it was, for the rulebook has changed since; what it came to is kept on your record',
  )

/** Was another tool drawn when the exercise ended? */
const isOther = (kept: ExerciseOutcome | null, { causes }: Debrief): boolean =>
  kept !== null && [...kept.causes].sort().join() !== [...causes].sort().join()

/** What comes of the work if it is done in time; undefined otherwise, and the work goes on. */
async function within<Result>(milliseconds: number, work: Promise<Result>): Promise<Result | undefined> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<undefined>((resolve) => {
    timer = setTimeout(() => resolve(undefined), milliseconds)
  })
  try {
    return await Promise.race([work, late])
  } finally {
    clearTimeout(timer)
  }
}
