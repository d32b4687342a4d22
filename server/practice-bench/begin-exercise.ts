import type { Exercise, Learner } from '../../shared/practice.js'
import { BadRequest } from '../errors.js'
import type { Beginning, Wish } from '../practice/begin.js'
import { beginningOf, beginningOfSet } from '../practice/begin.js'
import { harmless } from '../practice/harmless.js'
import { setOf } from '../practice/hushed.js'
import { resultsOf } from '../practice/kept-results.js'
import type { AtHand } from '../wiring/deps.js'

/** An exercise of the learner's own choice, or the one that comes next. @throws BadRequest (422) where there is none */
export async function beginExercise(
  hand: AtHand,
  learner: Learner,
  wish: Wish,
  beside: Beside,
): Promise<Pick<Exercise, 'id'>> {
  const { knowledge, register } = hand
  const at = hand.now().toISOString()
  const results =
    wish.by === 'next' ? resultsOf(await register.exercises({ learner: learner.id }), knowledge.moved) : []
  const beginning = beginningOf(knowledge, wish, { seed: hand.newSeed(), results, now: at })
  if ('words' in beginning) throw new BadRequest(beginning.words, { field: beginning.field, status: 422 })
  const tool = wish.by === 'guided' ? await harmless(hand.prepared, beginning) : beginning
  return register.begin({ learner: learner.id, ...withBeside(tool, beside), at })
}

/** Who is at the same phone; undefined for nobody. */
type Beside = string | undefined

/** @throws BadRequest (422) for somebody of another class; an empty id is nobody */
export async function besideOf({ register }: AtHand, learner: Learner, id: string): Promise<Beside> {
  if (id === '' || id === learner.id) return undefined
  if ((await register.learner(id)).class === learner.class) return id
  throw new BadRequest('Two on one phone are of the same class; join again with both names.', {
    field: 'with',
    status: 422,
  })
}

const withBeside = (beginning: Beginning, beside: Beside): Beginning =>
  beside === undefined ? beginning : { ...beginning, setting: { ...beginning.setting, with: beside } }

/** Whoever has begun it goes on with theirs: a second tool of the same draw would be no riddle. */
export async function beginSet(
  hand: AtHand,
  learner: Learner,
  id: string,
  beside: Beside,
): Promise<Pick<Exercise, 'id'>> {
  const { register } = hand
  const set = await register.setExercise(id)
  if (set.class !== learner.class)
    throw new BadRequest('That was set for another class; choose among what was set for yours.', {
      field: 'set',
      status: 422,
    })
  const own = (await register.exercises({ learner: learner.id })).find(({ setAs }) => setAs === set.id)
  const beginning = withBeside(beginningOfSet(set), beside)
  return own ?? register.begin({ learner: learner.id, ...beginning, at: hand.now().toISOString() })
}

/**
 * The same tool again, at once, for whom a safety mistake ended it: the order of the hands is what is practised. Of what
 * the instructor set the first try counts, and nobody is told earlier what was wrong.
 *
 * @throws BadRequest (422) for another's, or one that no safety mistake ended
 */
export async function beginAgain(hand: AtHand, learner: Learner, id: string): Promise<Pick<Exercise, 'id'>> {
  const { register } = hand
  const [before, outcome] = await Promise.all([register.exercise(id), register.outcome(id)])
  if (before.learner !== learner.id || outcome?.over !== 'slip')
    throw new BadRequest('Only a tool of your own that a safety mistake ended is done again.', {
      field: 'same',
      status: 422,
    })
  const { kind, level, seed } = before
  const onceMore = setOf(before)
  const setting = { ...before.setting, ...(onceMore !== undefined && { onceMore }) }
  return register.begin({ learner: learner.id, kind, level, seed, setting, at: hand.now().toISOString() })
}
