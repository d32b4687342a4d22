import type { Request } from 'express'
import { Router } from 'express'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { textOf } from '../../forms/answer-form.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { anyKind, chosenFirst, settingFrom, unfit } from '../../forms/set-form.js'
import { setFirstPage, setRestPage } from '../../pages/practice/set-page.js'
import { renderPage } from '../../pages/render.js'
import { kindFor } from '../../practice/drawn.js'
import { closeSet, removeSet, setForClass } from '../../practice-bench/set-exercise.js'
import { firstHeard } from '../../practice/first-heard.js'
import { asInstructor } from '../../register/who-may.js'
import { sentFrom } from '../../forms/sent.js'
import { isRefused } from './refusal.js'

/** An exercise set for a whole class. */
export function practiceSetRoutes(deps: Deps): Router {
  const router = Router()
  const at = '/practice/classes/:id/set'
  const mine = 'Only the instructor of the class sets exercises.'

  router.get(at, async (req, res) => {
    const { register, knowledge, prepared, newSeed } = atHand(deps, req)
    const ofClass = await register.classOf(req.params.id)
    if (isRefused(res, asInstructor(ofClass.id), { to: 'set an exercise', of: ofClass.id }, mine)) return
    const sent = asked(req)
    const isFresh = sent['level'] === undefined && sent['kind'] === undefined
    if (isFresh || sent['change'] === 'yes')
      return renderPage(res, 'practice/set', setFirstPage(knowledge, ofClass, sent))
    const chosen = chosenFirst(knowledge, sent)
    if (!chosen.ok) {
      const page = setFirstPage(knowledge, ofClass, sent, chosen.problems)
      return renderPage(res.status(422), 'practice/set', page)
    }
    const { level, kind } = chosen
    const seed = textOf(sent, 'seed') || String(newSeed())
    if (kind === anyKind) {
      const drawn = kindFor(knowledge, level, newSeed())
      const query = new URLSearchParams({ level: level.id, kind: drawn, seed })
      return res.redirect(303, `/practice/classes/${ofClass.id}/set?${query.toString()}`)
    }
    const filled = { ...sent, seed }
    const about = { level, kind }
    const read = settingFrom(knowledge, kind.id, filled)
    if (!read.ok) {
      const page = setRestPage(knowledge, ofClass, about, filled, null, read.problems)
      return renderPage(res.status(422), 'practice/set', page)
    }
    const heard = await firstHeard(prepared, { kind: kind.id, level: level.id, ...read })
    const shown = heard.ok ? { own: read.setting.complaint ?? null, drawn: heard.complaint } : null
    renderPage(res, 'practice/set', setRestPage(knowledge, ofClass, about, filled, shown))
  })

  router.post(at, async (req, res) => {
    const hand = atHand(deps, req)
    const { register, knowledge, prepared } = hand
    const ofClass = await register.classOf(req.params.id)
    if (isRefused(res, asInstructor(ofClass.id), { to: 'set an exercise', of: ofClass.id }, mine)) return
    const sent = sentFrom(req.body)
    const chosen = chosenFirst(knowledge, sent)
    if (!chosen.ok || chosen.kind === anyKind) {
      const page = setFirstPage(knowledge, ofClass, sent, chosen.ok ? [] : chosen.problems)
      return renderPage(res.status(422), 'practice/set', page)
    }
    const { level, kind } = chosen
    const about = { level, kind }
    const wrong = (problems: readonly Problem[]) =>
      renderPage(
        res.status(422),
        'practice/set',
        setRestPage(knowledge, ofClass, about, sent, null, problems),
      )
    const read = settingFrom(knowledge, kind.id, sent)
    if (!read.ok) return wrong(read.problems)
    const tool = { kind: kind.id, level: level.id, seed: read.seed, setting: read.setting }
    if (textOf(sent, 'do') !== 'set') {
      const heard = await firstHeard(prepared, tool)
      if (!heard.ok) return wrong([unfit(heard.because, sent)])
      const shown = { own: tool.setting.complaint ?? null, drawn: heard.complaint }
      return renderPage(res, 'practice/set', setRestPage(knowledge, ofClass, about, sent, shown))
    }
    const made = await setForClass(hand, ofClass.id, tool)
    if (!made.ok) return wrong([unfit(made.because, sent)])
    // to the top of the page, where the notice stands
    res.redirect(303, `/practice/classes/${ofClass.id}?done=set`)
  })
  router.post(`${at}/:set/close`, async (req, res) => {
    const hand = atHand(deps, req)
    const ofClass = await hand.register.classOf(req.params.id)
    if (isRefused(res, asInstructor(ofClass.id), { to: 'set an exercise', of: ofClass.id }, mine)) return
    const set = await closeSet(hand, ofClass.id, req.params.set)
    res.redirect(303, `/practice/classes/${ofClass.id}#set-${set.id}`)
  })
  router.post(`${at}/:set/remove`, async (req, res) => {
    const { register } = atHand(deps, req)
    const ofClass = await register.classOf(req.params.id)
    if (isRefused(res, asInstructor(ofClass.id), { to: 'set an exercise', of: ofClass.id }, mine)) return
    await removeSet(atHand(deps, req), ofClass.id, req.params.set)
    res.redirect(303, `/practice/classes/${ofClass.id}?done=set-removed`)
  })
  return router
}

/** What the address asks, as a form would send it. */
const asked = (req: Request): Sent => req.query
