/** The shop's tools: the list, a tool's own page, what is known of it, and a case on it by one tap. */
import { Router } from 'express'
import type { Request } from 'express'
import type { Tool } from '../../../shared/tool.js'
import { ToolPlace } from '../../../shared/tool.js'
import { newCaseId } from '../../cases/case-id.js'
import { careOf } from '../../care/due.js'
import { dayIn } from '../../care/rhythm.js'
import { figuresInForce } from '../../decision/figures-of.js'
import { yearsCost } from '../../decision/tool-worth.js'
import { BadRequest } from '../../errors.js'
import type { Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import type { ToolTexts } from '../../forms/tool-form.js'
import { toolFields, toolFrom } from '../../forms/tool-form.js'
import { mostWritten } from '../../pages/layout/written-words.js'
import { renderPage } from '../../pages/render.js'
import { nameProblems, toolEditPage, toolTexts } from '../../pages/tools/tool-edit-page.js'
import { labelsPage } from '../../pages/tools/labels-page.js'
import { toolNewPage } from '../../pages/tools/tool-new-page.js'
import { toolRecordPage } from '../../pages/tools/tool-record-page.js'
import { toolsPage } from '../../pages/tools/tools-page.js'
import { careYear } from '../../tools/care-year.js'
import { casesOfTool, wearOf } from '../../tools/known.js'
import { openCasesByTool } from '../../tools/open-cases.js'
import { spentOn } from '../../tools/spent.js'
import { daysOut, figuresOfTool } from '../../tools/tool-life.js'
import { freeName } from '../../tools/tool-names.js'
import { beginOn } from '../../tools/tool-of-case.js'
import { doneIn } from '../care/just-done.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

const yearMs = 365.25 * 86_400_000

export function toolRoutes(deps: Deps): Router {
  const router = Router()
  const toolOf = (req: Request): Promise<Tool> => atHand(deps, req).tools.get(String(req.params['id']))

  router.get('/tools', async (req, res) => {
    const hand = atHand(deps, req)
    const [all, open] = await Promise.all([hand.tools.list(), openCasesByTool(hand)])
    const added = /^\d{1,3}$/.exec(String(req.query['added'] ?? ''))
    renderPage(res, 'tools/tools', toolsPage(hand.knowledge, all, open, added && Number(added[0])))
  })
  router.get('/tools/new', (req, res) => {
    renderPage(res, 'tools/new', toolNewPage(atHand(deps, req).knowledge))
  })
  router.post('/tools', async (req, res) => {
    const { knowledge, tools, now } = atHand(deps, req)
    const kind = knowledge.kinds.find(({ id }) => id === textOf(sentFrom(req.body), 'kind'))
    if (!kind) throw new BadRequest('Tap the picture of the tool.', { field: 'kind', status: 422 })
    const name = freeName(await tools.list(), kind)
    const [tool] = await tools.add(
      [{ name, kind: kind.id, place: 'in-use', details: {} }],
      now().toISOString(),
    )
    res.redirect(303, `/tools/${tool!.id}?new=yes`)
  })
  router.get('/tools/labels', async (req, res) => {
    const origin = `${req.protocol}://${req.get('host') ?? ''}`
    renderPage(res, 'tools/labels', labelsPage(await atHand(deps, req).tools.list(), origin))
  })
  router.get('/tools/:id', async (req, res) => {
    const hand = atHand(deps, req)
    const tool = await toolOf(req)
    const today = dayIn(hand.habits.record.zone, hand.now().toISOString())
    const aYearAgo = new Date(hand.now().getTime() - yearMs).toISOString()
    const [{ cases, unread }, moves, last] = await Promise.all([
      casesOfTool(hand, tool.id),
      hand.tools.moves(tool.id),
      hand.care.lastDone(tool.id),
    ])
    const { zone } = hand.habits.record
    const [year, spent] = await Promise.all([
      careYear(hand, tool, moves, today),
      spentOn(hand, cases, aYearAgo),
    ])
    const care = careOf(hand.knowledge, hand.habits.record, tool, last, moves, today)
    const away = daysOut(moves, cases, zone, today)
    const { figures } = figuresInForce({ shop: hand.shop.record.figures, tool: figuresOfTool(tool, today) })
    const cost = yearsCost(figures, spent)
    const wear = await wearOf(hand, tool, cases, today)
    const done = await doneIn(hand, req)
    const written = await deps.written.about('tool', tool.id, mostWritten)
    const record = { tool, cases, care, wear, year, away, unread, spent, cost, written }
    renderPage(
      res,
      'tools/tool',
      toolRecordPage(hand.knowledge, record, hand.shop.record.currency, today, {
        hasPhoto: (await hand.tools.photo(tool.id)) !== null,
        batch: newCaseId(),
        done,
        isNew: req.query['new'] === 'yes',
      }),
    )
  })
  router.post('/tools/:id/case', async (req, res) => {
    const hand = atHand(deps, req)
    const tool = await toolOf(req)
    const open = (await casesOfTool(hand, tool.id)).cases.find(({ state }) => state === 'on-the-bench')
    const { id } = open ?? (await beginOn(hand, tool))
    res.redirect(303, open ? `/cases/${id}` : `/cases/${id}/complaint`)
  })
  router.post('/tools/:id/place', async (req, res) => {
    const { tools, now } = atHand(deps, req)
    const place = ToolPlace.safeParse(textOf(sentFrom(req.body), 'place'))
    if (!place.success) throw new BadRequest('Tap where the tool is.', { field: 'place', status: 422 })
    const tool = await toolOf(req)
    await tools.change(tool.id, { place: place.data }, now().toISOString())
    res.redirect(303, `/tools/${tool.id}`)
  })
  router.get('/tools/:id/edit', async (req, res) => {
    const { knowledge, tools, shop } = atHand(deps, req)
    const tool = await toolOf(req)
    const hasPhoto = (await tools.photo(tool.id)) !== null
    renderPage(res, 'tools/edit', toolEditPage(knowledge, tool, shop.record.currency, hasPhoto))
  })
  router.post('/tools/:id/edit', async (req, res) => {
    const { knowledge, tools, shop, now } = atHand(deps, req)
    const tool = await toolOf(req)
    const { currency } = shop.record
    // what is not in the form stays as it is: a new tool is asked for its name alone
    const sent = { ...toolTexts(tool, currency), ...textsIn(sentFrom(req.body)) }
    const made = toolFrom(sent, knowledge.kinds, currency)
    const twice = nameProblems(await tools.list(), tool, sent.name ?? '')
    if (!made.ok || twice.length > 0) {
      const hasPhoto = (await tools.photo(tool.id)) !== null
      const page = toolEditPage(knowledge, tool, currency, hasPhoto, sent, [
        ...twice,
        ...(made.ok ? [] : made.problems),
      ])
      return renderPage(res.status(422), 'tools/edit', page)
    }
    await tools.change(tool.id, made.tool, now().toISOString())
    res.redirect(303, `/tools/${tool.id}`)
  })
  router.post('/tools/:id/remove', async (req, res) => {
    const { tools } = atHand(deps, req)
    await tools.remove((await toolOf(req)).id)
    res.redirect(303, '/tools')
  })
  return router
}

const textsIn = (sent: Sent): ToolTexts =>
  Object.fromEntries(
    toolFields.filter((field) => sent[field] !== undefined).map((field) => [field, textOf(sent, field)]),
  )
