import { Router } from 'express'
import type { Request, RequestHandler } from 'express'
import type { Exercise, Learner } from '../../shared/practice.js'
import type { PersonBook } from '../people/person-book.js'
import type { WrittenLog } from '../people/written-log.js'
import { mayPractiseAs } from '../register/who-may.js'
import { NotAllowed, whoAsks } from './door.js'
import { keyIn, passName } from './session-cookie.js'

interface Kept {
  readonly people: Pick<PersonBook, 'passOf'>
  readonly written: Pick<WrittenLog, 'isBy'>
  readonly register: {
    learner(id: string): Promise<Learner>
    exercise(id: string): Promise<Exercise>
  }
  readonly now: () => Date
}

/**
 * Behind the door: a learner who signed in gets their own practice, and nobody else's. Stands after the parser of
 * forms, because one of them names a learner.
 */
export function ownPractice({ people, written, register, now }: Kept): RequestHandler {
  async function isOwn(req: Request, id: string): Promise<boolean> {
    const person = whoAsks(req)
    if (person?.role !== 'learner') return true
    const pass = keyIn(req, passName)
    const onPhone = pass === null ? undefined : await people.passOf(pass, now().toISOString())
    return mayPractiseAs(person, await register.learner(id), {
      joined: onPhone?.includes(id) ?? false,
      putDown: await written.isBy(person.id, 'class', `joined ${id}`),
    })
  }
  /** @param ids of the learners whose it is: one of them is enough */
  async function own(req: Request, ids: readonly string[]): Promise<void> {
    for (const id of ids) if (await isOwn(req, id)) return
    throw new NotAllowed('What somebody practises is for them and who teaches them. Nothing was changed.')
  }

  const router = Router()
  router.use(['/practice/people/:id', '/practice/learners/:id'], async (req, _res, next) => {
    await own(req, [String(req.params['id'])])
    next()
  })
  router.use('/practice/exercises/:id', async (req, _res, next) => {
    if (whoAsks(req)?.role !== 'learner') return next()
    const { learner, setting } = await register.exercise(String(req.params['id']))
    await own(req, [learner, ...(setting.with === undefined ? [] : [setting.with])])
    next()
  })
  router.post('/practice/exercises', async (req, _res, next) => {
    const { learner } = (req.body ?? {}) as Record<string, unknown>
    if (typeof learner === 'string' && learner !== '') await own(req, [learner])
    next()
  })
  return router
}
