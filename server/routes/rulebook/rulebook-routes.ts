import type { Prepared } from '../../diagnosis/prepare.js'
import { rememberLately } from '../../remembered/lately.js'
import { onThisThread } from '../../remembered/side-thread.js'
import { onceFor } from '../../../shared/once-for.js'
import { Router } from 'express'
import type { Request } from 'express'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { NotFound } from '../../errors.js'
import { noticed } from '../../pages/rulebook/notice.js'
import { limitsPage } from '../../pages/rulebook/limits-page.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { renderPage } from '../../pages/render.js'
import type { EntryPage } from '../../pages/rulebook/rulebook-page.js'
import { causePage, fixEntryPage, stepEntryPage } from '../../pages/rulebook/entries.js'
import { signsPage } from '../../pages/rulebook/signs.js'
import {
  carePage,
  causesPage,
  fixesPage,
  rulebookPage,
  sourcesPage,
  stepsPage,
  stopsPage,
} from '../../pages/rulebook/lists.js'

/** The rulebook to browse. */
export function rulebookRoutes(deps: Deps): Router {
  const router = Router()

  const lists = { '': rulebookPage, '/causes': causesPage, '/steps': stepsPage, '/fixes': fixesPage }
  for (const [at, page] of Object.entries(lists))
    router.get(`/rulebook${at}`, (req, res) => {
      const hand = atHand(deps, req)
      renderPage(res, 'rulebook/list', noticed(hand, page(hand.knowledge, asked(req, 'kind'))))
    })

  const whole = { '/stops': stopsPage, '/care': carePage, '/signs': signsPage, '/sources': sourcesPage }
  for (const [at, page] of Object.entries(whole))
    router.get(`/rulebook${at}`, (req, res) => {
      const hand = atHand(deps, req)
      renderPage(res, 'rulebook/entry', noticed(hand, page(hand.knowledge, asked(req, 'open'))))
    })

  router.get('/rulebook/limits', (req, res) => {
    const hand = atHand(deps, req)
    const own = hand.shop.record.figures.limitSet ?? null
    renderPage(res, 'rulebook/entry', noticed(hand, limitsPage(hand.knowledge, own)))
  })

  const entry = (at: string, pageOf: (knowledge: Knowledge, id: string) => EntryPage) =>
    router.get(`/rulebook/${at}/:id`, (req, res) => {
      const hand = atHand(deps, req)
      renderPage(res, 'rulebook/entry', noticed(hand, pageOf(hand.knowledge, String(req.params['id']))))
    })
  entry('causes', (book, id) => causePage(book, found(lookupOf(book).causes, id, 'cause')))
  entry('steps', (book, id) => stepEntryPage(book, found(lookupOf(book).steps, id, 'step')))
  entry('fixes', (book, id) => fixEntryPage(book, found(lookupOf(book).fixes, id, 'fix')))

  router.get('/rulebook/kinds/:id/model.xml', async (req, res) => {
    const { prepared, doSum = onThisThread } = atHand(deps, req)
    const { id: kind } = found(prepared.kinds, req.params.id, 'kind of tool').model.kind
    const file = await modelFiles(prepared)(kind, () => doSum(prepared, 'model', { kind }))
    res.attachment(`clipperwright-${kind}.xml`).type('application/xml').send(file)
  })
  return router
}

/** Which of its folds the address wants open; empty where it says nothing. */
const asked = ({ query }: Request, name: 'kind' | 'open'): string => String(query[name] ?? '')

/** Some half a megabyte each; more than there are kinds. */
const modelFiles = onceFor((_: Prepared) => rememberLately<string>(20))

function found<Thing>(things: ReadonlyMap<string, Thing>, id: string, what: string): Thing {
  const thing = things.get(id)
  if (!thing) throw new NotFound(`a ${what} of this name`)
  return thing
}
