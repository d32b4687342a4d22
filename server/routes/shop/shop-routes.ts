import { Router } from 'express'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { renderPage } from '../../pages/render.js'
import { shopFrom, shopPage } from '../../pages/shop/shop-page.js'
import { sentFrom } from '../../forms/sent.js'

/** The shop's own figures, read and changed. */
export function shopRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/shop', (req, res) => {
    const { limits } = atHand(deps, req).knowledge
    renderPage(res, 'shop/shop', shopPage(deps.shop.record, limits, null, [], req.query['kept'] === 'yes'))
  })
  router.post('/shop', async (req, res) => {
    const sent = sentFrom(req.body)
    const { limits } = atHand(deps, req).knowledge
    const read = shopFrom(sent, deps.shop.record, limits)
    if (!read.ok)
      return renderPage(res.status(422), 'shop/shop', shopPage(deps.shop.record, limits, sent, read.problems))
    await deps.shop.keep(read.record)
    res.redirect(303, '/shop?kept=yes')
  })
  return router
}
