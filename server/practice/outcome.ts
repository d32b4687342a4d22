import type { ExerciseOutcome } from '../../shared/practice.js'
import type { Debrief } from './debrief.js'
import type { Played } from './played.js'
import { resultOf } from './result.js'
import { shownIn } from './skills.js'

/** What is kept of an exercise when it ends; undefined while it goes on. The score comes with its debrief. */
export function outcomeOf(played: Played, debrief: Debrief | null): ExerciseOutcome | undefined {
  const result = resultOf(played)
  if (!result) return undefined
  const { over, mended, causes, slips, spread } = result
  return {
    over,
    mended,
    causes: [...causes],
    suspects: played.desk.kind.model.causes.map(({ id }) => id),
    slips: [...slips],
    ...(spread && { spread }),
    shown: shownIn(played),
    ...firstIn(played),
    ...(debrief && partedIn(debrief)),
    score: debrief?.score ?? null,
    lostMinutes: debrief ? debrief.losses / played.desk.shop.rate : null,
  }
}

/** What somebody did first: getting the tool ready and giving points are not counted. */
function firstIn({ done }: Played): Pick<ExerciseOutcome, 'first'> {
  const first = done.find(
    ({ move, refused }) => refused === undefined && !['stood', 'put-back', 'spread'].includes(move.type),
  )
  return first ? { first: first.move } : {}
}

/** Where somebody first left a good way: what is worth a minute at least. */
function partedIn({ steps }: Debrief): Pick<ExerciseOutcome, 'parted'> {
  const parted = steps.find(({ lostMinutes }) => lostMinutes >= leastParted)
  return parted ? { parted: { yours: parted.done.move, plans: parted.plan } } : {}
}

/** Minutes on average; nobody at a bench would notice less. */
const leastParted = 1
