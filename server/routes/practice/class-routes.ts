import type { Request, Response } from 'express'
import { Router } from 'express'
import { withIdsOfToday } from '../../../shared/ids-of-today.js'
import { ExerciseHead, SetExercise } from '../../../shared/practice.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { BadRequest } from '../../errors.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { mostWritten } from '../../pages/layout/written-words.js'
import { classListPage } from '../../pages/practice/class-list-page.js'
import { classPage } from '../../pages/practice/class-page.js'
import { nameProblem, noticeOf } from '../../pages/practice/class-people.js'
import type { ClassWork } from '../../pages/practice/class-work.js'
import { tellable } from '../../pages/practice/class-work.js'
import { tidyName } from '../../pages/practice/door-page.js'
import { resultsCsv } from '../../pages/practice/results-csv.js'
import { renderPage } from '../../pages/render.js'
import { resultsOf } from '../../practice/kept-results.js'
import { asInstructor } from '../../register/who-may.js'
import { sentFrom } from '../../forms/sent.js'
import { isRefused } from './refusal.js'

/** The instructor's pages: classes, one class with its people and results, the results as a table. */
export function practiceClassRoutes(deps: Deps): Router {
  const router = Router()
  const at = '/practice/classes'
  const gone = () => deps.written.removed('class', mostWritten)

  router.get(at, async (req, res) => {
    renderPage(res, 'practice/classes', classListPage(await classesOf(atHand(deps, req)), await gone()))
  })

  router.post(at, async (req, res) => {
    const hand = atHand(deps, req)
    const value = tidyName(textOf(sentFrom(req.body), 'name'))
    const made = await kept('name', value, () =>
      hand.register.addClass({ name: value, at: hand.now().toISOString() }),
    )
    if (made.ok) return res.redirect(303, `${at}/${made.of.id}`)
    const page = classListPage(await classesOf(hand), await gone(), { value, problems: made.problems })
    renderPage(res.status(422), 'practice/classes', page)
  })

  router.get(`${at}/:id`, async (req, res) => {
    const hand = atHand(deps, req)
    const work = await workOf(hand, req.params.id)
    if (refusedClass(res, work)) return
    await showClass(deps, hand, req, res, work)
  })

  router.get(`${at}/:id/results.csv`, async (req, res) => {
    const hand = atHand(deps, req)
    const work = await workOf(hand, req.params.id)
    if (refusedClass(res, work)) return
    const { results } = tellable(work, asksAll(req))
    res.attachment(`results-${hand.now().toISOString().slice(0, 10)}.csv`)
    res.type('text/csv; charset=utf-8; header=present').send(resultsCsv(work, results))
  })

  router.post(`${at}/:id/remove`, async (req, res) => {
    const hand = atHand(deps, req)
    const work = await workOf(hand, req.params.id)
    if (refusedClass(res, work)) return
    await hand.register.removeClass(work.ofClass.id)
    res.redirect(303, at)
  })

  router.post(`${at}/:id/people`, async (req, res) => {
    const hand = atHand(deps, req)
    const work = await workOf(hand, req.params.id)
    if (refusedClass(res, work)) return
    const sent = sentFrom(req.body)
    const home = `${at}/${work.ofClass.id}`
    if (sent['learner'] === undefined) {
      const name = tidyName(textOf(sent, 'add'))
      const made = await kept('add', name, () =>
        hand.register.addLearner({ name, class: work.ofClass.id, at: hand.now().toISOString() }),
      )
      return made.ok
        ? res.redirect(303, `${home}?done=added#people`)
        : showClass(deps, hand, req, res, work, { sent, problems: made.problems })
    }
    const learner = await hand.register.learner(textOf(sent, 'learner'))
    const why = `${learner.name} is not in ${work.ofClass.name}, so nothing was changed.`
    if (isRefused(res, asInstructor(work.ofClass.id), { to: 'see a class', of: learner.class }, why)) return
    const name = tidyName(textOf(sent, 'name'))
    const to = textOf(sent, 'class')
    const changed = await kept(`name-${learner.id}`, name, () =>
      hand.register.changeLearner(learner.id, { name, class: to === '' ? learner.class : to }),
    )
    if (!changed.ok) return showClass(deps, hand, req, res, work, { sent, problems: changed.problems })
    const moved = changed.of.class !== learner.class
    res.redirect(303, `${home}?done=${moved ? 'moved' : 'renamed'}#people`)
  })
  return router
}

async function showClass(
  { written }: Deps,
  { register, now }: AtHand,
  req: Request,
  res: Response,
  work: ClassWork,
  refused?: { sent: Sent; problems: readonly Problem[] },
): Promise<void> {
  const page = classPage(work, {
    origin: `${req.protocol}://${req.get('host') ?? 'localhost'}`,
    classes: await register.classes(),
    all: asksAll(req),
    now: now().toISOString(),
    notice: noticeOf(req.query['done']),
    written: await written.about('class', work.ofClass.id, mostWritten),
    ...(refused ? { refused } : {}),
  })
  renderPage(res.status(refused ? 422 : 200), 'practice/class', page)
}

const asksAll = (req: Request): boolean => req.query['all'] === 'yes'

const refusedClass = (res: Response, { ofClass }: ClassWork): boolean =>
  isRefused(
    res,
    asInstructor(ofClass.id),
    { to: 'see a class', of: ofClass.id },
    'This page is for the instructor of the class.',
  )

/** All that a class has done, in the ids of today's rulebook. @throws NotFound */
async function workOf({ register, knowledge }: AtHand, id: string): Promise<ClassWork> {
  const ofClass = await register.classOf(id)
  const [learners, exercises, sets] = await Promise.all([
    register.learners(id),
    register.exercises({ class: id }),
    register.setExercises(id),
  ])
  const { moved } = knowledge
  return {
    knowledge,
    ofClass,
    learners,
    exercises: exercises.map((it) => withIdsOfToday(ExerciseHead, it, moved)),
    sets: sets.map((it) => withIdsOfToday(SetExercise, it, moved)),
    results: resultsOf(exercises, moved),
  }
}

async function classesOf({ register }: AtHand) {
  const classes = await register.classes()
  return Promise.all(
    classes.map(async (it) => ({
      ...it,
      people: (await register.learners(it.id)).length,
      sets: (await register.setExercises(it.id)).length,
    })),
  )
}

/** What the register made of a name, or why it did not, at the field that holds the name. */
async function kept<Of>(
  field: string,
  name: string,
  keep: () => Promise<Of>,
): Promise<{ ok: true; of: Of } | { ok: false; problems: readonly Problem[] }> {
  const problem = nameProblem(field, name)
  if (problem) return { ok: false, problems: [problem] }
  try {
    return { ok: true, of: await keep() }
  } catch (error) {
    if (!(error instanceof BadRequest) || error.status !== 422) throw error
    return { ok: false, problems: [{ field, message: error.message }] }
  }
}
