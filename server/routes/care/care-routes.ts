/** Today's care, what was done, the disinfection log, how often, and the calendar. */
import { Router } from 'express'
import type { Request, Response } from 'express'
import { newCaseId } from '../../cases/case-id.js'
import { calendarOf } from '../../care/calendar-feed.js'
import { dayIn } from '../../care/rhythm.js'
import { BadRequest, NotFound } from '../../errors.js'
import type { Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { habitsFrom, habitsPage } from '../../pages/care/habits-page.js'
import { logPage } from '../../pages/care/log-page.js'
import { roundPage } from '../../pages/care/round-page.js'
import { ofShop } from '../../people/link-code.js'
import { takeForCare } from '../../parts/take.js'
import { renderPage } from '../../pages/render.js'
import { todaysRound } from '../../tools/todays-round.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { doneIn, doneQuery } from './just-done.js'
import { logNames } from './log-names.js'
import { sendLog } from './send-log.js'
import { keepWho, whoIn, whoSaid } from './who.js'

const linesAPage = 15

export function careRoutes(deps: Deps): Router {
  const router = Router()
  const roundFor = (req: Request) => todaysRound(atHand(deps, req))

  const showRound = async (req: Request, res: Response, unticked: string | null = null): Promise<void> => {
    const round = await roundFor(req)
    const hand = atHand(deps, req)
    const noTools = round.care.length === 0 && (await hand.tools.list()).length === 0
    const given = { batch: newCaseId(), who: whoIn(req), done: await doneIn(hand, req), noTools }
    renderPage(res, 'care/round', roundPage(round, given, unticked))
  }

  router.get('/care', (req, res) => showRound(req, res))
  router.post('/care/who', (req, res) => {
    keepWho(res, textOf(sentFrom(req.body), 'who'))
    res.redirect(303, '/care')
  })
  router.post('/care/done', async (req, res) => {
    const hand = atHand(deps, req)
    const { knowledge, care, habits, now } = hand
    const sent = sentFrom(req.body)
    const task = textOf(sent, 'task')
    const toolIds = manyOf(sent, 'tool')
    if (!knowledge.care.some(({ id }) => id === task))
      throw new BadRequest('This form names care that the rulebook does not have. Open the page again.', {
        field: 'task',
        status: 422,
      })
    if (toolIds.length === 0) return showRound(req, res.status(422), task)
    const at = now().toISOString()
    const batch = batchOf(sent, task)
    const day = dayIn(habits.record.zone, at)
    await care.log(
      batch,
      toolIds.map((toolId) => ({ toolId, task, day })),
      { who: whoSaid(req), at },
    )
    const short = await takeForCare(hand, batch, task, toolIds.length, at)
    const back = textOf(sent, 'back')
    const done = doneQuery(toolIds.length, batch, short)
    res.redirect(303, `${/^\/tools\/[a-z0-9]+$/.test(back) ? back : '/care'}?${done}`)
  })
  router.post('/care/undo', async (req, res) => {
    const { care, parts, now } = atHand(deps, req)
    const sent = sentFrom(req.body)
    await care.undo(textOf(sent, 'batch'), now().toISOString())
    await parts.undo(textOf(sent, 'batch'), now().toISOString())
    const back = textOf(sent, 'back')
    res.redirect(303, /^\/tools\/[a-z0-9]+$|^\/care\/disinfected$/.test(back) ? back : '/care')
  })

  router.get('/care/log', async (req, res) => {
    const { tools, care } = atHand(deps, req)
    const toolId = typeof req.query['tool'] === 'string' ? req.query['tool'] : undefined
    const tool = toolId === undefined ? null : await tools.get(toolId)
    const [at, id] = String(req.query['before'] ?? '').split('~')
    const entries = await care.history({
      ...(toolId !== undefined && { toolId }),
      ...(at && id && { before: { at, id } }),
      most: linesAPage,
    })
    const last = entries.length === linesAPage ? entries.at(-1) : undefined
    const next = last
      ? `/care/log?${new URLSearchParams({ ...(toolId !== undefined && { tool: toolId }), before: `${last.at}~${last.id}` }).toString()}`
      : null
    renderPage(
      res,
      'care/log',
      logPage(entries, await logNames(atHand(deps, req)), { tool: tool?.name ?? null, next }),
    )
  })
  router.get('/care/log.csv', async (req, res) => {
    await sendLog(res, atHand(deps, req))
  })

  router.get('/care/habits', async (req, res) => {
    const { knowledge, habits, tools } = atHand(deps, req)
    const kept = req.query['kept'] === 'yes'
    renderPage(res, 'care/habits', habitsPage(knowledge, habits.record, await tools.list(), null, [], kept))
  })
  router.post('/care/habits', async (req, res) => {
    const { knowledge, habits, tools } = atHand(deps, req)
    const sent = sentFrom(req.body)
    const read = habitsFrom(sent, habits.record, knowledge)
    if (!read.ok) {
      const page = habitsPage(knowledge, habits.record, await tools.list(), sent, read.problems)
      return renderPage(res.status(422), 'care/habits', page)
    }
    await habits.keep(read.habits)
    res.redirect(303, '/care/habits?kept=yes')
  })
  router.post('/care/calendar', async (req, res) => {
    const { habits } = atHand(deps, req)
    const calendarKey =
      textOf(sentFrom(req.body), 'wanted') === 'no' ? null : ofShop(newCaseId() + newCaseId(), deps.shopId)
    await habits.keep({ ...habits.record, calendarKey })
    res.redirect(303, '/care/habits')
  })
  router.get('/calendar/:key.ics', async (req, res) => {
    const { habits, now } = atHand(deps, req)
    const { calendarKey, zone } = habits.record
    if (calendarKey === null || req.params.key !== calendarKey)
      throw new NotFound('a calendar at this address')
    const round = await roundFor(req)
    const person = typeof req.query['for'] === 'string' ? req.query['for'].trim().toLowerCase() : ''
    const own = round.care.filter(
      ({ tool }) => person === '' || tool.details.usedBy?.toLowerCase() === person,
    )
    const name = person === '' ? 'Care of the tools' : `Care of the tools: ${person}`
    res
      .type('text/calendar; charset=utf-8')
      .send(calendarOf({ ...round, care: own }, zone, name, now().toISOString()))
  })
  return router
}

/** Every text under a name; a shop may tick more tools than a form of a case has fields. */
export function manyOf(sent: Sent, name: string): string[] {
  const values = [sent[name] ?? []].flat()
  return [...new Set(values.filter((value) => typeof value === 'string' && value !== ''))] as string[]
}

/** What one tap logs: the form's own number, so that a second tap on the same form changes nothing. */
export function batchOf(sent: Sent, task: string): string {
  const batch = textOf(sent, 'batch')
  return /^[a-z0-9]{4,40}$/.test(batch) ? `${batch}-${task}` : `${newCaseId()}-${task}`
}
