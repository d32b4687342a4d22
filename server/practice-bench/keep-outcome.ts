import type { ExerciseOutcome } from '../../shared/practice.js'
import { Refused } from '../errors.js'
import type { Debrief } from '../practice/debrief.js'
import { outcomeOf } from '../practice/outcome.js'
import type { Played } from '../practice/played.js'
import type { Register } from '../register/register.js'
import { debriefFor } from '../remembered/exercises.js'
import type { AtHand } from '../wiring/deps.js'
import type { PracticeBench } from './practice-bench.js'
import { practiceBench } from './practice-bench.js'

/** What a finished exercise came to is kept at once; its score follows behind. */
export async function keepIfOver({ hand, exercise, played }: PracticeBench): Promise<void> {
  const outcome = outcomeOf(played, null)
  if (!outcome) return
  if ((await hand.register.outcome(exercise.id)) === null)
    await hand.register.keepOutcome(exercise.id, outcome)
  // whoever asks for the debrief waits for the same work, and is told if it fails
  keepDebrief(hand, played).catch(() => undefined)
}

/**
 * Works out the debrief of a finished exercise and keeps what it came to, with the score. Call it as often as wanted:
 * the work is shared, and a score that is kept stays. May run behind a request that is answered already, with
 * `void keepDebrief(…)`: a failure is written to the log, and whoever waits gets it too.
 *
 * @param log where a failure is written
 */
export function keepDebrief(
  { prepared, register, doSum }: Pick<AtHand, 'prepared' | 'register' | 'doSum'>,
  played: Played,
  log: (error: unknown) => void = (error) => console.error(error),
): Promise<Debrief> {
  const known = underWay.get(played)
  if (known) return known
  const kept = (async () => {
    const debrief = await debriefFor(prepared, played, register, doSum)
    const outcome = outcomeOf(played, debrief)
    if (outcome) {
      await keepScore(register, played.exercise.id, outcome)
      await keepForBoth(register, played, outcome)
    }
    return debrief
  })()
  underWay.set(played, kept)
  kept.catch((error: unknown) => {
    underWay.delete(played)
    log(error)
  })
  return kept
}

/**
 * Works out the scores that a stop left blank, one after the other, behind whatever else is asked for.
 *
 * @param closing no further one is begun once it is aborted
 * @param log     where a failure is written; one that the rulebook of today no longer has stays blank without a word
 */
export async function scoreTheRest(
  hand: AtHand,
  closing?: AbortSignal,
  log: (error: unknown) => void = (error) => console.error(error),
): Promise<void> {
  for (const id of await hand.register.unscored()) {
    if (closing?.aborted) return
    try {
      const { played } = await practiceBench(hand, id)
      if (played.now.over !== undefined) await keepDebrief(hand, played, log)
    } catch (error) {
      if (!(error instanceof Refused)) log(error)
    }
  }
}

/** One piece of work for all who ask for it; a failed one is tried anew by the next. */
const underWay = new WeakMap<Played, Promise<Debrief>>()

/** Two at one phone: the same exercise on the other's record, once. */
async function keepForBoth(
  register: Register,
  { exercise: { id, setting } }: Played,
  outcome: ExerciseOutcome,
): Promise<void> {
  if (setting.with === undefined) return
  const { learner, kind, level, seed, setAs, begunAt, changedAt, moves } = await register.exercise(id)
  const theirs = await register.exercises({ learner: setting.with })
  const isThere = theirs.some(
    (it) => it.seed === seed && it.kind === kind && it.setting.with === learner && it.begunAt === begunAt,
  )
  if (isThere || theirs.some((it) => setAs !== undefined && it.setAs === setAs)) return
  const own = { ...setting, with: learner }
  const begun = await register.begin({
    learner: setting.with,
    kind,
    level,
    seed,
    setting: own,
    at: begunAt,
    ...(setAs !== undefined && { setAs }),
  })
  await register.makeMove(begun.id, moves, changedAt, 0, outcome)
}

/** What was kept when the exercise ended stays, under whatever rulebook the score comes later. */
async function keepScore(register: Register, id: string, outcome: ExerciseOutcome): Promise<void> {
  const before = await register.outcome(id)
  if (before !== null && before.score !== null) return
  const { score, lostMinutes, parted } = outcome
  await register.keepOutcome(id, { ...outcome, ...before, score, lostMinutes, ...(parted && { parted }) })
}
