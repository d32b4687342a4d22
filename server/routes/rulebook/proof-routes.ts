import { Router } from 'express'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { ProofFigures } from '../../../shared/proof.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { NotFound } from '../../errors.js'
import { proofKindPage } from '../../pages/rulebook/proof-kind-page.js'
import { proofPage, staleWords, unprovedPage } from '../../pages/rulebook/proof-page.js'
import { renderPage } from '../../pages/render.js'
import { noticed } from '../../pages/rulebook/notice.js'
import { readFigures } from '../../proof/figures-file.js'
import { kindDigest } from '../../proof/kind-digest.js'

/** How good the rulebook is. The figures are read anew each time: they are seldom looked at, and may be written meanwhile. */
export function proofRoutes(deps: Deps, read: () => ProofFigures | null = readFigures): Router {
  const router = Router()

  router.get('/rulebook/proof', (req, res) => {
    const hand = atHand(deps, req)
    const { knowledge } = hand
    const figures = read()
    renderPage(
      res,
      'rulebook/proof',
      noticed(hand, figures ? proofPage(knowledge, figures, staleKinds(knowledge, figures)) : unprovedPage()),
    )
  })

  router.get('/rulebook/proof/:kind', (req, res) => {
    const hand = atHand(deps, req)
    const { knowledge } = hand
    const kind = knowledge.kinds.find(({ id }) => id === req.params.kind)
    const all = read()
    const figures = kind && all?.kinds[kind.id]
    if (!kind || !figures) throw new NotFound('figures of a kind of this name')
    const stale = staleKinds(knowledge, all).includes(kind.id) ? [staleWords(kind.name, true)] : []
    renderPage(res, 'rulebook/proof', noticed(hand, proofKindPage(knowledge, kind.id, figures, stale)))
  })
  return router
}

/** Kinds that run on other rules than those that were measured, or that were never measured. */
function staleKinds(knowledge: Knowledge, figures: ProofFigures): string[] {
  return knowledge.kinds
    .map(({ id }) => id)
    .filter((id) => figures.kinds[id]?.rulebook !== kindDigest(knowledge, id))
}
