/** What the shop has learned, beside the rulebook; and the switch. */
import { Router } from 'express'
import { pastCase } from '../../tools/tool-life.js'
import { kindOf } from '../../diagnosis/prepare.js'
import { afterTally, learnedShares, rulebookWorth } from '../../diagnosis/relearned.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { countsByKind } from '../../learning/gather.js'
import type { LearnedKind } from '../../pages/learning/learned-page.js'
import { learnedPage } from '../../pages/learning/learned-page.js'
import { renderPage } from '../../pages/render.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

const yearMs = 365.25 * 86_400_000

export function learningRoutes(deps: Deps): Router {
  const router = Router()
  router.get('/learned', async (req, res) => {
    const hand = atHand(deps, req)
    const lastYear = new Date(hand.now().getTime() - yearMs).toISOString().slice(0, 10)
    const [learned, tools, timesDone] = await Promise.all([
      learnedKinds(hand),
      hand.tools.list(),
      hand.care.timesDone(lastYear),
    ])
    const costs = await costsOf(hand)
    const page = learnedPage(
      hand.knowledge,
      learned,
      hand.habits.record.learns,
      { tools, timesDone },
      costs,
      rulebookWorth.shares,
    )
    renderPage(res, 'learning/learned', page)
  })
  router.post('/learned', async (req, res) => {
    const { habits } = atHand(deps, req)
    await habits.keep({ ...habits.record, learns: textOf(sentFrom(req.body), 'learns') === 'yes' })
    res.redirect(303, '/learned')
  })
  return router
}

async function learnedKinds(hand: AtHand): Promise<LearnedKind[]> {
  return [...(await countsByKind(hand))].map(([kind, counts]) => {
    const { model } = kindOf(hand.prepared, kind)
    const shares = learnedShares(model, counts)
    return {
      kind,
      counts,
      shareWeight: rulebookWorth.shares + counts.cases,
      shares: model.causes.map(({ id, shares: own }, i) => ({
        cause: id,
        rulebook: (own[kind] ?? 0) / 1000,
        shop: shares[i]!,
      })),
      cures: Object.entries(counts.fixes).flatMap(([fix, byCause]) =>
        Object.entries(byCause).flatMap(([cause, tally]) => {
          const rulebook = model.curesOf.get(fix)?.[model.causeIndex.get(cause) ?? -1] ?? 0
          if (rulebook === 0) return []
          const weight = rulebookWorth.cure + tally.of
          return [
            { fix, cause, rulebook, shop: afterTally(rulebook, rulebookWorth.cure, tally), ...tally, weight },
          ]
        }),
      ),
    }
  })
}

/** What services took for each tool, as far as anybody wrote it down. */
async function costsOf(hand: AtHand) {
  const [tools, ties] = await Promise.all([hand.tools.list(), hand.tools.ties()])
  const paid = new Map<string, number>()
  for (const [caseId, toolId] of ties) {
    const bench = await hand.cases.get(caseId).catch(() => null)
    const spent = bench ? (pastCase(bench).service?.paid ?? 0) : 0
    paid.set(toolId, (paid.get(toolId) ?? 0) + spent)
  }
  return tools.map((tool) => ({ tool, paid: paid.get(tool.id) ?? 0 }))
}
