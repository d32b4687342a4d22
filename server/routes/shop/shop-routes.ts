import { Router } from 'express'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { mostWritten } from '../../pages/layout/written-words.js'
import { renderPage } from '../../pages/render.js'
import { StaleShop } from '../../errors.js'
import type { Problem } from '../../forms/answer-form.js'
import { changedMeanwhile, shopFrom, shopPage } from '../../pages/shop/shop-page.js'
import { seenIn, sentFrom } from '../../forms/sent.js'

/** The shop's own figures, read and changed. */
export function shopRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/shop', async (req, res) => {
    const { limits } = atHand(deps, req).knowledge
    const kept = req.query['kept'] === 'yes'
    const written = await deps.written.about('figures', '', mostWritten)
    renderPage(res, 'shop/shop', shopPage(deps.shop, limits, null, [], { kept, written }))
  })
  router.post('/shop', async (req, res) => {
    const sent = sentFrom(req.body)
    const { limits } = atHand(deps, req).knowledge
    const again = (status: 409 | 422, problems: readonly Problem[]): void =>
      renderPage(res.status(status), 'shop/shop', shopPage(deps.shop, limits, sent, problems))
    const seen = seenIn(sent)
    if (seen !== deps.shop.version) return again(409, changedMeanwhile(sent, deps.shop.record, limits))
    const read = shopFrom(sent, deps.shop.record, limits)
    if (!read.ok) return again(422, read.problems)
    try {
      await deps.shop.keep(read.record, seen)
    } catch (error) {
      if (!(error instanceof StaleShop)) throw error
      return again(409, changedMeanwhile(sent, deps.shop.record, limits))
    }
    res.redirect(303, '/shop?kept=yes')
  })
  return router
}
