/** An exercise of somebody in a class, over the project's own rulebook, for the tests of its pages. */
import type { Exercise, Setting } from '../../shared/practice.js'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

export { knowledge }

export const KIND = 'universal-motor'
export const LEVEL = 'sweeping-the-floor'
export const groups = ['safe', 'ask', 'look', 'test', 'mend', 'end'] as const
export const shown: Setting = { hideSuspects: false, hidePrices: false }

export interface Classroom {
  readonly bench: Bench
  readonly learner: string
  readonly ofClass: string
  begun(more?: Partial<Pick<Exercise, 'level' | 'seed' | 'setting' | 'kind'>>): Promise<Exercise>
  stored(exercise: Exercise): Promise<Exercise>
  visitor(): Visitor
}

export async function openClassroom(): Promise<Classroom> {
  const bench = await benchWith({ knowledge })
  const { register } = bench
  const ofClass = (await register.addClass({ name: 'Mornings', at: OPENED })).id
  const learner = (await register.addLearner({ name: 'Ana', class: ofClass, at: OPENED })).id
  return {
    bench,
    learner,
    ofClass,
    begun: (more = {}) =>
      register.begin({ learner, kind: KIND, level: LEVEL, seed: 1, setting: shown, at: OPENED, ...more }),
    stored: ({ id }) => register.exercise(id),
    visitor: () => new Visitor(bench.app),
  }
}

export const addressOf = ({ id }: Pick<Exercise, 'id'>): string => `/practice/exercises/${id}`

/** Makes a move from the page that is open. */
export const make = (it: Visitor, home: string, move: string, more = {}) =>
  it.send(`${home}/moves`, { move, ...more })

/** The moves that the pages of an exercise offer, by their keys, with the words of their rows. */
export async function offered(it: Visitor, home: string): Promise<Map<string, string>> {
  const rows = new Map<string, string>()
  for (const group of groups) {
    await it.open(`${home}/moves?in=${group}`)
    for (const [, key = '', words = ''] of it.html.matchAll(
      /name="move" value="([^"]+)">([\s\S]*?)<\/button>/g,
    ))
      rows.set(
        key,
        words
          .replace(/<[^>]+>/g, ' ')
          .replace(/\s+/g, ' ')
          .trim(),
      )
  }
  return rows
}
