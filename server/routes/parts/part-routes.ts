/** The shelf: what is there, what to keep, what to buy. */
import { Router } from 'express'
import type { Request } from 'express'
import { newCaseId } from '../../cases/case-id.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { csvType } from '../../pages/layout/csv.js'
import { partFrom, partPage } from '../../pages/parts/part-page.js'
import { shelfPage, shoppingCsv, shoppingPage } from '../../pages/parts/shelf-page.js'
import { mostWritten } from '../../pages/layout/written-words.js'
import { renderPage } from '../../pages/render.js'
import type { Kept } from '../../parts/demand.js'
import { keptOf } from '../../parts/demand.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

/** Uses of the last so many years count, so that what is long over is forgotten. */
const yearsCounted = 3
const yearMs = 365.25 * 86_400_000

export function partRoutes(deps: Deps): Router {
  const router = Router()
  const keptAll = async (req: Request): Promise<Kept[]> => {
    const { knowledge, habits, tools, parts, now } = atHand(deps, req)
    const since = new Date(now().getTime() - yearsCounted * yearMs)
    const [all, shelf, used] = await Promise.all([
      tools.list(),
      parts.list(),
      parts.used(since.toISOString()),
    ])
    // the record is as old as the tools on it
    const oldest = all.map(({ addedAt }) => Date.parse(addedAt)).sort((a, b) => a - b)[0] ?? now().getTime()
    const years = Math.min(yearsCounted, Math.max(1 / 365, (now().getTime() - oldest) / yearMs))
    return shelf.map((part) => keptOf(knowledge, habits.record, all, part, used.get(part.id) ?? 0, years))
  }
  const keptOne = async (req: Request): Promise<Kept> => {
    const { id } = await atHand(deps, req).parts.get(String(req.params['id']))
    return (await keptAll(req)).find(({ part }) => part.id === id)!
  }

  router.get('/parts', async (req, res) => {
    renderPage(res, 'parts/shelf', shelfPage(await keptAll(req)))
  })
  router.get('/parts/new', (req, res) => {
    const { knowledge, shop } = atHand(deps, req)
    renderPage(res, 'parts/part', partPage(knowledge, null, shop.record.currency))
  })
  router.post('/parts', async (req, res) => {
    const { knowledge, shop, parts, now } = atHand(deps, req)
    const sent = sentFrom(req.body)
    const read = partFrom(sent, knowledge, shop.record.currency)
    if (!read.ok) {
      const page = partPage(knowledge, null, shop.record.currency, sent, read.problems)
      return renderPage(res.status(422), 'parts/part', page)
    }
    const { id } = await parts.add(read.part)
    const why = { for: 'counted' } as const
    const move = { key: id, partId: id, change: read.part.stock ?? 0, why }
    await parts.move(newCaseId(), [move], now().toISOString())
    res.redirect(303, '/parts')
  })
  router.get('/parts/shopping', async (req, res) => {
    const { currency } = atHand(deps, req).shop.record
    renderPage(res, 'parts/shopping', shoppingPage(await keptAll(req), currency))
  })
  router.get('/parts/shopping.csv', async (req, res) => {
    const { currency } = atHand(deps, req).shop.record
    res.type(csvType).send(shoppingCsv(await keptAll(req), currency))
  })
  router.post('/parts/undo', async (req, res) => {
    const { parts, now } = atHand(deps, req)
    const sent = sentFrom(req.body)
    await parts.undo(textOf(sent, 'batch'), now().toISOString())
    const back = textOf(sent, 'back')
    res.redirect(303, /^\/cases\/[a-z0-9]+$/.test(back) ? back : '/parts')
  })
  router.get('/parts/:id', async (req, res) => {
    const { knowledge, shop } = atHand(deps, req)
    const kept = await keptOne(req)
    const written = await deps.written.about('part', kept.part.id, mostWritten)
    renderPage(res, 'parts/part', partPage(knowledge, kept, shop.record.currency, null, [], written))
  })
  router.post('/parts/:id', async (req, res) => {
    const { knowledge, shop, parts, now } = atHand(deps, req)
    const kept = await keptOne(req)
    const sent = sentFrom(req.body)
    const read = partFrom(sent, knowledge, shop.record.currency)
    if (!read.ok) {
      const page = partPage(knowledge, kept, shop.record.currency, sent, read.problems)
      return renderPage(res.status(422), 'parts/part', page)
    }
    const { id, stock } = kept.part
    await parts.change(id, read.part)
    if (read.part.stock !== null && read.part.stock !== stock) {
      const why = { for: read.part.stock > stock ? 'bought' : 'counted' } as const
      const move = { key: id, partId: id, change: read.part.stock - stock, why }
      await parts.move(newCaseId(), [move], now().toISOString())
    }
    res.redirect(303, '/parts')
  })
  router.post('/parts/:id/remove', async (req, res) => {
    const { parts } = atHand(deps, req)
    await parts.remove(String(req.params['id']))
    res.redirect(303, '/parts')
  })
  return router
}
