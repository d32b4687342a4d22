/**
 * npm run play:class: plays the exercises of the demo's invented class anew and writes server/demo/demo-exercises.json.
 * Some minutes. Needed when the rulebook has changed so much that the stored moves no longer fit, which
 * demo-class.test.ts tells.
 */
import { readFileSync, writeFileSync } from 'node:fs'
import { z } from 'zod'
import { outcomeOf } from '../../server/practice/outcome.js'
import { demoClass, exercisesFile } from '../../server/demo/demo-class.js'
import type { DemoExercise } from '../../server/demo/demo-class.js'
import { prepare } from '../../server/diagnosis/prepare.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { debriefOf } from '../../server/practice/debrief.js'
import { causesOf, levelOf } from '../../server/practice/level-book.js'
import type { Played } from '../../server/practice/played.js'
import { playOn, playOut } from '../../server/practice/played.js'
import type { Result } from '../../server/practice/result.js'
import { resultFrom } from '../../server/practice/result.js'
import { whatNext } from '../../server/practice/what-next.js'
import { chance, keyOf } from '../../server/simulation/chance.js'
import type { Exercise } from '../../shared/practice.js'
import { Habits, moveOf } from './player.js'
import { recordLines } from '../record-lines.js'

const Person = z.strictObject({
  says: z.string(),
  habits: Habits,
  /** how many exercises until the habit is gone */
  until: z.number().optional(),
  /** exercises of their own choice */
  free: z.number(),
  /** of the first, the second and so on; the last goes for all that follow */
  levels: z.array(z.string()).min(1).default(['sweeping-the-floor']),
  /** causes that came up, in turn; else what practice suggests */
  about: z.array(z.string()).optional(),
  underWay: z.boolean().default(false),
  missedTheSetOne: z.boolean().default(false),
})
type Person = z.infer<typeof Person>

const day = 86_400_000
/** days before the latest evening: when the first exercise was set */
const setOn = 14
/** so far is the exercise that somebody is at */
const underWayMoves = 3
/** any Tuesday will do: the demo tells all times from its latest evening */
const now = Date.UTC(2026, 2, 24, 18)
const mostTurns = 60

const habits = z
  .record(z.string(), Person)
  .parse(JSON.parse(readFileSync(new URL('habits.json', import.meta.url), 'utf8')))
const knowledge = loadKnowledge()
const prepared = await prepare(knowledge)
const { people, set } = demoClass()

const exercises: DemoExercise[] = []
for (const person of people) exercises.push(...(await playedBy(person)))
writeFileSync(exercisesFile, recordLines(exercises))

async function playedBy(person: string): Promise<DemoExercise[]> {
  const of = habits[person]
  if (!of) throw new Error(`habits.json has no ${person}`)
  const results: Result[] = []
  const all: DemoExercise[] = []
  for (const [k, { nth, daysBefore }] of eveningsOf(person, of).entries()) {
    const at = new Date(now - daysBefore * day).toISOString()
    const drawn = nth === 'set' ? { ...set[0]!, set: 0 } : chosen(person, of, nth, results, at)
    const isOver = !(of.underWay && nth === of.free - 1)
    const its = of.until === undefined || k < of.until ? of.habits : Habits.parse({})
    const played = await playedWith(drawn, at, its, nth === 'set' || !isOver)
    const outcome = isOver ? (outcomeOf(played, await debriefOf(played)) ?? null) : null
    if (isOver && outcome === null) throw new Error(`${person} comes to no end: ${JSON.stringify(drawn)}`)
    if (outcome) results.push(resultFrom(played.exercise, outcome))
    const { kind, level, seed, setting, moves } = played.exercise
    all.push({
      person,
      ...(nth === 'set' && { set: 0 }),
      kind,
      level,
      seed,
      setting,
      begunDaysBefore: daysBefore,
      // somebody who only says what the hands would do is quicker than the hands
      minutes: Math.min(28, Math.max(4, Math.round(played.now.minutes / 2))),
      moves: isOver ? moves : moves.slice(0, underWayMoves),
      outcome,
    })
    console.log(person, kind, level, outcome?.causes.join('+'), moves.length, outcome?.over, outcome?.score)
  }
  return all
}

/** Tuesdays in order: own choices on four of them, and the set exercise first when it was set. */
function eveningsOf(person: string, of: Person): { nth: number | 'set'; daysBefore: number }[] {
  const own = Array.from({ length: of.free }, (_, nth) => ({
    nth,
    day: 21 - Math.floor((nth * 4) / of.free) * 7,
  }))
  const latest = of.underWay ? own.map((it) => ({ ...it, day: 0 })) : own
  const all = [
    ...latest.filter(({ day }) => day > setOn),
    ...(of.missedTheSetOne ? [] : [{ nth: 'set' as const, day: setOn }]),
    ...latest.filter(({ day }) => day <= setOn),
  ]
  // half an hour for each, and no two people begin in the same minute
  return all.map(({ nth, day }, k) => {
    const earlier = all.slice(0, k).filter((it) => it.day === day).length
    return { nth, daysBefore: day - (30 * earlier + 2 * people.indexOf(person)) / 1440 }
  })
}

type Drawn = Pick<Exercise, 'kind' | 'level' | 'seed' | 'setting'>

/** What practice suggests, and every second time what the tool box holds. */
function chosen(person: string, of: Person, nth: number, results: readonly Result[], at: string): Drawn {
  const level = levelOf(knowledge, of.levels[Math.min(nth, of.levels.length - 1)]!)
  const next = whatNext(knowledge, level, results, at, [set[0]!.kind])
  const may = causesOf(knowledge, level, next.kind, { hideSuspects: false, hidePrices: false })
  const seed = keyOf(`${person} ${nth}`)
  const about =
    of.about?.[nth % of.about.length] ??
    (nth % 2 === 0 ? next.about : may[Math.floor(chance(seed, 3) * may.length)]!)
  return {
    kind: next.kind,
    level: level.id,
    seed,
    setting: { about, hideSuspects: false, hidePrices: false },
  }
}

/** @param asItIs else a tool that is set aside at once, for a danger that is told, is put by for another one */
async function playedWith(drawn: Drawn, at: string, its: Habits, asItIs: boolean): Promise<Played> {
  const { kind, level, setting } = drawn
  for (let seed = drawn.seed; ; seed++) {
    const blank = { id: `exercise-${seed}`, learner: 'learner', kind, level, seed, setting, begunAt: at }
    let played = await playOut(prepared, { ...blank, changedAt: at, moves: [] })
    for (let turn = 0; played.now.over === undefined && turn < mostTurns; turn++) {
      const { moves } = played.exercise
      const move = await moveOf(played.desk, played.now, moves, its, drawn.seed)
      played = await playOn(played, { ...played.exercise, moves: [...moves, move] })
      const refused = played.done.at(-1)!.refused
      if (refused !== undefined) throw new Error(`${JSON.stringify(move)} was refused: ${refused}`)
    }
    if (asItIs || played.exercise.moves.length > 3 || seed % 4 === 0) return played
  }
}
