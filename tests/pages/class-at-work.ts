/** A class of ten with a history that a test can count by hand: outcomes put down as such, nothing simulated. */
import type { Learner, ExerciseOutcome, SetExercise, Shown } from '../../shared/practice.js'
import type { Register } from '../../server/register/register.js'

export const kind = 'universal-motor'
export const level = 'sweeping-the-floor'

/** Names as people have them, and as unkind people type them. */
export const names = [
  'Ana',
  'Bö, Sæmi',
  'Çelik "Kısa" Ö.',
  'Фёдор Ёлкин',
  'ليلى حسن',
  '=1+1',
  '+49 Gül',
  '-Io',
  '@home',
  'José María',
] as const

const suspects = [
  'worn-brushes',
  'broken-cord',
  'dry-bearing',
  'dull-blade',
  'rounded-drive-lever',
  'dead-outlet',
]

type Some = Partial<ExerciseOutcome> & Pick<ExerciseOutcome, 'causes'>
export const outcomeWith = (some: Some): ExerciseOutcome => ({
  over: 'hand-back',
  mended: true,
  suspects,
  slips: [],
  shown: [],
  score: 80,
  lostMinutes: 6,
  ...some,
})

/** All on one cause but what is left for others. */
export const points = (given: Record<string, number>): NonNullable<ExerciseOutcome['spread']> => ({
  points: given,
  other: 100 - Object.values(given).reduce((sum, p) => sum + p, 0),
})

export interface ClassAtWork {
  readonly id: string
  readonly people: readonly { readonly id: string; readonly name: string }[]
  readonly set: SetExercise
  /** one exercise begun and ended at the given minute */
  ended(who: number, minute: number, outcome: ExerciseOutcome, setAs?: string): Promise<string>
  begun(who: number, minute: number, setAs?: string): Promise<string>
}

const at = (minute: number): string =>
  new Date(Date.parse('2026-03-02T09:00:00Z') + minute * 60_000).toISOString()

export async function classAtWork(register: Register, name = 'First years, Tuesday'): Promise<ClassAtWork> {
  const { id } = await register.addClass({ name, at: at(0) })
  const people: Learner[] = []
  for (const it of names) people.push(await register.addLearner({ name: it, class: id, at: at(0) }))
  const setting = { hideSuspects: true, hidePrices: false, complaint: 'It cuts in and out.' }
  const set = await register.addSetExercise({ class: id, kind, level, seed: 77, setting, at: at(1) })
  const begun = async (who: number, minute: number, setAs?: string) => {
    const own = { learner: people[who]!.id, kind, level, seed: 1000 + minute }
    const plain = { hideSuspects: false, hidePrices: false }
    const exercise = await register.begin({
      ...own,
      setting: plain,
      ...(setAs ? { setAs } : {}),
      at: at(minute),
    })
    return exercise.id
  }
  return {
    id,
    people,
    set,
    begun,
    ended: async (who, minute, outcome, setAs) => {
      const exercise = await begun(who, minute, setAs)
      await register.makeMove(exercise, { type: 'ended', way: 'send-in' }, at(minute + 5), 0)
      await register.keepOutcome(exercise, outcome)
      return exercise
    },
  }
}

const safe = (skill: Shown['skill'], subject = ''): Shown => ({ skill, kind, subject })

/**
 * What the tests count. Own exercises: Ana finds worn brushes, then takes them for the cord; Sæmi takes them for the
 * cord too and opens a plugged-in tool, Çelik does that as well; Fyodor and Leyla miss a dry bearing. Nine of ten
 * have done the set one, with worn brushes; the tenth is at it.
 */
export async function usualHistory(work: ClassAtWork): Promise<void> {
  const found = outcomeWith({
    causes: ['worn-brushes'],
    spread: points({ 'worn-brushes': 80, 'broken-cord': 20 }),
    shown: [safe('dangers-first'), safe('plug-out-first'), safe('found', 'worn-brushes')],
  })
  const forCord = outcomeWith({
    causes: ['worn-brushes'],
    spread: points({ 'broken-cord': 70, 'worn-brushes': 30 }),
    lostMinutes: 14,
    shown: [safe('dangers-first')],
  })
  const opened = outcomeWith({
    ...forCord,
    over: 'slip',
    mended: false,
    slips: ['opened-while-plugged-in'],
    score: 0,
    shown: [],
  })
  const missed = outcomeWith({ causes: ['dry-bearing'], over: 'send-in', mended: false, lostMinutes: 0.2 })
  await work.ended(0, 10, found)
  await work.ended(0, 30, forCord)
  await work.ended(1, 20, opened)
  await work.ended(2, 25, opened)
  await work.ended(3, 40, missed)
  await work.ended(4, 45, { ...missed, score: null, lostMinutes: null })
  for (let who = 0; who < 9; who++)
    await work.ended(who, 100 + who, who % 3 === 0 ? found : forCord, work.set.id)
  await work.begun(9, 120, work.set.id)
}
