/** Exercises under way and their debriefs, kept for a while: what was worked out for one move serves the next page. */
import { LRUCache } from 'lru-cache'
import { setImmediate as immediately } from 'node:timers/promises'
import { onceFor } from '../../shared/once-for.js'
import type { Exercise } from '../../shared/practice.js'
import type { Prepared } from '../diagnosis/prepare.js'
import type { Debrief } from '../practice/debrief.js'
import { debriefOf } from '../practice/debrief.js'
import { plansMove } from '../practice/model-player.js'
import { exerciseOfToday } from '../practice/moved-exercise.js'
import type { Played } from '../practice/played.js'
import { playOn, playOut } from '../practice/played.js'
import { worthOf } from '../practice/worth.js'
import { rememberLately } from './lately.js'

/** Exercises kept for one rulebook; one takes a megabyte or two. */
const mostPlayed = 40
const mostDebriefs = 60

const playedUnder = onceFor((_: Prepared) => new LRUCache<string, Promise<Played>>({ max: mostPlayed }))
const debriefsUnder = onceFor((_: Prepared) => rememberLately<Debrief>(mostDebriefs))

/** Ids are given once in a shop, so that two shops of one server need a number before them. */
let shops = 0
const numberOf = onceFor((_shop: object) => ++shops)

/**
 * An exercise as it stands, in the ids of this rulebook.
 *
 * @param shop any object that stands for its shop, as long as the server runs
 * @throws RangeError where its kind or level is no longer in the rulebook
 */
export function playedOf(prepared: Prepared, stored: Exercise, shop: object): Promise<Played> {
  const exercise = exerciseOfToday(stored, prepared.knowledge.moved)
  const played = playedUnder(prepared)
  const key = `${numberOf(shop)} ${exercise.id}`
  const known = played.get(key)
  const fresh = known ? known.then((it) => continued(prepared, it, exercise)) : playOut(prepared, exercise)
  played.set(key, fresh)
  // A failure is not remembered. The caller gets the rejection from `fresh` itself.
  fresh.catch(() => played.get(key) === fresh && played.delete(key))
  return fresh
}

function continued(prepared: Prepared, known: Played, exercise: Exercise): Promise<Played> | Played {
  const before = known.exercise.moves.length
  if (before === exercise.moves.length) return known
  // a request that was overtaken asks for fewer moves than are known: it gets them all anew
  return before < exercise.moves.length ? playOn(known, exercise) : playOut(prepared, exercise)
}

/** Gives way to other requests: the plan at one move takes some tens of milliseconds. */
const pause = (): Promise<void> => immediately()

/** The debrief of a finished exercise; up to some seconds of computing when nothing of it is known yet. */
export function debriefFor(prepared: Prepared, played: Played, shop: object): Promise<Debrief> {
  return debriefsUnder(prepared)(
    `${numberOf(shop)} ${played.exercise.id} ${played.exercise.moves.length}`,
    () => inLine(() => debriefOf(played, pause)),
  )
}

let line: Promise<unknown> = Promise.resolve()

/** One piece of work after the other: whoever ended first then waits for one debrief, not for the whole class's. */
function inLine<Made>(work: () => Promise<Made>): Promise<Made> {
  const made = line.then(work)
  line = made.catch(() => undefined)
  return made
}

/**
 * Works out what the latest move was worth while the learner thinks about the next one, so that the debrief of a whole
 * class is not due in the same minute. One after the other, for all exercises. It never fails: nobody waits for it, and
 * the debrief works out what is missing.
 *
 * @param log where a failure is written
 */
export function thinkAhead(
  { desk, done }: Played,
  log: (error: unknown) => void = (error) => console.error(error),
): Promise<unknown> {
  const last = done.at(-1)
  if (last === undefined || last.refused !== undefined) return line
  return inLine(async () => {
    await pause()
    await plansMove(desk, last.before)
    await pause()
    if (!last.slips.some(({ grade }) => grade === 'ends'))
      await worthOf(desk, last.before, last.move, last.after.situation)
  }).catch(log)
}
