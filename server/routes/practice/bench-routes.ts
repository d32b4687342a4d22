import type { Request, Response } from 'express'
import { Router } from 'express'
import type { PracticeMove } from '../../../shared/practice.js'
import type { Deps } from '../../wiring/deps.js'
import { BadRequest } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { canSpread, exerciseHref, practiceBenchPage } from '../../pages/practice/bench-page.js'
import { moveFrom } from '../../pages/practice/move-key.js'
import { groupFrom, practiceMovesPage } from '../../pages/practice/moves-page.js'
import { spreadFrom } from '../../forms/points-form.js'
import { practicePointsPage } from '../../pages/practice/points-page.js'
import { renderPage } from '../../pages/render.js'
import { sentBy } from '../case/case-form.js'
import type { Bench } from './moving.js'
import {
  debriefHref,
  keepIfOver,
  madeAll,
  mayMove,
  onPracticeBench,
  pointsFirst,
  refusedPage,
  seenIn,
} from './moving.js'

/** The bench of an exercise: its page, the lists of moves, the points, and what their forms send. */
export function practiceBenchRoutes(deps: Deps): Router {
  const router = Router()
  /** A page of an exercise that goes on; one that is over leads to its debrief. */
  const goingOn =
    (show: (bench: Bench, req: Request, res: Response) => Promise<void>) =>
    async (req: Request, res: Response): Promise<void> => {
      const bench = await onPracticeBench(deps, req)
      if (mayMove(bench)) return show(bench, req, res)
      await keepIfOver(bench)
      res.redirect(303, debriefHref(bench.exercise.id))
    }

  router.get(
    '/practice/exercises/:id',
    goingOn(async ({ at }, _req, res) => renderPage(res, 'practice/bench', await practiceBenchPage(at))),
  )
  router.get(
    '/practice/exercises/:id/moves',
    goingOn(async ({ at, exercise }, req, res) => {
      const asked = { group: groupFrom(textOf(req.query, 'in')), q: textOf(req.query, 'q') }
      if (asked.group === undefined && asked.q.trim() === '')
        return res.redirect(303, exerciseHref(exercise.id))
      renderPage(res, 'practice/moves', await practiceMovesPage(at, asked))
    }),
  )
  router.get(
    '/practice/exercises/:id/points',
    goingOn(async ({ at, exercise }, req, res) => {
      if (!canSpread(at.played)) return res.redirect(303, `${exerciseHref(exercise.id)}#last`)
      const asked = Object.keys(req.query).length > 0 ? req.query : null
      renderPage(res, 'practice/points', practicePointsPage(at, asked))
    }),
  )

  router.post('/practice/exercises/:id/moves', async (req, res) => {
    const bench = await onPracticeBench(deps, req)
    const sent = sentBy(req)
    const move = moveFrom(textOf(sent, 'move'))
    if (!move) throw noMove()
    const seen = seenIn(sent)
    if (await pointsFirst(bench, move, seen)) {
      const query = new URLSearchParams({ move: textOf(sent, 'move') })
      return res.redirect(303, `${exerciseHref(bench.exercise.id)}/points?${query.toString()}`)
    }
    const made = await madeAll(bench, [move], seen)
    if (made.to !== null) return res.redirect(303, made.to)
    if (made.status === 422) {
      const asked = { group: groupFrom(textOf(sent, 'in')), q: textOf(sent, 'q') }
      if (asked.group !== undefined || asked.q !== '')
        return renderPage(
          res.status(422),
          'practice/moves',
          await practiceMovesPage(made.at, asked, made.notMade),
        )
    }
    await refusedPage(res, bench.who, made)
  })

  router.post('/practice/exercises/:id/points', async (req, res) => {
    const bench = await onPracticeBench(deps, req)
    const sent = sentBy(req)
    const seen = seenIn(sent)
    const text = textOf(sent, 'move')
    const waiting = text === '' ? undefined : moveFrom(text)
    if (text !== '' && !waiting) throw noMove()
    const suspects = bench.at.played.desk.kind.model.causes.map(({ id }) => id)
    const read = spreadFrom(sent, suspects)
    if (!read.ok)
      return renderPage(res.status(422), 'practice/points', practicePointsPage(bench.at, sent, read.problems))
    const moves: PracticeMove[] = [{ type: 'spread', spread: read.spread }, ...(waiting ? [waiting] : [])]
    const made = await madeAll(bench, moves, seen)
    if (made.to !== null) return res.redirect(303, made.to)
    await refusedPage(res, bench.who, made)
  })
  return router
}

const noMove = (): BadRequest =>
  new BadRequest('This form names no move; open the exercise again and choose one there.', {
    field: 'move',
    status: 422,
  })
