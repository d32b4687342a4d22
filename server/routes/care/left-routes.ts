/** Care that nobody does: seen, and left out for good or not. */
import { Router } from 'express'
import { leftUndone } from '../../care/left.js'
import { BadRequest } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { leftPage } from '../../pages/care/left-page.js'
import { renderPage } from '../../pages/render.js'
import { todaysRound } from '../../tools/todays-round.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

export function leftRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/care/left', async (req, res) => {
    const hand = atHand(deps, req)
    const [round, tools] = await Promise.all([todaysRound(hand), hand.tools.list()])
    const nobodys = tools.filter(({ place, details }) => place === 'in-use' && details.usedBy === undefined)
    renderPage(res, 'care/left', leftPage(leftUndone(round), nobodys))
  })
  router.post('/care/left', async (req, res) => {
    const { knowledge, habits } = atHand(deps, req)
    const task = textOf(sentFrom(req.body), 'task')
    if (!knowledge.care.some(({ id }) => id === task))
      throw new BadRequest('This form names care that the rulebook does not have. Open the page again.', {
        field: 'task',
        status: 422,
      })
    const { everyDays } = habits.record
    await habits.keep({ ...habits.record, everyDays: { ...everyDays, [task]: null } })
    res.redirect(303, '/care/left')
  })
  return router
}
