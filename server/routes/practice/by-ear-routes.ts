import type { Request } from 'express'
import { Router } from 'express'
import { byEarPage, signNamed } from '../../pages/practice/by-ear-page.js'
import { learnerAsked } from '../../pages/practice/lesson-ending.js'
import { renderPage } from '../../pages/render.js'
import { soundingKinds } from '../../practice/by-ear.js'
import { asWav, madeSound, plateFor } from '../../practice/made-sound.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { noSuchLesson } from './lesson-routes.js'

const at = '/practice/lessons/by-ear'
/** Sounds are numbered; who comes on another day begins with others. */
const mostSounds = 1_000_000
const dayMs = 86_400_000
const aDay = 97

/** The lesson by ear and its sounds, which are made when they are asked for. */
export function practiceByEarRoutes(deps: Deps): Router {
  const router = Router()

  router.get(at, (req, res) => {
    const { knowledge, now } = atHand(deps, req)
    const today = (Math.floor(now().getTime() / dayMs) * aDay) % mostSounds
    const page = byEarPage(knowledge, {
      kind: textIn(req, 'kind'),
      say: textIn(req, 'say'),
      number: wholeIn(req, 'n') ?? today,
      heard: wholeIn(req, 'heard') ?? 0,
      right: Math.min(wholeIn(req, 'right') ?? 0, wholeIn(req, 'heard') ?? 0),
      learner: learnerAsked(req.query),
    })
    if (!page) throw noSuchLesson()
    renderPage(res, 'practice/by-ear', page)
  })

  router.get(`${at}/:kind/:number/:which.wav`, (req, res) => {
    const { knowledge, shop } = atHand(deps, req)
    const { kind: id, number: digits, which } = req.params
    const kind = soundingKinds(knowledge).find((it) => it.id === id)
    const number = whole(digits)
    const sign = number === undefined ? undefined : signNamed(knowledge, id, number, which)
    if (!kind || number === undefined || sign === undefined) throw noSuchLesson()
    // the twin has the plate of the one beside it
    const beside = signNamed(knowledge, id, number, 'this') ?? null
    const mains = shop.record.figures.mains === '60' ? 60 : 50
    const wav = asWav(madeSound(kind, plateFor(sign ?? beside) ?? mains, number, sign))
    res.type('audio/wav').set('Cache-Control', 'private, max-age=3600').send(Buffer.from(wav))
  })
  return router
}

const whole = (text: string): number | undefined => (/^\d{1,6}$/.test(text) ? Number(text) : undefined)
const textIn = ({ query }: Request, name: string): string => {
  const it = query[name]
  return typeof it === 'string' ? it : ''
}
const wholeIn = (req: Request, name: string): number | undefined => whole(textIn(req, name))
