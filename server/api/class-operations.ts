import type { Lesson, SetExercise } from '../../shared/practice.js'
import type { LessonView as TheLesson } from '../../shared/practice-api.js'
import {
  AddClass,
  AddLearner,
  ClassAdded,
  ClassList,
  ClassView,
  CloseSet,
  LearnerAdded,
  LessonView,
  MoveLesson,
  SetAdded,
  SetClosed,
  SetForClass,
  StartLesson,
} from '../../shared/practice-api.js'
import { NotAsItStands, StaleForm } from '../errors.js'
import { doorOf } from '../practice-bench/join-class.js'
import { nextPart, startLesson } from '../practice-bench/lesson.js'
import { closeSet, setForClass } from '../practice-bench/set-exercise.js'
import { kindFor } from '../practice/drawn.js'
import { goesOn, roundOf, triedBy } from '../practice/lesson-round.js'
import { levelOf } from '../practice/level-book.js'
import type { AtHand } from '../wiring/deps.js'
import type { Operation } from './operation.js'
import { operation, refuse } from './operation.js'
import { unfit, unknownIn } from './practice-values.js'

const classesPath = '/practice/classes'
const classPath = `${classesPath}/{id}`
const lessonPath = `${classPath}/lesson`

/** What the instructor does with a class: whoever may not is kept out by the door, as from the pages. */
export const classOperations: readonly Operation[] = [
  operation({
    name: 'listClasses',
    method: 'get',
    path: classesPath,
    summary: 'The classes, by name',
    output: ClassList,
    status: 200,
    problems: [],
    run: async ({ register }) => ({ body: { classes: await register.classes() } }),
  }),
  operation({
    name: 'addClass',
    method: 'post',
    path: classesPath,
    summary: 'A new class',
    input: AddClass,
    output: ClassAdded,
    status: 201,
    problems: ['not-acceptable'],
    async run({ register, now }, { name }) {
      const added = await register.addClass({ name, at: now().toISOString() })
      return { body: { class: added }, location: `/api/practice/classes/${added.id}` }
    },
  }),
  operation({
    name: 'getClass',
    method: 'get',
    path: classPath,
    summary: 'A class: who learns in it, and what was set',
    output: ClassView,
    status: 200,
    problems: ['not-found'],
    async run({ register }, _, { id = '' }) {
      const ofClass = await register.classOf(id)
      const [learners, sets] = await Promise.all([register.learners(id), register.setExercises(id)])
      return {
        body: { class: ofClass, learners, set: sets.map(headOf) },
      }
    },
  }),
  operation({
    name: 'addLearner',
    method: 'post',
    path: `${classPath}/learners`,
    summary: 'Somebody comes into the class',
    input: AddLearner,
    output: LearnerAdded,
    status: 201,
    problems: ['not-found', 'not-acceptable'],
    async run({ register, now }, { name }, { id = '' }) {
      await register.classOf(id)
      const learner = await register.addLearner({ name, class: id, at: now().toISOString() })
      return { body: { learner }, location: `/api/practice/learners/${learner.id}` }
    },
  }),
  operation({
    name: 'setExercise',
    method: 'post',
    path: `${classPath}/set`,
    summary: 'Set the same tool for everybody in the class',
    input: SetForClass,
    output: SetAdded,
    status: 201,
    problems: ['not-found', 'not-acceptable'],
    async run(hand, asked, { id = '' }) {
      const { knowledge, register, newSeed } = hand
      await register.classOf(id)
      refuse(unknownIn(knowledge, asked))
      const { level, kind = kindFor(knowledge, levelOf(knowledge, level), newSeed()), ...rest } = asked
      const { seed = newSeed(), ...setting } = rest
      const made = await setForClass(hand, id, { level, kind, seed, setting })
      if (!made.ok) throw unfit(made.because, asked)
      const { complaint } = made.set.setting
      return {
        body: { set: headOf(made.set), heard: complaint === undefined ? [...made.complaint] : [complaint] },
      }
    },
  }),
  operation({
    name: 'closeSetExercise',
    method: 'post',
    path: `${classPath}/set/{set}/close`,
    summary: 'Nobody goes on with it, and what was wrong is told',
    input: CloseSet,
    output: SetClosed,
    status: 200,
    problems: ['not-found', 'not-acceptable'],
    run: async (hand, _, { id = '', set = '' }) => ({ body: { set: headOf(await closeSet(hand, id, set)) } }),
  }),
  operation({
    name: 'getLesson',
    method: 'get',
    path: lessonPath,
    summary: 'The lesson as it stands: its part, how phones join, who is where',
    output: LessonView,
    status: 200,
    problems: ['not-found'],
    run: async (hand, _, { id = '' }) => ({ body: await lessonView(hand, id) }),
  }),
  operation({
    name: 'startLesson',
    method: 'post',
    path: lessonPath,
    summary: 'Start a lesson of half an hour',
    input: StartLesson,
    output: LessonView,
    status: 201,
    problems: ['not-found', 'moved-on', 'not-acceptable'],
    async run(hand, asked, { id = '' }) {
      await hand.register.classOf(id)
      refuse(unknownIn(hand.knowledge, asked))
      await startLesson(hand, id, asked)
      return { body: await lessonView(hand, id), location: `/api/practice/classes/${id}/lesson` }
    },
  }),
  operation({
    name: 'moveLesson',
    method: 'post',
    path: `${lessonPath}/next`,
    summary: 'On to its next part: a round gets its tool, or is closed for all',
    input: MoveLesson,
    output: LessonView,
    status: 200,
    problems: ['not-found', 'moved-on', 'not-acceptable'],
    async run(hand, { seen }, { id = '' }) {
      const ofClass = await hand.register.classOf(id)
      const lesson = await hand.register.latestLesson(ofClass.id)
      if (!goesOn(lesson)) throw new NotAsItStands('No lesson of this class goes on; start one.')
      await nextPart(hand, lesson, seen).catch((error: unknown) => {
        if (!(error instanceof StaleForm)) throw error
        throw new NotAsItStands('The lesson is at another part than you had seen; fetch it again.')
      })
      return { body: await lessonView(hand, id) }
    },
  }),
]

const headOf = ({ setting: _setting, seed: _seed, ...head }: SetExercise) => head

/** Without the draw of the tool to come: it would give the fault away. */
const shownOf = ({ comes: _comes, joined: _joined, ...shown }: Lesson) => shown

async function lessonView(hand: AtHand, id: string): Promise<TheLesson> {
  const { register } = hand
  const ofClass = await register.classOf(id)
  const [{ word, pin }, lesson, learners, exercises] = await Promise.all([
    doorOf(hand, id),
    register.latestLesson(id),
    register.learners(id),
    register.exercises({ class: id }),
  ])
  const round = lesson ? roundOf(lesson) : undefined
  return {
    class: ofClass,
    door: { word, pin },
    lesson: lesson && shownOf(lesson),
    goesOn: goesOn(lesson),
    people: learners.map((learner) => {
      const its = triedBy(exercises, round, learner.id)
      return {
        learner: { id: learner.id, name: learner.name },
        exercise: its?.id ?? null,
        moves: its?.moveCount ?? 0,
        movedAt: its?.changedAt ?? null,
        ended: its !== undefined && its.outcome !== null,
      }
    }),
  }
}
