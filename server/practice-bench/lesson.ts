/** A lesson: started, moved on from part to part, with a tool set for each of its two rounds; and joining a class. */
import type { ClassDoor, Learner, Lesson } from '../../shared/practice.js'
import { lessonParts, Setting } from '../../shared/practice.js'
import { BadRequest, NotAsItStands, StaleForm } from '../errors.js'
import { goesOn, partNow } from '../practice/lesson-round.js'
import { levelOf } from '../practice/level-book.js'
import { resultsOf } from '../practice/kept-results.js'
import { mostMixedUp } from '../practice/mixed-up.js'
import { nameKey } from '../register/name-key.js'
import type { Register } from '../register/register.js'
import type { AtHand } from '../wiring/deps.js'

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

/** @param change made anew where somebody else changed the lesson meanwhile; null leaves it as it is */
async function changeLesson(
  register: Register,
  ofClass: string,
  change: (it: Lesson) => Lesson | null,
): Promise<Lesson | null> {
  for (;;) {
    const from = await register.latestLesson(ofClass)
    const to = from && change(from)
    if (!from || !to) return from
    try {
      return await register.moveLesson(to, from)
    } catch (error) {
      if (!(error instanceof StaleForm)) throw error
    }
  }
}

/** @throws RangeError for a level that is not in the rulebook, NotAsItStands while another lesson of the class goes on */
export async function startLesson(
  hand: AtHand,
  ofClass: string,
  { level, kind }: Pick<Lesson, 'level' | 'kind'>,
): Promise<Lesson> {
  const { register, now, knowledge } = hand
  levelOf(knowledge, level)
  if (goesOn(await register.latestLesson(ofClass)))
    throw new NotAsItStands('A lesson of this class goes on; end it before you start another.')
  const at = now().toISOString()
  const comes = await drawnFor(hand, { class: ofClass, kind })
  const parts: Lesson['parts'] = [{ id: 'brief', at }]
  return register.startLesson({ class: ofClass, startedAt: at, level, kind, comes, parts })
}

/**
 * The next part: a round gets its tool when it begins, and is closed for all when it ends.
 *
 * @param seen how many parts whoever asks had seen: a second press of the same button goes on no further
 * @throws StaleForm where it has gone on since
 */
export async function nextPart(hand: AtHand, lesson: Lesson, seen: number): Promise<Lesson> {
  const { register } = hand
  if (seen !== lesson.parts.length) throw new StaleForm(lesson.class, 'lesson')
  const at = hand.now().toISOString()
  const k = lessonParts.findIndex(({ id }) => id === partNow(lesson).id)
  const next = lessonParts[k + 1]
  if (!next) return lesson
  if (next.id === 'talk' && lesson.play !== undefined) await register.closeSetExercise(lesson.play, at)
  if (next.id === 'over' && lesson.again !== undefined) await register.closeSetExercise(lesson.again, at)
  const tool = next.id === 'play' || next.id === 'again' ? { [next.id]: await toolFor(hand, lesson, at) } : {}
  const moved = await changeLesson(register, lesson.class, (it) => {
    if (it.id !== lesson.id || it.parts.length !== seen) throw new StaleForm(lesson.class, 'lesson')
    return { ...it, ...tool, parts: [...it.parts, { id: next.id, at }] }
  })
  return moved ?? lesson
}

/** Sets what was drawn for the first round, or another tool. @returns its id */
async function toolFor(hand: AtHand, lesson: Lesson, at: string): Promise<string> {
  const { class: ofClass, kind, level } = lesson
  const announced = lesson.play === undefined ? lesson.comes : undefined
  const tool = announced ?? (await drawnFor(hand, lesson))
  return (await hand.register.addSetExercise({ class: ofClass, kind, level, ...tool, at })).id
}

/** What this class mixes up comes next: one of the two; else a typical tool. */
async function drawnFor(
  { register, knowledge, newSeed }: AtHand,
  lesson: Pick<Lesson, 'class' | 'kind'>,
): Promise<NonNullable<Lesson['comes']>> {
  const results = resultsOf(await register.exercises({ class: lesson.class }), knowledge.moved)
  const seed = newSeed()
  const about = mostMixedUp(results, lesson.kind)?.[seed % 2]
  return { seed, setting: Setting.parse(about === undefined ? {} : { about }) }
}
