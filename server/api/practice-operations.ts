import {
  BeginExercise,
  DebriefView,
  ExerciseView,
  LearnerView,
  LevelList,
  MakeMoves,
} from '../../shared/practice-api.js'
import { NotAsItStands } from '../errors.js'
import { beginExercise, beginSet } from '../practice-bench/begin-exercise.js'
import { keepDebrief } from '../practice-bench/keep-outcome.js'
import { makeMoves } from '../practice-bench/make-moves.js'
import { mayMove, practiceBench } from '../practice-bench/practice-bench.js'
import { hushedIn } from '../practice-bench/set-of.js'
import { comingBack } from '../practice/coming-back.js'
import { setOf } from '../practice/hushed.js'
import { inTime } from '../practice/items.js'
import { resultsOf } from '../practice/kept-results.js'
import { kindsOf } from '../practice/level-book.js'
import { lookBack } from '../practice/look-back.js'
import { minutesEach } from '../practice-bench/minutes-each.js'
import { safeDays } from '../practice/safe-days.js'
import type { AtHand } from '../wiring/deps.js'
import type { Operation } from './operation.js'
import { operation } from './operation.js'
import { debriefView, exerciseView } from './practice-view.js'
import { ApiProblem } from './problems.js'

const learnersPath = '/practice/learners/{id}'
const exercisePath = '/practice/exercises/{id}'

/** What the pages do with an exercise, for programs: the same moves, the same hidden tool, the same debrief. */
export const practiceOperations: readonly Operation[] = [
  operation({
    name: 'listLevels',
    method: 'get',
    path: '/practice/levels',
    summary: 'How hard an exercise can be, and of which kinds',
    output: LevelList,
    status: 200,
    problems: [],
    run: ({ knowledge }) => ({
      body: {
        levels: knowledge.levels.map((level) => ({
          id: level.id,
          name: level.name,
          says: level.says,
          kinds: [...kindsOf(knowledge, level)],
        })),
      },
    }),
  }),
  operation({
    name: 'getLearner',
    method: 'get',
    path: learnersPath,
    summary: 'What somebody has done, and what is due',
    output: LearnerView,
    status: 200,
    problems: ['not-found'],
    run: async (hand, _, { id = '' }) => ({ body: await learnerView(hand, id) }),
  }),
  operation({
    name: 'beginExercise',
    method: 'post',
    path: `${learnersPath}/exercises`,
    summary: 'Put a practice tool on the bench',
    input: BeginExercise,
    output: ExerciseView,
    status: 201,
    problems: ['not-found', 'not-acceptable'],
    async run(hand, { level = '', kind = '', next, guided, set }, { id = '' }) {
      const learner = await hand.register.learner(id)
      const by = guided ? 'guided' : next ? 'next' : 'level'
      const begun =
        set === undefined
          ? await beginExercise(hand, learner, { by, level, kind }, undefined)
          : await beginSet(hand, learner, set, undefined)
      return {
        body: exerciseView(await practiceBench(hand, begun.id)),
        location: `/api/practice/exercises/${begun.id}`,
      }
    },
  }),
  operation({
    name: 'getExercise',
    method: 'get',
    path: exercisePath,
    summary: 'An exercise as it stands, with what was told',
    output: ExerciseView,
    status: 200,
    problems: ['not-found', 'not-acceptable'],
    run: async (hand, _, { id = '' }) => ({ body: exerciseView(await practiceBench(hand, id)) }),
  }),
  operation({
    name: 'makeMoves',
    method: 'post',
    path: `${exercisePath}/moves`,
    summary: 'Make moves, one after the other',
    input: MakeMoves,
    output: ExerciseView,
    status: 200,
    problems: ['not-found', 'moved-on', 'not-acceptable'],
    async run(hand, { moves: [first, ...rest], count }, { id = '' }) {
      const bench = await practiceBench(hand, id)
      if (!mayMove(bench)) throw new NotAsItStands('This exercise is over: no more moves can be made.')
      const made = await makeMoves(bench, [first!, ...rest], count)
      if (made.is === 'refused') throw new ApiProblem('not-acceptable', made.because)
      if (made.is === 'older')
        throw new NotAsItStands('The exercise has other moves than you had seen; fetch it again.')
      return { body: exerciseView(made.bench) }
    },
  }),
  operation({
    name: 'getDebrief',
    method: 'get',
    path: `${exercisePath}/debrief`,
    summary: 'A finished exercise gone through again',
    output: DebriefView,
    status: 200,
    problems: ['not-found', 'moved-on', 'not-acceptable'],
    async run(hand, _, { id = '' }) {
      const bench = await practiceBench(hand, id)
      const { played, set } = bench
      if (set?.hushed === true)
        throw new NotAsItStands('The class is still at this tool; it is told when all have ended.')
      if (played.now.over === undefined) throw new NotAsItStands('The exercise goes on; end it first.')
      const debrief = await keepDebrief(hand, played)
      const back = await lookBack(played, debrief)
      return { body: debriefView(played, debrief, back) }
    },
  }),
]

async function learnerView({ register, knowledge, now }: AtHand, id: string): Promise<LearnerView> {
  const learner = await register.learner(id)
  const [all, hushed] = await Promise.all([
    register.exercises({ learner: id }),
    hushedIn(register, learner.class),
  ])
  const told = all.filter((it) => !hushed.has(setOf(it) ?? ''))
  const results = inTime(resultsOf(told, knowledge.moved))
  return {
    learner,
    ended: results.map(({ exercise, kind, level, at, over, mended, causes, slips }) => ({
      exercise,
      kind,
      level,
      at,
      over,
      mended,
      causes: [...causes],
      safetyMistakes: [...slips],
      score: told.find((it) => it.id === exercise)?.outcome?.score ?? null,
    })),
    underWay: all.filter(({ outcome }) => outcome === null).map((it) => it.id),
    due: comingBack(results, now().toISOString()).filter(({ isDue }) => isDue).length,
    minutesEach: minutesEach(all),
    safeDays: safeDays(results),
  }
}
