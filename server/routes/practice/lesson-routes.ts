import { Router } from 'express'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { NotFound } from '../../errors.js'
import { confusionLessonPage } from '../../pages/practice/confusion-lesson-page.js'
import { learnerAsked } from '../../pages/practice/lesson-ending.js'
import { lessonsPage } from '../../pages/practice/lessons-page.js'
import { partLessonPage } from '../../pages/practice/part-lesson-page.js'
import { renderPage } from '../../pages/render.js'

/** Short lessons, by part and by what looks the same. They are for everybody: who learns is only carried along. */
export function practiceLessonRoutes(deps: Deps): Router {
  const router = Router()
  const at = '/practice/lessons'

  router.get(at, (req, res) => {
    renderPage(res, 'practice/lessons', lessonsPage(atHand(deps, req).knowledge, learnerAsked(req.query)))
  })

  router.get(`${at}/parts/:kind/:part`, (req, res) => {
    const { kind, part } = req.params
    const page = partLessonPage(atHand(deps, req).knowledge, kind, part, learnerAsked(req.query))
    if (!page) throw noSuchLesson()
    renderPage(res, 'practice/lesson-part', page)
  })

  router.get(`${at}/confusions/:id`, (req, res) => {
    const { kind, say } = req.query
    const page = confusionLessonPage(atHand(deps, req).knowledge, req.params.id, {
      kind: typeof kind === 'string' ? kind : '',
      say: typeof say === 'string' && /^[1-9]$/.test(say) ? Number(say) : undefined,
      learner: learnerAsked(req.query),
    })
    if (!page) throw noSuchLesson()
    renderPage(res, 'practice/lesson-confusion', page)
  })
  return router
}

export const noSuchLesson = () => new NotFound('a lesson of this name; choose one from the list of lessons')
