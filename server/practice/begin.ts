/** A new exercise: what it is about, from what a learner asked for. Chance comes in as a number. */
import type { Knowledge } from '../../shared/knowledge.js'
import type { Exercise, SetExercise } from '../../shared/practice.js'
import { Setting } from '../../shared/practice.js'
import { chance, keyOf } from '../simulation/chance.js'
import { kindFor } from './drawn.js'
import { causesOfLesson, levelOfLesson } from './lesson-causes.js'
import { kindsOf } from './level-book.js'
import type { Result } from './result.js'
import { whatNext } from './what-next.js'

/** Ids as they were sent; an empty kind leaves it to the draw. */
export type Wish =
  | { readonly by: 'level'; readonly level: string; readonly kind: string }
  /** the same, with each move shown */
  | { readonly by: 'guided'; readonly level: string; readonly kind: string }
  /** what the practice plan has due */
  | { readonly by: 'next'; readonly level: string; readonly kind: string }
  | { readonly by: 'lesson'; readonly lesson: string; readonly kind: string }

export type Beginning = Pick<Exercise, 'kind' | 'level' | 'seed' | 'setting' | 'setAs'>

/** What cannot be begun, and what to do instead. */
export interface CannotBegin {
  readonly field: 'level' | 'kind' | 'lesson'
  readonly words: string
}

const plain: Setting = Setting.parse({})

/**
 * @param seed    a whole number from 0 to 4 294 967 295; fixes all draws
 * @param results the learner's own, any order
 * @param now     ISO 8601, UTC
 */
export function beginningOf(
  knowledge: Knowledge,
  wish: Wish,
  {
    seed,
    results,
    now,
  }: { readonly seed: number; readonly results: readonly Result[]; readonly now: string },
): Beginning | CannotBegin {
  if (wish.kind !== '' && !knowledge.kinds.some(({ id }) => id === wish.kind))
    return { field: 'kind', words: 'The rulebook has no such kind of tool; choose one from the list.' }
  if (wish.by === 'lesson') return afterLesson(knowledge, wish.lesson, wish.kind, seed)
  const level = knowledge.levels.find(({ id }) => id === wish.level)
  if (!level) return { field: 'level', words: 'The rulebook has no such level; choose one from the list.' }
  const kinds = kindsOf(knowledge, level)
  if (wish.kind !== '' && !kinds.includes(wish.kind))
    return { field: 'kind', words: `The level “${level.name}” has no tools of that kind; choose another.` }
  if (wish.by !== 'next') {
    const setting: Setting = wish.by === 'guided' ? { ...plain, guided: true } : plain
    return { kind: wish.kind || kindFor(knowledge, level, seed), level: level.id, seed, setting }
  }
  const next = whatNext(knowledge, level, results, now, wish.kind === '' ? kinds : [wish.kind])
  return { kind: next.kind, level: level.id, seed, setting: { ...plain, about: next.about } }
}

function afterLesson(
  knowledge: Knowledge,
  lesson: string,
  kind: string,
  seed: number,
): Beginning | CannotBegin {
  const kinds = knowledge.kinds
    .map(({ id }) => id)
    .filter((id) => (kind === '' || id === kind) && levelOfLesson(knowledge, lesson, id) !== undefined)
  const drawn = one(kinds, seed, 'kind of lesson')
  const level = drawn === undefined ? undefined : levelOfLesson(knowledge, lesson, drawn)
  if (drawn === undefined || level === undefined)
    return {
      field: 'lesson',
      words: 'There is no exercise to this lesson for that kind of tool; choose another.',
    }
  const about = one(causesOfLesson(knowledge, lesson, drawn), seed, 'cause of lesson')
  return { kind: drawn, level, seed, setting: { ...plain, ...(about !== undefined && { about }) } }
}

/** The same tool as everybody in the class has. */
export const beginningOfSet = ({ id, kind, level, seed, setting }: SetExercise): Beginning => ({
  kind,
  level,
  seed,
  setting,
  setAs: id,
})

const one = <T>(list: readonly T[], seed: number, purpose: string): T | undefined =>
  list[Math.floor(chance(seed, keyOf(purpose)) * list.length)]
