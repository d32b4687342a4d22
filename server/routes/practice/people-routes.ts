import type { Request, Response } from 'express'
import { Router } from 'express'
import type { Learner, PracticeClass } from '../../../shared/practice.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { BadRequest } from '../../errors.js'
import type { Problem } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { Newcomer } from '../../pages/practice/door-page.js'
import { doorPage, firstClass, newcomerProblems, tidyName } from '../../pages/practice/door-page.js'
import { learnerPage } from '../../pages/practice/learner-page.js'
import { carriedFrom, carriedOn } from '../../pages/practice/lesson-name.js'
import { recordPage } from '../../pages/practice/record-page.js'
import { renderPage } from '../../pages/render.js'
import { anybody, asLearner } from '../../register/who-may.js'
import { sentFrom } from '../../forms/sent.js'
import { setOf } from '../../practice/hushed.js'
import { minutesEach } from '../../practice-bench/minutes-each.js'
import { hushedIn } from '../../practice-bench/set-of.js'
import { isRefused } from './refusal.js'

/** Who practises; a learner's own start; and what they know. */
export function practicePeopleRoutes(deps: Deps): Router {
  const router = Router()

  router.get('/practice', async (req, res) => {
    const hand = atHand(deps, req)
    if (isRefused(res, anybody, { to: 'choose who practises' }, 'Who practises here is not for you to see.'))
      return
    renderPage(res, 'practice/door', doorPage(hand.knowledge, await everybody(hand), carriedOf(hand, req)))
  })

  router.post('/practice/people', async (req, res) => {
    const hand = atHand(deps, req)
    const sent = sentFrom(req.body)
    const newcomer = { name: textOf(sent, 'name'), class: textOf(sent, 'class') }
    const carried = carriedFrom(hand.knowledge, sent)
    const there = await everybody(hand)
    const made = await addedTo(hand, newcomer, there.classes)
    if ('problems' in made)
      return renderPage(
        res.status(422),
        'practice/door',
        doorPage(hand.knowledge, there, carried, newcomer, made.problems),
      )
    res.redirect(303, `/practice/people/${made.id}${carriedOn(carried)}`)
  })

  router.get('/practice/people/:id', (req, res) =>
    shownTo(deps, req, res, async (hand, learner) => {
      const { knowledge, register } = hand
      const [ofClass, exercises, set, classmates] = await Promise.all([
        register.classOf(learner.class),
        register.exercises({ learner: learner.id }),
        register.setExercises(learner.class),
        register.learners(learner.class),
      ])
      const other = textOf(req.query, 'with')
      const beside = classmates.find(({ id }) => id === other && id !== learner.id)
      const now = hand.now().toISOString()
      const hushed = await hushedIn(register, learner.class)
      const page = learnerPage(
        {
          knowledge,
          learner,
          beside,
          ofClass,
          exercises,
          set,
          minutesEach: minutesEach(exercises),
          hushed,
          now,
        },
        carriedOf(hand, req),
      )
      renderPage(res, 'practice/learner', page)
    }),
  )

  router.get('/practice/people/:id/record', (req, res) =>
    shownTo(deps, req, res, async (hand, learner) => {
      const { knowledge, register } = hand
      const [ofClass, exercises] = await Promise.all([
        register.classOf(learner.class),
        register.exercises({ learner: learner.id }),
      ])
      const now = hand.now().toISOString()
      const hushed = await hushedIn(register, learner.class)
      const told = exercises.filter((it) => !hushed.has(setOf(it) ?? ''))
      renderPage(res, 'practice/record', recordPage({ knowledge, learner, ofClass, exercises: told, now }))
    }),
  )
  return router
}

/** A page of one learner, after the one question who may see it. @throws NotFound */
async function shownTo(
  deps: Deps,
  req: Request,
  res: Response,
  show: (hand: AtHand, learner: Learner) => Promise<void>,
): Promise<void> {
  const hand = atHand(deps, req)
  const learner = await hand.register.learner(String(req.params['id']))
  const words = 'What somebody knows is for them and their instructor.'
  if (isRefused(res, asLearner(learner), { to: 'see a record', of: learner }, words)) return
  await show(hand, learner)
}

const carriedOf = ({ knowledge }: AtHand, req: Request) => carriedFrom(knowledge, req.query)

async function everybody({ register }: AtHand) {
  const [classes, learners] = await Promise.all([register.classes(), register.learners()])
  return { classes, learners }
}

/** Puts somebody down; a mistake is a value. */
async function addedTo(
  hand: AtHand,
  newcomer: Newcomer,
  classes: readonly PracticeClass[],
): Promise<Learner | { readonly problems: readonly Problem[] }> {
  const problems = newcomerProblems(newcomer, classes)
  if (problems.length > 0) return { problems }
  const at = hand.now().toISOString()
  try {
    const inClass = newcomer.class === '' ? (classes[0] ?? (await madeFirst(hand, at))).id : newcomer.class
    return await hand.register.addLearner({ name: tidyName(newcomer.name), class: inClass, at })
  } catch (error) {
    if (!(error instanceof BadRequest) || error.field !== 'name') throw error
    return { problems: [{ field: 'name', message: error.message }] }
  }
}

/** The first class of a shop that has none; of two newcomers in the same moment one finds the other's. */
async function madeFirst({ register }: AtHand, at: string): Promise<PracticeClass> {
  try {
    return await register.addClass({ name: firstClass, at })
  } catch (error) {
    const [made] = await register.classes()
    if (!made) throw error
    return made
  }
}
