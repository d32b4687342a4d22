/** Tools from a spreadsheet: looked at first, then put on the list, or not. */
import { Router } from 'express'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { csvType } from '../../pages/layout/csv.js'
import { toolListCsv } from '../../pages/tools/tool-list-csv.js'
import { importPage, listedTools } from '../../pages/tools/import-page.js'
import { renderPage } from '../../pages/render.js'
import { oneFile } from './one-file.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

/** A list of 500 tools is half as long. */
const mostBytes = 200_000

/** The one form that brings a file along; it stands before the parser of the others. */
export function importFileRoutes(deps: Deps): Router {
  const router = Router()
  router.post('/tools/import', oneFile('file', mostBytes), async (req, res) => {
    const { knowledge, tools, shop } = atHand(deps, req)
    const pasted = textOf(sentFrom(req.body), 'text')
    const text = req.file && req.file.size > 0 ? req.file.buffer.toString('utf8') : pasted
    const listed = listedTools(text, knowledge, await tools.list(), shop.record.currency)
    const wrong = 'wrong' in listed || listed.bad.length > 0
    renderPage(res.status(wrong ? 422 : 200), 'tools/import', importPage(knowledge, text, listed))
  })
  return router
}

export function importRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/tools/import', (req, res) => {
    renderPage(res, 'tools/import', importPage(atHand(deps, req).knowledge))
  })
  router.get('/tools/list.csv', async (req, res) => {
    const { knowledge, tools, shop } = atHand(deps, req)
    res.attachment('tools.csv').type(csvType)
    res.send(toolListCsv(knowledge, await tools.list(), shop.record.currency))
  })
  router.post('/tools/import/keep', async (req, res) => {
    const { knowledge, tools, shop, now } = atHand(deps, req)
    const text = textOf(sentFrom(req.body), 'text')
    // read anew: the list may have changed since the page was made
    const listed = listedTools(text, knowledge, await tools.list(), shop.record.currency)
    if ('wrong' in listed || listed.tools.length === 0)
      return renderPage(res.status(422), 'tools/import', importPage(knowledge, text, listed))
    const { length } = await tools.add(listed.tools, now().toISOString())
    res.redirect(303, `/tools?added=${length}`)
  })
  return router
}
