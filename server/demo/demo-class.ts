/** An invented class of ten with some weeks of practice behind it, told relative to its latest evening. */
import { readFileSync } from 'node:fs'
import { z } from 'zod'
import { Exercise, Learner, ExerciseOutcome, PracticeMove, SetExercise } from '../../shared/practice.js'
import { keyOfSkill } from '../practice/skills.js'
import type { Register } from '../register/register.js'

const DemoClass = z.strictObject({
  name: z.string(),
  instructor: z.string(),
  people: z.array(Learner.shape.name),
  set: z.array(
    SetExercise.pick({ kind: true, level: true, seed: true, setting: true }).extend({
      daysBefore: z.number(),
    }),
  ),
  /** the first so many things that somebody had shown by then */
  signed: z.array(z.strictObject({ person: z.string(), most: z.number().int(), daysBefore: z.number() })),
})
export type DemoClass = z.infer<typeof DemoClass>

/** One exercise of one of them, as it was played by `npm run play:class`. */
const DemoExercise = Exercise.pick({ kind: true, level: true, seed: true, setting: true }).extend({
  person: z.string(),
  /** place among those that were set */
  set: z.number().int().min(0).optional(),
  /** before the latest evening began; below 0 in the course of it */
  begunDaysBefore: z.number(),
  /** from beginning to end */
  minutes: z.number().min(1),
  moves: z.array(PracticeMove).min(1),
  /** null: still under way */
  outcome: ExerciseOutcome.nullable(),
})
export type DemoExercise = z.infer<typeof DemoExercise>

export const exercisesFile = new URL('./demo-exercises.json', import.meta.url)
const read = (file: URL): unknown => JSON.parse(readFileSync(file, 'utf8'))

export const demoClass = (): DemoClass => DemoClass.parse(read(new URL('./demo-class.json', import.meta.url)))
export const demoExercises = (): DemoExercise[] => z.array(DemoExercise).parse(read(exercisesFile))

const minute = 60_000
const day = 1440 * minute
const tuesday = 2

/** When the class last began: the latest Tuesday, half past six, that is over by now. */
export function latestEvening(now: Date): Date {
  const evening = new Date(now)
  evening.setHours(18, 30, 0, 0)
  const isOver = () => evening.getTime() + 180 * minute <= now.getTime()
  while (evening.getDay() !== tuesday || !isOver()) evening.setDate(evening.getDate() - 1)
  return evening
}

/** Puts class, people, set exercises and what they did into a register. */
export async function putDemoClass(register: Register, now: Date): Promise<void> {
  const { name, people, set, signed, instructor } = demoClass()
  const evening = latestEvening(now).getTime()
  const before = (days: number, minutes = 0) =>
    new Date(evening - days * day + minutes * minute).toISOString()
  const { id: ofClass } = await register.addClass({ name, at: before(28) })
  const learners = new Map<string, string>()
  for (const person of people) {
    const { id } = await register.addLearner({ name: person, class: ofClass, at: before(28) })
    learners.set(person, id)
  }
  const sets: string[] = []
  for (const { daysBefore, ...it } of set) {
    const { id } = await register.addSetExercise({ class: ofClass, ...it, at: before(daysBefore) })
    sets.push(id)
  }
  const exercises = demoExercises()
  for (const { person, set: place, begunDaysBefore, minutes, moves, outcome, ...it } of exercises) {
    const { id } = await register.begin({
      ...it,
      learner: learners.get(person)!,
      ...(place !== undefined && { setAs: sets[place]! }),
      at: before(begunDaysBefore),
    })
    await register.makeMove(id, moves, before(begunDaysBefore, minutes), 0)
    if (outcome) await register.keepOutcome(id, outcome)
  }
  for (const { person, most, daysBefore } of signed) {
    const shown = exercises
      .filter((it) => it.person === person && it.begunDaysBefore > daysBefore)
      .flatMap(({ outcome }) => outcome?.shown ?? [])
    const skills = [...new Set(shown.map(keyOfSkill))].slice(0, most)
    const signature = { learner: learners.get(person)!, by: instructor, at: before(daysBefore) }
    await register.signOff(...skills.map((skill) => ({ ...signature, skill })))
  }
}
