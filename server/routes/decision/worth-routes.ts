import type { Request } from 'express'
import { Router } from 'express'
import { comparisonOf } from '../../remembered/comparisons.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { disinfected } from '../../bench/case-state.js'
import type { OnBench } from '../../bench/on-bench.js'
import { renderPage } from '../../pages/render.js'
import { saidFigures } from '../../pages/decision/worth-figures.js'
import type { WorthPage } from '../../pages/decision/worth-page.js'
import { worthPage } from '../../pages/decision/worth-page.js'
import { caseForm, caseOf } from '../case/case-form.js'

/** "Is it worth it?": the three ways out of a case, and the figures that are said of it. */
export function worthRoutes(deps: Deps): Router {
  const router = Router()
  const pageOf = async (
    req: Request,
    on: OnBench,
    shown?: Parameters<typeof worthPage>[2],
  ): Promise<WorthPage> => {
    const { prepared } = atHand(deps, req)
    const { situation, assessment, inForce: figures, currency, opened, bench } = on
    const inputs = {
      prepared,
      situation,
      assessment,
      figures: figures.figures,
      currency,
      opened,
      disinfected: disinfected(bench),
    }
    const comparison = await comparisonOf(inputs, deps.doSum)
    return worthPage(on, comparison, shown)
  }

  router.get('/cases/:id/worth', async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'decision/worth', await pageOf(req, on, { kept: req.query['kept'] === 'yes' }))
  })
  router.post(
    '/cases/:id/worth',
    caseForm(deps, async (on, sent, req) => {
      const said = saidFigures(on, sent)
      if (!said.ok)
        return {
          putRight: {
            name: 'decision/worth',
            page: await pageOf(req, on, { refused: { sent, problems: said.problems } }),
          },
        }
      const to = `/cases/${on.bench.id}/worth`
      return said.event === null ? { store: [], to } : { store: [said.event], to: `${to}?kept=yes` }
    }),
  )
  return router
}
