/** Debriefs, kept for a while, and the thinking ahead of them; both on a thread that serves no pages, where there is one. */
import { onceFor } from '../../shared/once-for.js'
import type { Prepared } from '../diagnosis/prepare.js'
import type { Debrief } from '../practice/debrief.js'
import type { Played } from '../practice/played.js'
import { wholeDebrief } from './debrief-sums.js'
import type { DoSum } from './heavy-sums.js'
import { rememberLately } from './lately.js'
import { numberOf } from './played.js'
import { onThisThread } from './side-thread.js'

const mostDebriefs = 60

const debriefsUnder = onceFor((_: Prepared) => rememberLately<Debrief>(mostDebriefs))

/**
 * The debrief of a finished exercise; up to some seconds of computing when nothing of it is known yet.
 *
 * @param shop  any object that stands for its shop, as long as the server runs
 * @param doSum on which thread; this one unless told
 */
export function debriefFor(
  prepared: Prepared,
  played: Played,
  shop: object,
  doSum: DoSum = onThisThread,
): Promise<Debrief> {
  const { exercise } = played
  const number = numberOf(shop)
  return debriefsUnder(prepared)(`${number} ${exercise.id} ${exercise.moves.length}`, () =>
    inLine(async () => wholeDebrief(played, await doSum(prepared, 'debrief', { exercise, shop: number }))),
  )
}

let line: Promise<unknown> = Promise.resolve()

/**
 * One piece of work after the other: whoever ended first then waits for one debrief, not for the whole class's, and
 * whoever compares or opens a card waits for one at most.
 */
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
  prepared: Prepared,
  { exercise }: Pick<Played, 'exercise'>,
  shop: object,
  doSum: DoSum = onThisThread,
  log: (error: unknown) => void = (error) => console.error(error),
): Promise<unknown> {
  return inLine(() => doSum(prepared, 'think', { exercise, shop: numberOf(shop) })).catch(log)
}
