/** The tables of the register (`migrations/004-practice.ts`), and their rows as what they stand for. */
import { z } from 'zod'
import {
  ClassDoor,
  Exercise,
  Learner,
  Lesson,
  ExerciseOutcome,
  PracticeClass,
  PracticeMove,
  SetExercise,
  SignedOff,
} from '../../shared/practice.js'

export interface Tables {
  practice_class: { id: string; name: string; name_key: string; since: string }
  learner: { id: string; class_id: string; name: string; name_key: string; since: string }
  set_exercise: {
    id: string
    class_id: string
    kind: string
    level: string
    seed: number
    setting: string
    set_at: string
    closed_at: string | null
  }
  exercise: {
    id: string
    learner_id: string
    kind: string
    level: string
    seed: number
    setting: string
    set_id: string | null
    begun_at: string
    changed_at: string
  }
  exercise_move: { exercise_id: string; place: number; at: string; move: string }
  /** `score` is that of the outcome, to be looked for */
  exercise_outcome: { exercise_id: string; outcome: string; score: number | null }
  class_door: { class_id: string; word: string; pin: string }
  lesson: { id: string; class_id: string; started_at: string; body: string }
  signed_off: { learner_id: string; skill: string; signed_by: string; at: string }
}

export const classFrom = ({ id, name, since }: Tables['practice_class']): PracticeClass =>
  readBack(PracticeClass, { id, name, since }, `Class ${id}`)

export const learnerFrom = ({ id, name, class_id, since }: Tables['learner']): Learner =>
  readBack(Learner, { id, name, class: class_id, since }, `Learner ${id}`)

export const setExerciseFrom = (row: Tables['set_exercise']): SetExercise =>
  readBack(
    SetExercise,
    {
      id: row.id,
      class: row.class_id,
      kind: row.kind,
      level: row.level,
      seed: row.seed,
      setting: row.setting,
      setAt: row.set_at,
      ...(row.closed_at !== null && { closedAt: row.closed_at }),
    },
    `Set exercise ${row.id}`,
  )

const Head = Exercise.omit({ moves: true })
/** An exercise but for its moves. */
export const headFrom = (row: Tables['exercise']): Omit<Exercise, 'moves'> =>
  readBack(
    Head,
    {
      id: row.id,
      learner: row.learner_id,
      kind: row.kind,
      level: row.level,
      seed: row.seed,
      setting: row.setting,
      ...(row.set_id !== null && { setAs: row.set_id }),
      begunAt: row.begun_at,
      changedAt: row.changed_at,
    },
    `Exercise ${row.id}`,
  )

export const moveFrom = (
  row: Pick<Tables['exercise_move'], 'exercise_id' | 'place' | 'move'>,
): PracticeMove =>
  readBack(z.object({ move: PracticeMove }), row, `Move ${row.place} of exercise ${row.exercise_id}`).move

export const outcomeFrom = (exercise: string, outcome: string): ExerciseOutcome =>
  readBack(z.object({ outcome: ExerciseOutcome }), { outcome }, `What exercise ${exercise} came to`).outcome

export const signedOffFrom = ({ learner_id, skill, signed_by, at }: Tables['signed_off']): SignedOff =>
  readBack(
    SignedOff,
    { learner: learner_id, skill, by: signed_by, at },
    `Signature for ${skill} of ${learner_id}`,
  )

export const doorFrom = ({ class_id, word, pin }: Tables['class_door']): ClassDoor =>
  readBack(ClassDoor, { class: class_id, word, pin }, `How class ${class_id} is joined`)

export const lessonFrom = ({ id, class_id, started_at, body }: Tables['lesson']): Lesson => {
  const { body: told } = readBack(
    z.object({ body: z.record(z.string(), z.unknown()) }),
    { body },
    `Lesson ${id}`,
  )
  return readBack(Lesson, { ...told, id, class: class_id, startedAt: started_at }, `Lesson ${id}`)
}

const inJson = ['setting', 'move', 'outcome', 'body']

/** @throws Error that names the row, rather than leave it out */
function readBack<Shape>(
  shape: z.ZodType<Shape>,
  row: Readonly<Record<string, unknown>>,
  what: string,
): Shape {
  try {
    const told = Object.entries(row).map(([name, value]): [string, unknown] => [
      name,
      inJson.includes(name) ? JSON.parse(String(value)) : value,
    ])
    return shape.parse(Object.fromEntries(told))
  } catch (cause) {
    throw new Error(`${what} cannot be read back from the file`, { cause })
  }
}

/** As text for a column, once it has the shape. @throws ZodError */
export const jsonOf = <Shape>(shape: z.ZodType<Shape>, value: unknown): string =>
  JSON.stringify(shape.parse(value))
