/** What the JSON API takes and gives of practice. The OpenAPI document is made from these, beside `api.ts`. */
import { z } from 'zod'
import { CauseId, FindingId, Id, KindId, LevelId, QuestionId, SetupId, SlipId } from './ids.js'
import {
  ClassDoor,
  EndWay,
  Exercise,
  Key,
  Learner,
  Lesson,
  PracticeClass,
  PracticeMove,
  SetExercise,
  Setting,
  Spread,
} from './practice.js'
import { Answer } from './situation.js'

const Minutes = z.number().min(0)
const Money = z.number().min(0).describe('in major units of the currency')

/** `GET /api/practice/classes` */
export const ClassList = z.strictObject({ classes: z.array(PracticeClass) })

/** `POST /api/practice/classes` */
export const AddClass = z.strictObject({ name: PracticeClass.shape.name })
export const ClassAdded = z.strictObject({ class: PracticeClass })

/** What was set, without what would give the tool away. */
const SetHead = SetExercise.omit({ setting: true, seed: true })

/** `GET /api/practice/classes/{id}` */
export const ClassView = z.strictObject({
  class: PracticeClass,
  learners: z.array(Learner),
  set: z.array(SetHead).describe('latest first'),
})

/** `POST /api/practice/classes/{id}/set`: the same tool for everybody. What is left out is drawn. */
export const SetForClass = z.strictObject({
  level: LevelId,
  kind: KindId.optional(),
  seed: SetExercise.shape.seed.optional().describe('the same number draws the same tool'),
  ...Setting.pick({ causes: true, complaint: true, hideSuspects: true, hidePrices: true }).shape,
})
export type SetForClass = z.infer<typeof SetForClass>
export const SetAdded = z.strictObject({
  set: SetHead,
  heard: z.array(z.string()).describe('what the tool is brought in with'),
})

/** `POST /api/practice/classes/{id}/set/{set}/close`: nobody goes on with it, and the fault is told. */
export const CloseSet = z.strictObject({})
export const SetClosed = z.strictObject({ set: SetHead })

/** `POST /api/practice/classes/{id}/lesson` */
export const StartLesson = z.strictObject({ level: LevelId, kind: KindId })

/** `POST /api/practice/classes/{id}/lesson/next` */
export const MoveLesson = z.strictObject({
  seen: z.number().int().min(1).describe('how many parts of it you had seen'),
})

/** `GET /api/practice/classes/{id}/lesson`, and what starting and going on answer */
export const LessonView = z.strictObject({
  class: PracticeClass,
  door: ClassDoor.omit({ class: true }).describe('the word and the number that phones join by'),
  lesson: Lesson.omit({ comes: true, joined: true }).nullable().describe('the latest; null before the first'),
  goesOn: z.boolean(),
  people: z
    .array(
      z.strictObject({
        learner: Learner.pick({ id: true, name: true }),
        exercise: Key.nullable().describe('theirs of this round, or of whoever has the same phone'),
        moves: z.number().int().min(0),
        movedAt: z.iso.datetime().nullable(),
        ended: z.boolean(),
      }),
    )
    .describe('by name'),
})
export type LessonView = z.infer<typeof LessonView>

/** `POST /api/practice/classes/{id}/learners` */
export const AddLearner = z.strictObject({ name: Learner.shape.name })
export const LearnerAdded = z.strictObject({ learner: Learner })

const Ended = z.strictObject({
  exercise: Key,
  kind: KindId,
  level: LevelId,
  at: z.iso.datetime(),
  over: z.union([EndWay, z.literal('slip')]),
  mended: z.boolean(),
  causes: z.array(CauseId),
  safetyMistakes: z.array(SlipId),
  score: z.number().min(0).max(100).nullable().describe('null until it is worked out'),
})

/** `GET /api/practice/learners/{id}` */
export const LearnerView = z.strictObject({
  learner: Learner,
  ended: z.array(Ended).describe('what has ended and may be told, oldest first'),
  underWay: z.array(Key).describe('exercises that go on'),
  due: z.number().int().min(0).describe('how many things are due again; which, nobody is told'),
  minutesEach: Minutes.describe('what an exercise takes this learner'),
  safeDays: z.number().int().min(0).describe('days of practice in a row without a safety mistake'),
})
export type LearnerView = z.infer<typeof LearnerView>

