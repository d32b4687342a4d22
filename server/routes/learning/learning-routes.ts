/** What the shop has learned, beside the rulebook; and the switch. */
import { Router } from 'express'
import { dayIn } from '../../care/rhythm.js'
import { leftUndone } from '../../care/left.js'
import { figuresInForce } from '../../decision/figures-of.js'
import { yearsCost } from '../../decision/tool-worth.js'
import { kindOf } from '../../diagnosis/prepare.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { countsByKind } from '../../learning/gather.js'
import { learnedFigures } from '../../learning/learned-figures.js'
import type { ToolsYear } from '../../pages/learning/learned-page.js'
import { learnedPage } from '../../pages/learning/learned-page.js'
import { renderPage } from '../../pages/render.js'
import { casesOfTool } from '../../tools/known.js'
import { spentOn } from '../../tools/spent.js'
import { todaysRound } from '../../tools/todays-round.js'
import { figuresOfTool } from '../../tools/tool-life.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

const yearMs = 365.25 * 86_400_000

export function learningRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/learned', async (req, res) => {
    const hand = atHand(deps, req)
    const [{ byKind, unread }, years, round] = await Promise.all([
      countsByKind(hand),
      yearsOfTools(hand),
      todaysRound(hand),
    ])
    const learned = [...byKind].map(([kind, counts]) => ({
      kind,
      cases: counts.cases,
      figures: learnedFigures(kindOf(hand.prepared, kind), counts),
    }))
    const page = learnedPage(hand.knowledge, hand.shop.record.currency, {
      learned,
      on: hand.habits.record.learns,
      years,
      left: leftUndone(round),
      unread,
    })
    renderPage(res, 'learning/learned', page)
  })
  router.post('/learned', async (req, res) => {
    const { habits } = atHand(deps, req)
    await habits.keep({ ...habits.record, learns: textOf(sentFrom(req.body), 'learns') === 'yes' })
    res.redirect(303, '/learned')
  })
  return router
}

/** What each tool that is kept cost in the last year, beside a new one. */
async function yearsOfTools(hand: AtHand): Promise<ToolsYear[]> {
  const since = new Date(hand.now().getTime() - yearMs).toISOString()
  const today = dayIn(hand.habits.record.zone, hand.now().toISOString())
  const kept = (await hand.tools.list()).filter(({ place }) => place !== 'retired')
  return Promise.all(
    kept.map(async (tool) => {
      const { cases } = await casesOfTool(hand, tool.id)
      const { figures } = figuresInForce({ shop: hand.shop.record.figures, tool: figuresOfTool(tool, today) })
      return { tool, cost: yearsCost(figures, await spentOn(hand, cases, since)) }
    }),
  )
}
