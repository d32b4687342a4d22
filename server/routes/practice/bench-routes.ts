import type { Request, Response } from 'express'
import { Router } from 'express'
import type { PracticeMove } from '../../../shared/practice.js'
import { BadRequest, NotFound } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { spreadFrom } from '../../forms/points-form.js'
import { seenIn, sentFrom } from '../../forms/sent.js'
import { problemPage } from '../../pages/layout/problem-page.js'
import { debriefHref, exerciseHref, practiceBenchPage } from '../../pages/practice/bench-page.js'
import { howPage } from '../../pages/practice/how-page.js'
import { moveFrom } from '../../pages/practice/move-key.js'
import { groupFrom, practiceMovesPage } from '../../pages/practice/moves-page.js'
import { olderMove, refusedMove } from '../../pages/practice/not-made.js'
import { practicePointsPage } from '../../pages/practice/points-page.js'
import { renderPage } from '../../pages/render.js'
import { keepIfOver } from '../../practice-bench/keep-outcome.js'
import type { Made } from '../../practice-bench/make-moves.js'
import { makeMoves, pointsFirst } from '../../practice-bench/make-moves.js'
import type { PracticeBench } from '../../practice-bench/practice-bench.js'
import { mayMove, practiceBench } from '../../practice-bench/practice-bench.js'
import { canSpread } from '../../practice/played.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

/** The bench of an exercise: its page, the lists of moves, the points, and what their forms send. */
export function practiceBenchRoutes(deps: Deps): Router {
  const router = Router()
  const benchOf = (req: Request): Promise<PracticeBench> =>
    practiceBench(atHand(deps, req), String(req.params['id']))
  /** A page of an exercise that goes on; one that is over leads to its debrief. */
  const goingOn =
    (show: (bench: PracticeBench, req: Request, res: Response) => Promise<void>) =>
    async (req: Request, res: Response): Promise<void> => {
      const bench = await benchOf(req)
      if (mayMove(bench)) return show(bench, req, res)
      await keepIfOver(bench)
      res.redirect(303, debriefHref(bench.exercise.id))
    }

  router.get(
    '/practice/exercises/:id',
    goingOn(async (bench, _req, res) => renderPage(res, 'practice/bench', await practiceBenchPage(bench))),
  )
  router.get(
    '/practice/exercises/:id/moves',
    goingOn(async (bench, req, res) => {
      const asked = { group: groupFrom(textOf(req.query, 'in')), q: textOf(req.query, 'q') }
      if (asked.group === undefined && asked.q.trim() === '')
        return res.redirect(303, exerciseHref(bench.exercise.id))
      renderPage(res, 'practice/moves', await practiceMovesPage(bench, asked))
    }),
  )
  router.get(
    '/practice/exercises/:id/how',
    goingOn((bench, req, res) => {
      const move = moveFrom(textOf(req.query, 'move'))
      const page = move && howPage(bench, move)
      if (!page) throw new NotFound('anything to tell about that move')
      renderPage(res, 'practice/how', page)
      return Promise.resolve()
    }),
  )
  router.get(
    '/practice/exercises/:id/points',
    goingOn(async (bench, req, res) => {
      if (!canSpread(bench.played)) return res.redirect(303, `${exerciseHref(bench.exercise.id)}#last`)
      const asked = Object.keys(req.query).length > 0 ? req.query : null
      renderPage(res, 'practice/points', practicePointsPage(bench, asked))
    }),
  )

  router.post('/practice/exercises/:id/moves', async (req, res) => {
    const bench = await benchOf(req)
    const sent = sentFrom(req.body)
    const move = moveFrom(textOf(sent, 'move'))
    if (!move) throw noMove()
    if (bench.set?.closed === true) return res.redirect(303, debriefHref(bench.exercise.id))
    const seen = seenMoves(sent)
    if (await pointsFirst(bench, move, seen)) {
      const query = new URLSearchParams({ move: textOf(sent, 'move') })
      return res.redirect(303, `${exerciseHref(bench.exercise.id)}/points?${query.toString()}`)
    }
    const made = await makeMoves(bench, [move], seen)
    const asked = { group: groupFrom(textOf(sent, 'in')), q: textOf(sent, 'q') }
    if (made.is !== 'refused' || (asked.group === undefined && asked.q === '')) return goOn(res, made)
    const page = await practiceMovesPage(made.bench, asked, refusedMove(made.because))
    renderPage(res.status(422), 'practice/moves', page)
  })

  router.post('/practice/exercises/:id/points', async (req, res) => {
    const bench = await benchOf(req)
    const sent = sentFrom(req.body)
    if (bench.set?.closed === true) return res.redirect(303, debriefHref(bench.exercise.id))
    const seen = seenMoves(sent)
    const text = textOf(sent, 'move')
    const waiting = text === '' ? undefined : moveFrom(text)
    if (text !== '' && !waiting) throw noMove()
    const suspects = bench.played.desk.kind.model.causes.map(({ id }) => id)
    const read = spreadFrom(sent, suspects)
    if (!read.ok)
      return renderPage(res.status(422), 'practice/points', practicePointsPage(bench, sent, read.problems))
    const spread: PracticeMove = { type: 'spread', spread: read.spread }
    await goOn(res, await makeMoves(bench, waiting ? [spread, waiting] : [spread], seen))
  })
  return router
}

/** To the page that follows; or the bench again with why the move was not made; where it is over, that. */
async function goOn(res: Response, made: Made): Promise<void> {
  const { bench } = made
  const { exercise, played } = bench
  if (made.is === 'made') {
    const over = played.now.over !== undefined
    return res.redirect(303, over ? debriefHref(exercise.id) : `${exerciseHref(exercise.id)}#last`)
  }
  if (!mayMove(bench))
    return renderPage(res.status(409), 'layout/problem', {
      ...problemPage(409, 'This exercise is over, so nothing more was done.'),
      heading: 'This exercise is over',
      advice: 'Go back to Practice: its debrief stands among your last ones.',
    })
  const [status, why] =
    made.is === 'refused'
      ? [422, refusedMove(made.because)]
      : [409, olderMove(played.desk, made.move, exercise.moves.length)]
  renderPage(res.status(status), 'practice/bench', await practiceBenchPage(bench, why))
}

const seenMoves = (sent: Parameters<typeof seenIn>[0]): number =>
  seenIn(sent, 'open the exercise again and go on from there')

const noMove = (): BadRequest =>
  new BadRequest('This form names no move; open the exercise again and choose one there.', {
    field: 'move',
    status: 422,
  })