/** `POST /api/practice/learners/{id}/exercises`: one of a level, the one that is due, or what was set. */
export const BeginExercise = z
  .strictObject({
    level: LevelId.optional(),
    kind: KindId.optional().describe('left out: drawn'),
    next: z.boolean().default(false).describe('what is due, or has never come'),
    guided: z.boolean().default(false).describe('each move is shown; it counts for no record'),
    set: Key.optional().describe('what the instructor set, by its id, in place of a level'),
  })
  .refine(({ level, set }) => (level === undefined) !== (set === undefined), {
    path: ['level'],
    message: 'say either a level or what was set',
  })

/** `POST /api/practice/exercises/{id}/moves` */
export const MakeMoves = z.strictObject({
  moves: z.array(PracticeMove).min(1).max(20),
  count: z.number().int().min(0).describe('how many moves you had seen'),
})

const Mistake = z.strictObject({ id: SlipId, name: z.string(), ends: z.boolean(), why: z.string() })

/** An exercise as its learner sees it; of the hidden tool it holds nothing. */
export const ExerciseView = z.strictObject({
  ...Exercise.pick({ id: true, learner: true, kind: true, level: true, begunAt: true, changedAt: true })
    .shape,
  set: Key.nullable(),
  heard: z.array(z.string()).describe('what the tool was brought in with'),
  count: z.number().int().min(0).describe('moves made'),
  moves: z.array(
    z.strictObject({
      move: PracticeMove,
      minutes: Minutes,
      parts: Money,
      told: z.array(z.strictObject({ question: QuestionId, answer: Answer })),
      safetyMistakes: z.array(Mistake),
    }),
  ),
  standing: z.array(SetupId),
  answers: z.record(QuestionId, Answer),
  minutes: Minutes,
  parts: Money,
  runs: z.boolean().describe('is the trouble gone?'),
  suspects: z.array(CauseId).describe('what may be wrong; empty where it is not shown'),
  over: z.union([EndWay, z.literal('slip')]).nullable(),
})
export type ExerciseView = z.infer<typeof ExerciseView>

/** `GET /api/practice/exercises/{id}/debrief` */
export const DebriefView = z.strictObject({
  exercise: Key,
  over: z.union([EndWay, z.literal('slip')]),
  causes: z.array(CauseId),
  left: z.array(CauseId).describe('those of them that are still there'),
  score: z.number().min(0).max(100),
  lostMinutes: Minutes.describe('against a good way, on average'),
  safetyMistakes: z.array(Mistake),
  takeAlong: z
    .strictObject({
      what: z.enum([
        'slip',
        'in-trouble',
        'wrong-end',
        'dear-move',
        'mixed-up',
        'too-sure',
        'not-sure-enough',
        'well-done',
      ]),
      move: z.number().int().min(0).nullable().describe('which of the moves, from 0; null where it is none'),
      causes: z
        .array(CauseId)
        .describe('the one that had the points, and of two mixed up the one that was there'),
    })
    .describe('the one thing to take along'),
  steps: z.array(z.strictObject({ move: PracticeMove, good: PracticeMove, lostMinutes: Minutes })),
  misled: z
    .array(
      z.strictObject({
        question: QuestionId,
        finding: FindingId,
        against: CauseId.nullable(),
        wrong: z.boolean().describe('is the answer the contrary of what the tool showed?'),
        perTen: z.number().min(0).max(10).describe('of ten tools with this fault, those that answer so'),
      }),
    )
    .describe('answers that spoke against what was there'),
  spread: Spread.nullable(),
  allowed: Spread.nullable().describe('points that the answers up to then allowed'),
})
export type DebriefView = z.infer<typeof DebriefView>

/** `GET /api/practice/levels` */
export const LevelList = z.strictObject({
  levels: z.array(z.strictObject({ id: Id, name: z.string(), says: z.string(), kinds: z.array(KindId) })),
})
