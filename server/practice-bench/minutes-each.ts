/** Minutes that an exercise takes before anybody has been timed, with its debrief: what the first levels are made for. */
const usualMinutes = 5
/** Longer than this somebody laid it aside in between. */
const mostMinutes = 20

/** The median of one's own, in whole minutes; the usual where too few are known. */
export function minutesEach(
  exercises: readonly { readonly begunAt: string; readonly changedAt: string; readonly outcome: unknown }[],
): number {
  const taken = exercises
    .filter(({ outcome }) => outcome !== null)
    .map(({ begunAt, changedAt }) => (Date.parse(changedAt) - Date.parse(begunAt)) / 60_000)
    .filter((it) => it >= 1 && it <= mostMinutes)
    .sort((a, b) => a - b)
  return taken.length < 3 ? usualMinutes : Math.round(taken[Math.floor(taken.length / 2)]!)
}
