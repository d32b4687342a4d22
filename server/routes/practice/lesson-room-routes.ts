import type { Request } from 'express'
import { Router } from 'express'
import type { Lesson } from '../../../shared/practice.js'
import { BadRequest, StaleForm } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { chosenFirst } from '../../forms/set-form.js'
import { sentFrom } from '../../forms/sent.js'
import { lessonRoomPage } from '../../pages/practice/lesson-room-page.js'
import { wallPage } from '../../pages/practice/wall-page.js'
import { renderPage } from '../../pages/render.js'
import { firstHeard } from '../../practice/first-heard.js'
import { goesOn, roundOf } from '../../practice/lesson-round.js'
import { isHushed, setFor } from '../../practice/hushed.js'
import { layOut } from '../../practice/desk.js'
import { hushedIn } from '../../practice-bench/set-of.js'
import { doorOf } from '../../practice-bench/join-class.js'
import { nextPart, startLesson } from '../../practice-bench/lesson.js'
import { asInstructor } from '../../register/who-may.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { isRefused } from './refusal.js'

/** Seconds after which a page that shows what goes on asks again. */
const freshAfter = '5'

/** A lesson: the instructor's page, and the one for the wall. */
export function practiceLessonRoomRoutes(deps: Deps): Router {
  const router = Router()
  const at = '/practice/classes/:id'
  const mine = 'A lesson is led by the instructor of the class.'

  router.get(`${at}/lesson`, async (req, res) => {
    const hand = atHand(deps, req)
    const room = await roomOf(hand, req.params.id)
    if (isRefused(res, asInstructor(room.ofClass.id), { to: 'set an exercise', of: room.ofClass.id }, mine))
      return
    res.set('Cache-Control', 'no-store')
    const { prepared } = hand
    const coming = goesOn(room.lesson) ? await comingIn(prepared, room.lesson) : []
    const page = lessonRoomPage({ ...room, coming, origin: originOf(req) })
    if (page.on) res.set('Refresh', freshAfter)
    renderPage(res, 'practice/lesson-room', page)
  })

  router.post(`${at}/lesson`, async (req, res) => {
    const hand = atHand(deps, req)
    const room = await roomOf(hand, req.params.id)
    if (isRefused(res, asInstructor(room.ofClass.id), { to: 'set an exercise', of: room.ofClass.id }, mine))
      return
    const sent = sentFrom(req.body)
    const { lesson } = room
    if (textOf(sent, 'do') === 'start') {
      const chosen = chosenFirst(hand.knowledge, sent)
      if (!chosen.ok || typeof chosen.kind === 'string')
        throw new BadRequest(
          chosen.ok
            ? 'Choose one kind of tool for the lesson.'
            : chosen.problems.map(({ message }) => message).join('. '),
          { field: 'kind', status: 422 },
        )
      // a second press of the button shows what the first one started
      if (!goesOn(lesson))
        await startLesson(hand, room.ofClass.id, { level: chosen.level.id, kind: chosen.kind.id })
    } else if (lesson) {
      await nextPart(hand, lesson, Number(textOf(sent, 'seen'))).catch((error: unknown) => {
        if (!(error instanceof StaleForm)) throw error
      })
    }
    res.redirect(303, `/practice/classes/${room.ofClass.id}/lesson`)
  })

  router.get(`${at}/wall`, async (req, res) => {
    const hand = atHand(deps, req)
    const room = await roomOf(hand, req.params.id)
    if (isRefused(res, asInstructor(room.ofClass.id), { to: 'see a class', of: room.ofClass.id }, mine))
      return
    const { lesson } = room
    const sets = await hand.register.setExercises(room.ofClass.id)
    // while a lesson goes on, its own tool, and before that is out nothing of an earlier one
    const set = goesOn(lesson) ? sets.find(({ id }) => id === roundOf(lesson)) : sets[0]
    const round = set && (await laidOut(hand, set, room))
    res.set('Refresh', freshAfter).set('Cache-Control', 'no-store')
    const names = req.query['names'] === 'yes'
    renderPage(
      res,
      'practice/wall',
      wallPage({
        ...room,
        origin: originOf(req),
        coming: goesOn(lesson) ? await comingIn(hand.prepared, lesson) : [],
        round: round ?? null,
        names,
      }),
    )
  })
  return router
}

const originOf = (req: Request): string => `${req.protocol}://${req.get('host') ?? 'localhost'}`

/** What is complained of, of the tool that the brief is about; nothing once it is given out. */
async function comingIn(prepared: AtHand['prepared'], lesson: Lesson): Promise<readonly string[]> {
  const { kind, level, comes } = lesson
  if (!comes || roundOf(lesson) !== undefined) return []
  const heard = await firstHeard(prepared, { kind, level, ...comes })
  return heard.ok ? heard.complaint : []
}

type Room = Awaited<ReturnType<typeof roomOf>>

/** @throws NotFound */
async function roomOf(hand: AtHand, id: string) {
  const { register, knowledge, now } = hand
  const ofClass = await register.classOf(id)
  const [door, hushed, lesson, learners, exercises] = await Promise.all([
    doorOf(hand, id),
    hushedIn(register, id),
    register.latestLesson(id),
    register.learners(id),
    register.exercises({ class: id }),
  ])
  return { knowledge, ofClass, door, hushed, lesson, learners, exercises, now: now().toISOString() }
}

/** The tool that was set last, laid out; undefined where the rulebook no longer has its kind or level. */
async function laidOut(
  { prepared, register }: AtHand,
  { id, kind, level, seed, setting, setAt }: Awaited<ReturnType<AtHand['register']['setExercise']>>,
  { learners, exercises }: Room,
) {
  const blank = {
    id,
    learner: 'nobody',
    kind,
    level,
    seed,
    setting,
    begunAt: setAt,
    changedAt: setAt,
    moves: [],
  }
  const desk = await layOut(prepared, blank).catch((error: unknown) => {
    if (error instanceof RangeError) return undefined
    throw error
  })
  if (!desk) return undefined
  const set = await register.setExercise(id)
  return {
    desk,
    complaint: setting.complaint === undefined ? desk.heard : [setting.complaint],
    tries: exercises.filter(({ setAs }) => setAs === id),
    of: setFor(set, learners, exercises).length,
    hushed: isHushed(set, learners, exercises),
  }
}
