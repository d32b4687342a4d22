import { Router } from 'express'
import { Stands } from '../../../shared/lesson-files.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

import { hearsayPage } from '../../pages/practice/hearsay-page.js'
import { learnerAsked } from '../../pages/practice/lesson-ending.js'
import { renderPage } from '../../pages/render.js'
import { noSuchLesson } from './lesson-routes.js'

/** Advice that goes round: right, wrong, or does it depend? */
export function practiceHearsayRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/practice/lessons/hearsay/:id', (req, res) => {
    const { knowledge } = atHand(deps, req)
    const { kind, say } = req.query
    const hearsay = knowledge.hearsay.find(({ id }) => id === req.params.id)
    if (!hearsay) throw noSuchLesson()
    // what no button of ours sends counts as nothing said yet
    const said = Stands.safeParse(say)
    renderPage(
      res,
      'practice/hearsay',
      hearsayPage(knowledge, hearsay, {
        kind: typeof kind === 'string' ? kind : '',
        say: said.success ? said.data : undefined,
        learner: learnerAsked(req.query),
      }),
    )
  })
  return router
}
