import { Router } from 'express'
import type { CaseStore, CaseSummary } from '../../cases/case-store.js'
import type { Deps } from '../../wiring/deps.js'
import { CaseState } from '../../../shared/case.js'
import { atHand } from '../../wiring/deps.js'
import { Situation } from '../../../shared/situation.js'
import { NotFound } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { answersPage } from '../../pages/case/answers-page.js'
import { caseListFrom, casesPage } from '../../pages/case/cases-page.js'
import { changePage } from '../../pages/case/change-page.js'
import { complaintPage } from '../../pages/case/complaint-page.js'
import { dangerPage } from '../../pages/case/danger-page.js'
import { finishPage } from '../../pages/case/finish-page.js'
import { dangerStep } from '../../bench/on-bench.js'
import { renderPage, showPage } from '../../pages/render.js'
import { screenOf } from '../../pages/case/screen.js'
import { begunFrom, newPage } from '../../pages/case/new-page.js'
import { stopsStanding } from '../../bench/stopped.js'
import { startPage } from '../../pages/case/start-page.js'
import { toolPage } from '../../pages/case/tool-page.js'
import { clearPage } from '../../pages/case/clear-page.js'
import { mistakePage, stopPage } from '../../pages/case/stop-page.js'
import { whyPage } from '../../pages/case/why-page.js'
import { sentFrom } from '../../forms/sent.js'
import { todaysRound } from '../../tools/todays-round.js'
import { beginWith, removeCase, renameOnCase } from '../../tools/tool-of-case.js'
import { caseOf, questionOf, stopOf } from './case-form.js'
import { caseForms } from './case-forms.js'

/** The start page and the pages of a case; what their forms send is in `case-forms.ts`. */
export function caseRoutes(deps: Deps): Router {
  const router = Router()

  // A case goes on under one address: a browser that goes back must not show what is past.
  router.use('/cases/:id', (_req, res, next) => {
    res.set('Cache-Control', 'no-store')
    next()
  })
  router.get('/', async (req, res) => {
    const hand = atHand(deps, req)
    const { knowledge, cases, tools } = hand
    const [{ shown, all }, ours, round] = await Promise.all([hanging(cases), tools.list(), todaysRound(hand)])
    const inUse = shown.filter(({ state }) => state !== 'running-again')
    const stops = await stopsStanding(
      hand,
      inUse.map(({ id }) => id),
    )
    renderPage(res, 'case/start', startPage(knowledge, shown, all, ours, round.care, stops))
  })
  router.get('/new', (req, res) => {
    renderPage(res, 'case/new', newPage(atHand(deps, req).knowledge, String(req.query['on'] ?? '')))
  })
  router.get('/cases', async (req, res) => {
    const { knowledge, cases } = atHand(deps, req)
    const { wish, most } = caseListFrom(req.query)
    const [found, all] = await Promise.all([
      cases.list({ ...wish, skip: (wish.page - 1) * most, most }),
      cases.count(wish),
    ])
    renderPage(res, 'case/cases', casesPage(knowledge, found, all, wish))
  })
  router.post('/cases', async (req, res) => {
    const hand = atHand(deps, req)
    const { knowledge } = hand
    const sent = sentFrom(req.body)
    const begun = { kind: textOf(sent, 'kind'), tool: textOf(sent, 'tool') }
    const problems = begunFrom(knowledge, begun)
    if (problems.length > 0) return renderPage(res.status(422), 'case/new', newPage(knowledge, '', problems))
    const { id } = await beginWith(hand, begun)
    res.redirect(303, `/cases/${id}/complaint`)
  })

  router.get('/cases/:id', async (req, res) => {
    const on = await caseOf(deps, req)
    const screen = screenOf(on, placeFrom(req.query['at']))
    if (screen === null) return res.redirect(303, `/cases/${on.bench.id}/complaint`)
    showPage(res, screen)
  })
  router.get('/cases/:id/complaint', async (req, res) => {
    const asked = Object.keys(req.query).length > 0 ? req.query : null
    renderPage(res, 'case/complaint', complaintPage(await caseOf(deps, req), asked))
  })
  router.get('/cases/:id/danger', async (req, res) => {
    const on = await caseOf(deps, req)
    const step = dangerStep(on.knowledge, on.bench.kind)
    if (!step) throw new NotFound('danger signs for this kind')
    renderPage(res, 'case/danger', dangerPage(on, step, step.questions))
  })
  router.get('/cases/:id/stops/:stop', async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'case/stop', stopPage(on, stopOf(on, req)))
  })
  router.get('/cases/:id/stops/:stop/lift', async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'case/clear', clearPage(on, stopOf(on, req)))
  })
  router.get('/cases/:id/stops/:stop/mistake', async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'case/mistake', mistakePage(on, stopOf(on, req)))
  })
  router.get('/cases/:id/answers', async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'case/answers', answersPage(on, await atHand(deps, req).cases.hands(on.bench.id)))
  })
  router.get('/cases/:id/answers/:question', async (req, res) => {
    const on = await caseOf(deps, req)
    renderPage(res, 'case/change', changePage(on, questionOf(on, req)))
  })
  router.get('/cases/:id/why', async (req, res) => {
    const on = await caseOf(deps, req)
    const { assessments } = atHand(deps, req)
    const before = await assessments.of(Situation.parse({ kind: on.bench.kind }), on.shop)
    renderPage(res, 'case/why', whyPage(on, before))
  })
  router.get('/cases/:id/tool', async (req, res) => {
    renderPage(res, 'case/tool', toolPage(await caseOf(deps, req), atHand(deps, req).knowledge.kinds))
  })
  router.post('/cases/:id/tool', async (req, res) => {
    const hand = atHand(deps, req)
    const { knowledge } = hand
    const on = await caseOf(deps, req)
    const sent = sentFrom(req.body)
    const to = { kind: textOf(sent, 'kind'), tool: textOf(sent, 'tool') }
    const problems = begunFrom(knowledge, to)
    if (problems.length > 0)
      return renderPage(res.status(422), 'case/tool', toolPage(on, knowledge.kinds, to, problems))
    await renameOnCase(hand, on.bench, to)
    res.redirect(303, `/cases/${on.bench.id}`)
  })
  router.post('/cases/:id/remove', async (req, res) => {
    const { bench } = await caseOf(deps, req)
    await removeCase(atHand(deps, req), bench)
    res.redirect(303, '/')
  })
  router.get('/cases/:id/finish', async (req, res) => {
    renderPage(res, 'case/finish', finishPage(await caseOf(deps, req)))
  })

  router.use(caseForms(deps))
  return router
}

/** Which screen of a fix, from its address; the first where that says nothing. */
const placeFrom = (at: unknown): number => (typeof at === 'string' && /^\d{1,2}$/.test(at) ? Number(at) : 0)

/** What the start page has room for. */
const mostOpen = 30
const mostEnded = 12
const inHand: readonly CaseState[] = CaseState.options.filter((state) => state !== 'running-again')

/** Those of which something was said come first: what was only begun may be a slip of the thumb. */
async function hanging(
  cases: CaseStore,
): Promise<{ readonly shown: readonly CaseSummary[]; readonly all: number }> {
  const [said, begun, ended, all] = await Promise.all([
    cases.list({ states: inHand, said: true, most: mostOpen }),
    cases.list({ states: inHand, said: false, most: mostOpen }),
    cases.list({ states: ['running-again'], most: mostEnded }),
    cases.count(),
  ])
  return { shown: [...[...said, ...begun].slice(0, mostOpen), ...ended], all }
}
