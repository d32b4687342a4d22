/** How a phone joins a class: the word and number of its door, and who is there already. */
import type { ClassDoor, Learner } from '../../shared/practice.js'
import { BadRequest } from '../errors.js'
import { goesOn } from '../practice/lesson-round.js'
import { nameKey } from '../register/name-key.js'
import type { AtHand } from '../wiring/deps.js'
import { changeLesson } from './change-lesson.js'

/** Words of the trade, short enough to be called across a room. */
const doorWords = (
  'comb fade taper blade clip brush apron mirror lather shears strop chair guard line nape crown fringe ' +
  'towel steam cape neck beard sweep hinge tooth spring oil lever cord bench'
).split(' ')

/** The word and number of a class; made where it has none yet. */
export async function doorOf({ register, newSeed }: AtHand, ofClass: string): Promise<ClassDoor> {
  for (let k = newSeed() % doorWords.length; ; k++) {
    const there = await register.doorOf(ofClass)
    if (there) return there
    const round = Math.floor(k / doorWords.length)
    const word = doorWords[k % doorWords.length]! + 'abcdefghij'.slice(0, round % 10)
    await register.hangDoor({ class: ofClass, word, pin: String(1000 + (newSeed() % 9000)) })
  }
}

/**
 * Who joins by word and number, one or two on a phone; who is there already by that name goes on as before.
 *
 * @param names one or two; an empty second one is nobody
 * @throws BadRequest (422) with the field
 */
export async function joinClass(
  { register, now }: AtHand,
  {
    word,
    pin,
    names,
  }: { readonly word: string; readonly pin: string; readonly names: readonly [string, string] },
): Promise<{ readonly learner: Learner; readonly beside: Learner | undefined }> {
  const door = await register.classBehind(nameKey(word))
  if (door?.pin !== pin.trim())
    throw new BadRequest('That word and number do not go together; look at the wall again.', {
      field: 'word',
      status: 422,
    })
  const known = await register.learners(door.class)
  const called = async (name: string): Promise<Learner> =>
    known.find((it) => nameKey(it.name) === nameKey(name)) ??
    register.addLearner({ name, class: door.class, at: now().toISOString() })
  const [own, other] = names
  const learner = await called(own)
  const two = nameKey(other) !== '' && nameKey(other) !== nameKey(own)
  const beside = two ? await called(other) : undefined
  const ids = [learner, ...(beside ? [beside] : [])].map(({ id }) => id)
  await changeLesson(register, door.class, (it) => {
    const joined = [...new Set([...(it.joined ?? []), ...ids])]
    return goesOn(it) && joined.length !== it.joined?.length ? { ...it, joined } : null
  })
  return { learner, beside }
}
