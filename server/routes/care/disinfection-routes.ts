/** The disinfection log: one form, what is missing, print and table. */
import { Router } from 'express'
import type { Request } from 'express'
import { isDay } from '../../../shared/day.js'
import { newCaseId } from '../../cases/case-id.js'
import { dayIn, plusDays } from '../../care/rhythm.js'
import { NotFound } from '../../errors.js'
import type { Problem } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { daysBack, disinfectionPage } from '../../pages/care/disinfection-page.js'
import { sheetPage } from '../../pages/care/sheet-page.js'
import { takeForCare } from '../../parts/take.js'
import { renderPage } from '../../pages/render.js'
import { toolsNotBoxed } from '../../tools/open-cases.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { batchOf, manyOf } from './care-routes.js'
import { doneIn, doneQuery } from './just-done.js'
import { logNames } from './log-names.js'
import { sendLog } from './send-log.js'
import { keepWho, whoIn, whoSaid } from './who.js'

const mostEntries = 2000

export function disinfectionRoutes(deps: Deps): Router {
  const router = Router()
  const logFor = async (req: Request) => {
    const hand = atHand(deps, req)
    const task = hand.knowledge.care.find(({ disinfects }) => disinfects)?.id
    if (task === undefined) throw new NotFound('disinfection among the care of the rulebook')
    const today = dayIn(hand.habits.record.zone, hand.now().toISOString())
    const fromDay = plusDays(today, 1 - daysBack)
    const entries = await hand.care.history({ task, fromDay, most: mostEntries })
    const tools = (await toolsNotBoxed(hand)).filter(({ place }) => place === 'in-use' || place === 'spare')
    return { hand, task, today, entries, names: await logNames(hand), tools }
  }

  router.get('/care/disinfected', async (req, res) => {
    const { hand, entries, names, tools, today } = await logFor(req)
    const latest = entries[0]?.details
    const given = {
      batch: newCaseId(),
      who: whoIn(req),
      product: latest?.product ?? '',
      contact: latest?.contactMinutes?.toString() ?? '',
      day: today,
      ticked: [],
      all: false,
    }
    const done = await doneIn(hand, req)
    renderPage(res, 'care/disinfection', disinfectionPage(entries, names, tools, today, given, [], done))
  })
  router.post('/care/disinfected', async (req, res) => {
    const { hand, task, today, entries, names, tools } = await logFor(req)
    const sent = sentFrom(req.body)
    const [who, product, contact] = [textOf(sent, 'who'), textOf(sent, 'product'), textOf(sent, 'contact')]
    const day = textOf(sent, 'day') || today
    const all = textOf(sent, 'all') === 'yes'
    const ticked = manyOf(sent, 'tool')
    const ids = all ? tools.map(({ id }) => id) : ticked
    const problems: Problem[] = []
    if (ids.length === 0) problems.push({ field: 'tools', message: 'Tick at least one tool' })
    if (who === '') problems.push({ field: 'who', message: 'Say who did it' })
    if (product === '') problems.push({ field: 'product', message: 'Say which product, as its label has it' })
    if (!/^\d{1,3}([.,]\d)?$/.test(contact))
      problems.push({ field: 'contact', message: 'Say how many minutes it stayed wet, by its label' })
    if (!isDay(day) || day > today)
      problems.push({ field: 'day', message: 'Choose today or a day before it' })
    if ([who, product].some((text) => text.length > 120))
      problems.push({ field: 'product', message: 'Use at most 120 characters' })
    if (problems.length > 0) {
      const given = { batch: newCaseId(), who, product, contact, day, ticked, all }
      const page = disinfectionPage(entries, names, tools, today, given, problems)
      return renderPage(res.status(422), 'care/disinfection', page)
    }
    keepWho(res, who)
    const batch = batchOf(sent, task)
    const at = hand.now().toISOString()
    await hand.care.log(
      batch,
      ids.map((toolId) => ({ toolId, task, day })),
      {
        // a name that was typed is a signature; one's own goes by who is signed in
        who: who === whoIn(req) ? whoSaid(req) : who,
        at,
        details: { product, contactMinutes: Number(contact.replace(',', '.')) },
      },
    )
    const short = await takeForCare(hand, batch, task, ids.length, at)
    res.redirect(303, `/care/disinfected?${doneQuery(ids.length, batch, short)}`)
  })
  router.get('/care/disinfected/sheet', async (req, res) => {
    const { hand, task, today, names } = await logFor(req)
    const [from, to] = daysAsked(req.query, today)
    const entries = await hand.care.history({ task, fromDay: from, toDay: to, most: mostEntries })
    renderPage(res, 'care/sheet', sheetPage(entries, names, { from, to, all: entries.length < mostEntries }))
  })
  router.get('/care/disinfected.csv', async (req, res) => {
    const { hand, task } = await logFor(req)
    await sendLog(res, hand, task)
  })
  return router
}

/** Days of a sheet unless told. */
const daysOfSheet = 31

/** First and last day asked for, neither after today nor upside down. */
function daysAsked(query: Request['query'], today: string): readonly [string, string] {
  const day = (name: string, otherwise: string): string => {
    const text = String(query[name] ?? '')
    return isDay(text) && text <= today ? text : otherwise
  }
  const to = day('to', today)
  const from = day('from', plusDays(to, 1 - daysOfSheet))
  return from <= to ? [from, to] : [to, from]
}
