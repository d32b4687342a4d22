/** Exercises that are over, put into a register without a bench. */
import type { Register } from '../../server/register/register.js'
import type { ExerciseSummary, ExerciseOutcome } from '../../shared/practice.js'

export interface Over extends Partial<ExerciseOutcome> {
  readonly causes: string[]
  readonly at: string
  readonly level?: string
  readonly setAs?: string
}

const setting = { hideSuspects: false, hidePrices: false }

/** Sent in, nothing mended, 6 minutes lost, unless told otherwise. */
const outcomeWith = (
  suspects: string[],
  { at: _at, level: _level, setAs: _set, ...more }: Over,
): ExerciseOutcome => ({
  over: 'send-in',
  mended: false,
  suspects,
  slips: [],
  shown: [],
  score: 80,
  lostMinutes: 6,
  ...more,
})

/** Begun and ended at the same instant, by one move. @returns its id */
export async function keepOver(
  register: Register,
  of: {
    readonly learner: string
    readonly kind: string
    readonly level: string
    readonly suspects: string[]
  },
  over: Over,
): Promise<string> {
  const { learner, kind, suspects } = of
  const { id } = await register.begin({
    learner,
    kind,
    level: over.level ?? of.level,
    seed: 1,
    setting,
    ...(over.setAs !== undefined && { setAs: over.setAs }),
    at: over.at,
  })
  await register.makeMove(id, { type: 'ended', way: 'send-in' }, over.at, 0)
  await register.keepOutcome(id, outcomeWith(suspects, over))
  return id
}

/** The same as it comes out of a register, for page models that need none. */
export const summaryOf = (
  of: {
    readonly learner: string
    readonly kind: string
    readonly level: string
    readonly suspects: string[]
  },
  over: Over,
  place: number,
): ExerciseSummary => ({
  id: `exercise-${place}`,
  learner: of.learner,
  kind: of.kind,
  level: over.level ?? of.level,
  seed: 1,
  setting,
  begunAt: over.at,
  changedAt: over.at,
  moveCount: 1,
  outcome: outcomeWith(of.suspects, over),
})
