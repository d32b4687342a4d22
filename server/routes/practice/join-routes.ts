import { Router } from 'express'
import { BadRequest } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { tidyName } from '../../pages/practice/door-page.js'
import { joinPage } from '../../pages/practice/join-page.js'
import { renderPage } from '../../pages/render.js'
import { joinClass } from '../../practice-bench/lesson.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

/** A phone joins a class by the word and the number on the wall. */
export function practiceJoinRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/join', (req, res) => renderPage(res, 'practice/join', joinPage(req.query)))
  router.post('/join', async (req, res) => {
    const sent = sentFrom(req.body)
    const asked = {
      word: textOf(sent, 'word'),
      pin: textOf(sent, 'pin'),
      name: tidyName(textOf(sent, 'name')),
    }
    try {
      const learner = await joinClass(atHand(deps, req), asked)
      res.redirect(303, `/practice/people/${learner.id}`)
    } catch (error) {
      if (!(error instanceof BadRequest) || error.status !== 422) throw error
      const problems = [{ field: error.field ?? 'word', message: error.message }]
      renderPage(res.status(422), 'practice/join', joinPage(sent, problems))
    }
  })
  return router
}
