import type { Request, Response } from 'express'
import { Router } from 'express'
import { z } from 'zod'
import { Id } from '../../../shared/ids.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { BadRequest } from '../../errors.js'
import { carriedFrom, carriedOn } from '../../pages/practice/lesson-name.js'
import { exerciseHref } from '../../pages/practice/bench-page.js'
import type { Wish } from '../../practice/begin.js'
import { beginAgain, beginExercise, beginSet, besideOf } from '../../practice-bench/begin-exercise.js'
import { asLearner } from '../../register/who-may.js'
import { sentFrom } from '../../forms/sent.js'
import { practiceBenchRoutes } from './bench-routes.js'
import { isRefused } from './refusal.js'

const Key = z.string().regex(/^[a-z0-9-]{4,40}$/, 'names nobody and nothing that was set here')
const Asked = z.object({
  learner: z.union([Key, z.literal('')]).default(''),
  set: z.union([Key, z.literal('')]).default(''),
  same: z.union([Key, z.literal('')]).default(''),
  with: z.union([Key, z.literal('')]).default(''),
  next: z.enum(['yes', '']).default(''),
  guided: z.enum(['yes', '']).default(''),
  lesson: z.string().max(200).default(''),
  level: z.union([Id, z.literal('')]).default(''),
  kind: z.union([Id, z.literal('')]).default(''),
})

/** Beginning an exercise; its bench is in `practice-bench-routes.ts`. */
export function practiceExerciseRoutes(deps: Deps): Router {
  const router = Router()

  router.post('/practice/exercises', async (req: Request, res: Response) => {
    const hand = atHand(deps, req)
    const sent = sentFrom(req.body)
    const read = Asked.safeParse(sent)
    if (!read.success) throw badField(read.error)
    const asked = read.data
    if (asked.learner === '')
      return res.redirect(303, `/practice${carriedOn(carriedFrom(hand.knowledge, sent))}`)
    const learner = await hand.register.learner(asked.learner)
    const own = { learner: learner.id, over: false }
    const words = 'Only the learner begins an exercise of theirs.'
    if (isRefused(res, asLearner(learner), { to: 'make moves', of: own }, words)) return
    const beside = await besideOf(hand, learner, asked.with)
    const { id } =
      asked.same !== ''
        ? await beginAgain(hand, learner, asked.same)
        : asked.set === ''
          ? await beginExercise(hand, learner, wishOf(asked), beside)
          : await beginSet(hand, learner, asked.set, beside)
    res.redirect(303, exerciseHref(id))
  })

  router.use(practiceBenchRoutes(deps))
  return router
}

function badField({ issues: [issue] }: z.ZodError): BadRequest {
  const field = String(issue?.path[0] ?? '')
  return new BadRequest(
    'This form names something that is not here; go back to Practice and choose from its lists.',
    {
      field,
      status: 422,
    },
  )
}

function wishOf({ next, guided, lesson, level, kind }: z.infer<typeof Asked>): Wish {
  if (lesson !== '') return { by: 'lesson', lesson, kind }
  if (level === '')
    throw new BadRequest('Say what to practise: a level, a lesson, or what was set for the class.', {
      field: 'level',
      status: 422,
    })
  const by = guided === 'yes' ? 'guided' : next === 'yes' ? 'next' : 'level'
  return { by, level, kind }
}
