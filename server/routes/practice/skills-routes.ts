import { Router } from 'express'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { textOf } from '../../forms/answer-form.js'
import { signedBy, signedWords, skillsPage } from '../../pages/practice/skills-page.js'
import { renderPage } from '../../pages/render.js'
import { kindsOf } from '../../practice/level-book.js'
import { setOf } from '../../practice/hushed.js'
import { signableOf, withSignedByHand } from '../../practice/signable.js'
import { skillsSheet } from '../../practice/skills.js'
import { hushedIn } from '../../practice-bench/set-of.js'
import { asInstructor, asLearner } from '../../register/who-may.js'
import type { Learner } from '../../../shared/practice.js'
import { sentFrom } from '../../forms/sent.js'
import { whoAsks } from '../../middleware/door.js'
import { isRefused } from './refusal.js'

/** The sheet of skills: read by the learner, signed by the instructor. */
export function practiceSkillsRoutes(deps: Deps): Router {
  const router = Router()

  router.get('/practice/people/:learner/skills', async (req, res) => {
    const hand = atHand(deps, req)
    const learner = await hand.register.learner(req.params.learner)
    const why = 'This sheet belongs to somebody else.'
    if (isRefused(res, asLearner(learner), { to: 'see a record', of: learner }, why)) return
    renderPage(res, 'practice/skills', skillsPage(await sheetOf(hand, learner), null))
  })

  const at = '/practice/classes/:id/people/:learner/skills'
  router.get(at, async (req, res) => {
    const hand = atHand(deps, req)
    const ofClass = await hand.register.classOf(req.params.id)
    const learner = await hand.register.learner(req.params.learner)
    const why = `${learner.name} is not in ${ofClass.name}.`
    if (isRefused(res, asInstructor(ofClass.id), { to: 'sign off', of: learner }, why)) return
    const sheet = await sheetOf(hand, learner)
    const you = whoAsks(req)
    const by = you?.name ?? (await lastHand(hand, learner))
    const sign = { action: req.path, by, known: you !== null, problem: null }
    const count = Number(req.query['signed'])
    const notice =
      Number.isInteger(count) && count > 0 && count < 1000
        ? signedWords(count)
        : req.query['struck'] === 'yes'
          ? 'Struck out.'
          : null
    renderPage(res, 'practice/skills', skillsPage(sheet, sign, { notice }))
  })

  router.post(at, async (req, res) => {
    const hand = atHand(deps, req)
    const ofClass = await hand.register.classOf(req.params.id)
    const learner = await hand.register.learner(req.params.learner)
    const why = `${learner.name} is not in ${ofClass.name}, so nothing was signed.`
    if (isRefused(res, asInstructor(ofClass.id), { to: 'sign off', of: learner }, why)) return
    const you = whoAsks(req)
    // who is signed in signs with their own name, whatever was sent
    const sent = { ...sentFrom(req.body), ...(you && { by: you.name }) }
    const strike = textOf(sent, 'strike')
    if (strike !== '') {
      await hand.register.strikeSignature(learner.id, strike)
      return res.redirect(303, `${req.path}?struck=yes`)
    }
    const sheet = await sheetOf(hand, learner)
    const read = signedBy(sent, new Set([...sheet.signable, ...sheet.rows].map(({ key }) => key)))
    if (!read.ok) {
      const problem = read.problems.find(({ field }) => field === 'by')?.message ?? null
      const sign = { action: req.path, by: textOf(sent, 'by'), known: you !== null, problem }
      const page = skillsPage(sheet, sign, { sent, problems: read.problems })
      return renderPage(res.status(422), 'practice/skills', page)
    }
    const signedAt = hand.now().toISOString()
    await hand.register.signOff(
      ...read.keys.map((skill) => ({ learner: learner.id, skill, by: read.by, at: signedAt })),
    )
    res.redirect(303, `${req.path}?signed=${read.keys.length}`)
  })
  return router
}

async function sheetOf({ register, knowledge, now }: AtHand, learner: Learner) {
  const [ofClass, own, ofAll, sets, signed] = await Promise.all([
    register.classOf(learner.class),
    register.exercises({ learner: learner.id }),
    register.exercises({ class: learner.class }),
    register.setExercises(learner.class),
    register.signedOff(learner.id),
  ])
  // what somebody found or fixed would tell the class what is wrong with a tool that others still have before them
  const hushed = await hushedIn(register, learner.class)
  const shown = own.flatMap((it) => {
    if (!it.outcome || it.setting.guided === true) return []
    const tells = hushed.has(setOf(it) ?? '') ? ['found', 'mended'] : []
    return { at: it.changedAt, shown: it.outcome.shown.filter(({ skill }) => !tells.includes(skill)) }
  })
  // the kinds that this class works with, or begins with; the whole rulebook would be too long a sheet
  const used = new Set([...ofAll, ...own, ...sets].map(({ kind }) => kind))
  const easiest = [...knowledge.levels].sort((a, b) => a.order - b.order)[0]
  const kinds = used.size > 0 || !easiest ? [...used] : kindsOf(knowledge, easiest)
  const signable = signableOf(knowledge, kinds)
  return {
    knowledge,
    learner,
    ofClass,
    rows: withSignedByHand(skillsSheet(shown, signed), signed),
    signable,
    now: now(),
  }
}

/** Who signed last in this class: most likely who signs now. */
async function lastHand({ register }: AtHand, learner: Learner): Promise<string> {
  const people = await register.learners(learner.class)
  const all = (await Promise.all(people.map(({ id }) => register.signedOff(id)))).flat()
  return all.sort((a, b) => (a.at < b.at ? 1 : -1))[0]?.by ?? ''
}
