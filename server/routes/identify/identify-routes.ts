import { Router } from 'express'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { NotFound } from '../../errors.js'
import { identifyPath, signsSaid } from '../../forms/identify-form.js'
import { identifyPage } from '../../pages/identify/identify-page.js'
import { renderPage } from '../../pages/render.js'

/** Which kind of tool is it? All answers ride in the address, so back and a bookmark lead where they should. */
export function identifyRoutes(deps: Deps): Router {
  const router = Router()
  router.get(identifyPath, (req, res) => {
    const { knowledge } = atHand(deps, req)
    if (knowledge.signs.length === 0) throw new NotFound('signs by which to find the kind')
    const { said, problems } = signsSaid(knowledge, req.query)
    renderPage(
      res.status(problems.length > 0 ? 422 : 200),
      'identify/identify',
      identifyPage(knowledge, said, problems),
    )
  })
  return router
}
