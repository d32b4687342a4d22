/**
 * Practice: what is stored of a class, its learners and their exercises. A stored exercise is what was drawn or set
 * and the moves that were made, in order; tool, answers, prices, score and debrief are worked out each time.
 */
import { z } from 'zod'
import { CauseId, FixId, Id, KindId, LevelId, QuestionId, SetupId, SlipId, StepId, StopId } from './ids.js'

const Instant = z.iso.datetime().describe('ISO 8601, UTC')
export const Key = z
  .string()
  .regex(/^[a-z0-9-]{4,40}$/, 'must be 4 to 40 lower-case letters, digits or hyphens')

/** Points that a learner spreads over suspects and "something else": steps of 10, 100 in all. */
export const stepOfPoints = 10
const Points = z.number().int().min(0).max(100).multipleOf(stepOfPoints)

/** The points of one moment. `other` is "something else": shared out evenly over all suspects without points. */
export const Spread = z
  .strictObject({ points: z.record(CauseId, Points), other: Points })
  .refine(
    ({ points, other }) => Object.values(points).reduce((sum, p) => sum + p, other) === 100,
    'the points must come to 100 in all',
  )
export type Spread = z.infer<typeof Spread>

export const EndWay = z.enum(['hand-back', 'send-in', 'set-aside'])
export type EndWay = z.infer<typeof EndWay>

/** What a learner can do at the bench. */
export const PracticeMove = z.discriminatedUnion('type', [
  z.strictObject({ type: z.literal('stood'), setup: SetupId }),
  z.strictObject({ type: z.literal('put-back'), setup: SetupId }),
  /** a step with all that it settles, or one question of it */
  z.strictObject({ type: z.literal('looked'), step: StepId, question: QuestionId.optional() }),
  z.strictObject({ type: z.literal('tried'), fix: FixId }),
  /** as often as one likes; the last before the first fix counts */
  z.strictObject({ type: z.literal('spread'), spread: Spread }),
  z.strictObject({ type: z.literal('disinfected') }),
  /** what lifts an off-the-client stop was done */
  z.strictObject({ type: z.literal('made-safe'), stop: StopId }),
  /** a bad habit that a slip offers, by the slip's id */
  z.strictObject({ type: z.literal('dared'), act: SlipId }),
  z.strictObject({ type: z.literal('ended'), way: EndWay }),
])
export type PracticeMove = z.infer<typeof PracticeMove>

/** What an instructor may fix for an exercise; all of it may be left to the draw. */
export const Setting = z.strictObject({
  /** the causes that are there, instead of drawn ones */
  causes: z.array(CauseId).min(1).max(3).optional(),
  /** the cause that is there first, chosen by the practice plan; others may follow where the level has several */
  about: CauseId.optional(),
  /** the complaint in the instructor's own words, shown instead of the drawn one; what it tells is drawn all the same */
  complaint: z.string().trim().min(3).max(300).optional(),
  hideSuspects: z.boolean().default(false),
  hidePrices: z.boolean().default(false),
  /** the bench says at each move what a good way would do next; it counts for no record */
  guided: z.boolean().optional(),
  /** somebody at the same phone, of the same class: what it comes to is theirs too */
  with: Key.optional(),
  /** what the instructor set, tried once more after a safety mistake; the first try is the one that counts */
  onceMore: Key.optional(),
})
export type Setting = z.infer<typeof Setting>

/** One troubled tool to practise on, and all moves made on it, oldest first. */
export const Exercise = z.strictObject({
  id: Key,
  learner: Key,
  kind: KindId,
  level: LevelId,
  /** fixes every draw: the same for a class gives the same tool */
  seed: z.number().int().min(0).max(4_294_967_295),
  setting: Setting,
  /** set cases share the id of what the instructor set */
  setAs: Key.optional(),
  begunAt: Instant,
  changedAt: Instant,
  moves: z.array(PracticeMove).max(400),
})
export type Exercise = z.infer<typeof Exercise>

/** Somebody who learns. */
export const Learner = z.strictObject({
  id: Key,
  name: z.string().trim().min(1).max(80),
  class: Key,
  since: Instant,
})
export type Learner = z.infer<typeof Learner>

/** Learners that an instructor looks after together. */
export const PracticeClass = z.strictObject({
  id: Key,
  name: z.string().trim().min(1).max(80),
  since: Instant,
})
export type PracticeClass = z.infer<typeof PracticeClass>

