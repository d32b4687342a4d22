/** The papers that go with a tool, and what is said when it comes back. */
import type { Request } from 'express'
import { Router } from 'express'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { returnOf } from '../../cases/outcome.js'
import { caseStateOf } from '../../cases/fold.js'
import { papersFor } from '../../decision/papers.js'
import type { Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { readAmount } from '../../pages/layout/money.js'
import type { OnBench } from '../../bench/on-bench.js'
import { renderPage } from '../../pages/render.js'
import { retirePage } from '../../pages/decision/retire-page.js'
import { returnFrom } from '../../forms/return-form.js'
import { dayOf, returnPage } from '../../pages/decision/return-page.js'
import { handoverPage } from '../../pages/decision/handover-page.js'
import type { FormResult } from '../case/case-form.js'
import { caseForm, caseOf } from '../case/case-form.js'

export function paperRoutes(deps: Deps): Router {
  const router = Router()
  const at = '/cases/:id'
  const today = (req: Request): string => dayOf(atHand(deps, req).now())

  router.get(`${at}/slip`, async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'decision/handover', handoverPage(on, await papersOf(on)))
  })
  router.post(
    `${at}/slip`,
    caseForm(deps, (on, sent) => ({
      store: [{ type: 'disinfected', done: textOf(sent, 'disinfected') === 'yes' }],
      to: `/cases/${on.bench.id}/slip`,
    })),
  )
  router.post(`${at}/quote-limit`, caseForm(deps, quoteLimit))
  router.get(`${at}/retire`, async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'decision/retire', retirePage(on, await papersOf(on)))
  })

  router.get(`${at}/return`, async (req, res) => {
    const on = await caseOf(deps, req)
    if (caseStateOf(on.bench) !== 'boxed-for-service' && !returnOf(on.bench))
      return res.redirect(303, `/cases/${on.bench.id}`)
    const asked = Object.keys(req.query).length > 0 ? req.query : null
    renderPage(res, 'decision/return', returnPage(on, today(req), asked))
  })
  router.post(
    `${at}/return`,
    caseForm(deps, (on, sent, req) => {
      const read = returnFrom(on, sent, today(req))
      if (read.ok) return { store: read.events }
      return { putRight: { name: 'decision/return', page: returnPage(on, today(req), sent, read.problems) } }
    }),
  )
  router.post(
    `${at}/still-away`,
    caseForm(deps, () => ({ store: [{ type: 'still-away' }] })),
  )
  return router
}

const papersOf = ({ knowledge, assessment }: OnBench) => papersFor(knowledge, assessment.findings)

/** Left empty, the service rings in any case. */
async function quoteLimit(on: OnBench, sent: Sent): Promise<FormResult> {
  const to = `/cases/${on.bench.id}/slip`
  const text = textOf(sent, 'limit')
  if (text === '') return { store: [{ type: 'quote-limit', amount: null }], to }
  const amount = readAmount(text, on.currency)
  if (typeof amount === 'number') return { store: [{ type: 'quote-limit', amount }], to }
  const here = amount.wrong.charAt(0).toUpperCase() + amount.wrong.slice(1)
  const problems = [{ field: 'limit', message: `The limit of the quote: ${amount.wrong}`, here }]
  return {
    putRight: { name: 'decision/handover', page: handoverPage(on, await papersOf(on), { text, problems }) },
  }
}
