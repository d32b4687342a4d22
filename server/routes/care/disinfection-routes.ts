/** The disinfection log: one form, what is missing, print and table. */
import { Router } from 'express'
import type { Request } from 'express'
import { newCaseId } from '../../cases/case-id.js'
import { dayIn, plusDays } from '../../care/rhythm.js'
import { NotFound } from '../../errors.js'
import type { Problem } from '../../forms/answer-form.js'
import { textOf, textsOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { daysBack, disinfectionPage } from '../../pages/care/disinfection-page.js'
import { logCsv } from '../../pages/care/log-page.js'
import { csvType } from '../../pages/layout/csv.js'
import { renderPage } from '../../pages/render.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { batchOf } from './care-routes.js'
import { logNames } from './log-names.js'
import { keepWho, whoIn } from './who.js'

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
    return { hand, task, today, entries, names: await logNames(hand), tools: await hand.tools.list() }
  }

  router.get('/care/disinfected', async (req, res) => {
    const { entries, names, tools, today } = await logFor(req)
    const latest = entries[0]?.details
    const given = {
      batch: newCaseId(),
      who: whoIn(req),
      product: latest?.product ?? '',
      contact: latest?.contactMinutes?.toString() ?? '',
      day: today,
    }
    renderPage(res, 'care/disinfection', disinfectionPage(entries, names, tools, today, given))
  })
  router.post('/care/disinfected', async (req, res) => {
    const { hand, task, today, entries, names, tools } = await logFor(req)
    const sent = sentFrom(req.body)
    const [who, product, contact] = [textOf(sent, 'who'), textOf(sent, 'product'), textOf(sent, 'contact')]
    const day = textOf(sent, 'day') || today
    const ids = [...new Set(textsOf(sent, 'tool'))]
    const problems: Problem[] = []
    if (ids.length === 0) problems.push({ field: 'tools', message: 'Tick at least one tool' })
    if (who === '') problems.push({ field: 'who', message: 'Say who did it' })
    if (product === '') problems.push({ field: 'product', message: 'Say which product, as its label has it' })
    if (!/^\d{1,3}([.,]\d)?$/.test(contact))
      problems.push({ field: 'contact', message: 'Say how many minutes it stayed wet, by its label' })
    if (!/^\d{4}-\d{2}-\d{2}$/.test(day) || day > today)
      problems.push({ field: 'day', message: 'Choose today or a day before it' })
    if ([who, product].some((text) => text.length > 120))
      problems.push({ field: 'product', message: 'Use at most 120 characters' })
    if (problems.length > 0) {
      const given = { batch: newCaseId(), who, product, contact, day }
      const page = disinfectionPage(entries, names, tools, today, given, problems)
      return renderPage(res.status(422), 'care/disinfection', page)
    }
    keepWho(res, who)
    await hand.care.log(
      batchOf(sent, task),
      ids.map((toolId) => ({ toolId, task, day })),
      {
        who,
        at: hand.now().toISOString(),
        details: { product, contactMinutes: Number(contact.replace(',', '.')) },
      },
    )
    res.redirect(303, '/care/disinfected')
  })
  router.get('/care/disinfected.csv', async (req, res) => {
    const { hand, task, names } = await logFor(req)
    const all = await hand.care.history({ task, most: mostEntries })
    res.type(csvType).send(logCsv(all, names))
  })
  return router
}