/** The same exercise for everybody in a class. */
export const SetExercise = z.strictObject({
  id: Key,
  class: Key,
  kind: KindId,
  level: LevelId,
  seed: z.number().int().min(0).max(4_294_967_295),
  setting: Setting,
  setAt: Instant,
  /** since when nobody goes on with it and the fault is told; missing while it is open */
  closedAt: Instant.optional(),
})
export type SetExercise = z.infer<typeof SetExercise>

/** How a class is joined from a phone: a short word, and a number beside it. */
export const ClassDoor = z.strictObject({
  class: Key,
  word: z.string().regex(/^[a-z]{3,12}$/, 'must be 3 to 12 letters'),
  pin: z.string().regex(/^[0-9]{4}$/, 'must be 4 digits'),
})
export type ClassDoor = z.infer<typeof ClassDoor>

/** Parts of a lesson in their order, with their minutes. */
export const lessonParts = [
  { id: 'brief', minutes: 3 },
  { id: 'play', minutes: 8 },
  { id: 'talk', minutes: 10 },
  { id: 'again', minutes: 5 },
  { id: 'over', minutes: 0 },
] as const
const PartId = z.enum(['brief', 'play', 'talk', 'again', 'over'])

/** Thirty minutes with a class: one tool for all, talked over, and another one. */
export const Lesson = z.strictObject({
  id: Key,
  class: Key,
  startedAt: Instant,
  level: LevelId,
  kind: KindId,
  /** when each part began; the last is the one that goes on */
  parts: z.array(z.strictObject({ id: PartId, at: Instant })).min(1),
  /** what is set for its two rounds, by id */
  play: Key.optional(),
  again: Key.optional(),
  /** the tool of the first round, drawn when the lesson starts: the instructor says what comes in before it is there */
  comes: SetExercise.pick({ seed: true, setting: true }).optional(),
  /** learners whose phone joined while it went on */
  joined: z.array(Key).optional(),
})
export type Lesson = z.infer<typeof Lesson>

/** A row of the sheet on which skills are signed off. */
export const SignedOff = z.strictObject({
  learner: Key,
  skill: z.string().min(1).max(120).describe('what was shown, by its key on the skills sheet'),
  by: z.string().trim().min(1).max(80),
  at: Instant,
})
export type SignedOff = z.infer<typeof SignedOff>

/** What can be shown at the bench; `subject` is an id of the rulebook, or empty. */
export const Shown = z.strictObject({
  skill: z.enum([
    /** every danger question before anything ran or was mended */
    'dangers-first',
    /** each set-up stood before the look or repair that needs it */
    'plug-out-first',
    /** before handing back */
    'disinfected',
    /** a known danger ended the work */
    'set-aside',
    /** a cause */
    'found',
    /** a repair that cured */
    'mended',
    /** a check */
    'looked',
  ]),
  kind: KindId,
  subject: z.union([Id, z.literal('')]),
})
export type Shown = z.infer<typeof Shown>

/**
 * What a finished exercise came to. Kept when it ends, so that a later rulebook changes nobody's record; the debrief
 * is worked out from the moves again.
 */
export const ExerciseOutcome = z.strictObject({
  over: z.union([EndWay, z.literal('slip')]),
  mended: z.boolean(),
  /** what was wrong, and all that could have been: the suspects of its level */
  causes: z.array(CauseId).min(1),
  suspects: z.array(CauseId).min(1),
  /** slips, those that were only noted too */
  slips: z.array(SlipId),
  /** the points that count; missing where none were spread before the first fix */
  spread: Spread.optional(),
  shown: z.array(Shown),
  /** 0 to 100, and minutes lost against the plan; null until the plan was worked out for each move */
  score: z.number().min(0).max(100).nullable(),
  lostMinutes: z.number().min(0).nullable(),
  /** the first move that was more than a set-up or the points; missing in what was kept before it was noted */
  first: PracticeMove.optional(),
  /** the first move that cost more than it should, with the plan's; missing where there was none, or no score yet */
  parted: z.strictObject({ yours: PracticeMove, plans: PracticeMove }).optional(),
})
export type ExerciseOutcome = z.infer<typeof ExerciseOutcome>

/** An exercise without its moves. */
export const ExerciseHead = Exercise.omit({ moves: true })

/** An exercise in a list: how far it is, without its moves. */
export interface ExerciseSummary extends z.infer<typeof ExerciseHead> {
  readonly moveCount: number
  /** null while it goes on */
  readonly outcome: ExerciseOutcome | null
}
