import type { Request, Response } from 'express'
import { Router } from 'express'
import { BadRequest } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import { passStays } from '../../middleware/door.js'
import { giveKey, passName } from '../../middleware/session-cookie.js'
import { tidyName } from '../../pages/practice/door-page.js'
import { joinPage } from '../../pages/practice/join-page.js'
import { homeOf } from '../../pages/practice/learner-home.js'
import { renderPage } from '../../pages/render.js'
import { newKey } from '../../people/link-code.js'
import { countTries } from '../../people/tries.js'
import { joinClass } from '../../practice-bench/join-class.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'

/** A phone joins a class by the word and the number on the wall. Numbers tried in vain take longer and longer. */
export function practiceJoinRoutes(deps: Deps): Router {
  const router = Router()
  const tries = countTries()
  /** one after the other: twenty phones behind one address are no attack, and of many guesses each is counted */
  let before: Promise<unknown> = Promise.resolve()
  router.get('/join', (req, res) => renderPage(res, 'practice/join', joinPage(req.query)))
  router.post('/join', (req, res) => {
    const mine = before.then(() => join(req, res))
    before = mine.catch(() => undefined)
    return mine
  })
  const join = async (req: Request, res: Response): Promise<void> => {
    const sent = sentFrom(req.body)
    const again = (status: number, field: string, message: string): void =>
      renderPage(res.status(status), 'practice/join', joinPage(sent, [{ field, message }]))
    const from = [`from ${req.ip}`]
    const at = deps.now().getTime()
    const wait = tries.wait(from, at)
    if (wait > 0) {
      res.set('Retry-After', String(Math.ceil(wait / 1000)))
      return again(429, 'pin', `Too many tries. Wait ${Math.ceil(wait / 60_000)} min, then try again.`)
    }
    try {
      const { learner, beside } = await joinClass(atHand(deps, req), {
        word: textOf(sent, 'word'),
        pin: textOf(sent, 'pin'),
        names: [tidyName(textOf(sent, 'name')), tidyName(textOf(sent, 'beside'))],
      })
      tries.worked(from)
      if (deps.people) {
        const key = newKey()
        const ids = [learner, ...(beside ? [beside] : [])].map(({ id }) => id)
        const [now, until] = [at, at + passStays].map((it) => new Date(it).toISOString())
        await deps.people.givePass(key, ids, now!, until!)
        giveKey(req, res, passName, key, { stays: passStays })
      }
      res.redirect(303, homeOf(learner.id, beside?.id))
    } catch (error) {
      if (!(error instanceof BadRequest) || error.status !== 422) throw error
      // a name is asked for only once word and number were right
      if (error.field !== 'name') tries.failed(from, at)
      again(422, error.field ?? 'word', error.message)
    }
  }
  return router
}
