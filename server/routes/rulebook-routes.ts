import { Router } from 'express'
import type { Deps } from '../deps.js'
import { NotFound } from '../errors.js'
import { lookupOf } from '../pages/lookup.js'
import { renderPage } from '../pages/render.js'
import { causePage, fixEntryPage, stepEntryPage } from '../pages/rulebook-entries.js'
import {
  carePage,
  causesPage,
  fixesPage,
  rulebookPage,
  sourcesPage,
  stepsPage,
  stopsPage,
} from '../pages/rulebook-lists.js'

/** The rulebook to browse. */
export function rulebookRoutes({ knowledge }: Deps): Router {
  const router = Router()
  const { causes, steps, fixes } = lookupOf(knowledge)

  const lists = { '': rulebookPage, '/causes': causesPage, '/steps': stepsPage, '/fixes': fixesPage }
  for (const [at, page] of Object.entries(lists))
    router.get(`/rulebook${at}`, (_req, res) => renderPage(res, 'rulebook-list', page(knowledge)))

  const whole = { '/stops': stopsPage, '/care': carePage, '/sources': sourcesPage }
  for (const [at, page] of Object.entries(whole))
    router.get(`/rulebook${at}`, (_req, res) => renderPage(res, 'rulebook-entry', page(knowledge)))

  router.get('/rulebook/causes/:id', (req, res) =>
    renderPage(res, 'rulebook-entry', causePage(knowledge, found(causes, req.params.id, 'cause'))),
  )
  router.get('/rulebook/steps/:id', (req, res) =>
    renderPage(res, 'rulebook-entry', stepEntryPage(knowledge, found(steps, req.params.id, 'step'))),
  )
  router.get('/rulebook/fixes/:id', (req, res) =>
    renderPage(res, 'rulebook-entry', fixEntryPage(knowledge, found(fixes, req.params.id, 'fix'))),
  )
  return router
}

function found<Thing>(things: ReadonlyMap<string, Thing>, id: string, what: string): Thing {
  const thing = things.get(id)
  if (!thing) throw new NotFound(`a ${what} of this name`)
  return thing
}
