import { Router } from 'express'
import type { Deps } from '../deps.js'
import { renderPage } from '../pages/render.js'
import { shopFrom, shopPage } from '../pages/shop-page.js'
import { sentBy } from './case-form.js'

/** The shop's own figures, read and changed. */
export function shopRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/shop', (req, res) => {
    renderPage(res, 'shop', shopPage(deps.shop.record, null, [], req.query['kept'] === 'yes'))
  })
  router.post('/shop', async (req, res) => {
    const sent = sentBy(req)
    const read = shopFrom(sent, deps.shop.record)
    if (!read.ok) return renderPage(res.status(422), 'shop', shopPage(deps.shop.record, sent, read.problems))
    await deps.shop.keep(read.record)
    res.redirect(303, '/shop?kept=yes')
  })
  return router
}
