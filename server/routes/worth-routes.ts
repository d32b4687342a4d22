import type { Request } from 'express'
import { Router } from 'express'
import { comparisonOf } from '../comparisons.js'
import type { Deps } from '../deps.js'
import { atHand } from '../deps.js'
import { disinfected } from '../pages/case-state.js'
import type { OnBench } from '../pages/on-bench.js'
import { renderPage } from '../pages/render.js'
import { saidFigures } from '../pages/worth-figures.js'
import type { WorthPage } from '../pages/worth-page.js'
import { worthPage } from '../pages/worth-page.js'
import { worthPicture } from '../pages/worth-picture.js'
import { caseForm, onBench } from './case-form.js'

/** "Is it worth it?": the three ways out of a case, and the figures that are said of it. */
export function worthRoutes(deps: Deps): Router {
  const router = Router()
  const pageOf = async (
    req: Request,
    on: OnBench,
    shown?: Parameters<typeof worthPage>[3],
  ): Promise<WorthPage> => {
    const { prepared } = atHand(deps, req)
    const { situation, assessment, atHand: figures, currency, opened, bench } = on
    const comparison = await comparisonOf({
      prepared,
      situation,
      assessment,
      figures: figures.figures,
      currency,
      opened,
      disinfected: disinfected(bench),
    })
    return worthPage(on, comparison, await worthPicture(comparison, currency), shown)
  }

  router.get('/cases/:id/worth', async (req, res) => {
    const on = await onBench(atHand(deps, req), req.params['id'])
    renderPage(res, 'worth', await pageOf(req, on, { kept: req.query['kept'] === 'yes' }))
  })
  router.post(
    '/cases/:id/worth',
    caseForm(deps, async (on, sent, req) => {
      const said = saidFigures(on, sent)
      if (!said.ok)
        return {
          putRight: {
            name: 'worth',
            page: await pageOf(req, on, { refused: { sent, problems: said.problems } }),
          },
        }
      const to = `/cases/${on.bench.id}/worth`
      return said.event === null ? { store: [], to } : { store: [said.event], to: `${to}?kept=yes` }
    }),
  )
  return router
}
