/** The plan on paper: which card, and the card. */
import { Router } from 'express'
import type { CardFigures } from '../../../shared/card-figures.js'
import { readCardFigures } from '../../practice/card-figures-file.js'
import { cardOf, commonOf, dangersOf } from '../../remembered/cards.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { NotFound } from '../../errors.js'
import { cardPage } from '../../pages/practice/card-page.js'
import { cardsPage, cardsPath, complaintsOf } from '../../pages/practice/cards-page.js'
import { renderPage } from '../../pages/render.js'
import { paperDigest } from '../../practice/card-figures.js'
import { kindDigest } from '../../proof/kind-digest.js'

/** The figures are read anew each time: they may be written meanwhile. */
export function practiceCardRoutes(deps: Deps, read: () => CardFigures | null = readCardFigures): Router {
  const router = Router()

  router.get(cardsPath, (req, res) => {
    const { knowledge, prepared } = atHand(deps, req)
    const { kind = null } = req.query
    if (kind === null) return renderPage(res, 'practice/cards', cardsPage(knowledge, null, [], new Set()))
    if (typeof kind !== 'string' || !prepared.kinds.has(kind))
      throw new NotFound('cards for a kind of this name')
    renderPage(
      res,
      'practice/cards',
      cardsPage(knowledge, kind, commonOf(prepared, kind), dangersOf(prepared, kind)),
    )
  })

  router.get(`${cardsPath}/:kind/:complaint`, async (req, res) => {
    const { knowledge, prepared, since } = atHand(deps, req)
    const { kind, complaint } = req.params
    const host = req.get('host')
    if (!prepared.kinds.has(kind)) throw new NotFound('cards for a kind of this name')
    const dangers = dangersOf(prepared, kind)
    if (dangers.has(complaint))
      throw new NotFound('a card for a danger sign, which is no puzzle: plug out and set it aside')
    if (!complaintsOf(knowledge, kind, dangers).some(({ id }) => id === complaint))
      throw new NotFound('a card for a complaint of this name; choose one from the list of cards')
    const card = await cardOf(prepared, kind, complaint, deps.doSum)
    const ofKind = read()?.kinds[kind]
    const figure = ofKind?.complaints[complaint] ?? null
    const isOld = ofKind !== undefined && ofKind.rulebook !== kindDigest(knowledge, kind)
    renderPage(
      res,
      'practice/card',
      cardPage(knowledge, card, {
        dangers,
        figure,
        figures: Object.values(ofKind?.complaints ?? {}),
        stale: isOld || (figure !== null && figure.paper !== paperDigest(card)),
        since,
        host: host === undefined ? 'the shop’s computer' : `${req.protocol}://${host}`,
      }),
    )
  })
  return router
}
