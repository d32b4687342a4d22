import { CaseEvent } from '../../shared/case.js'
import { conflictAmong, eventProblems } from '../cases/acceptable.js'
import { BadRequest, NotAsItStands, StaleForm, UnknownToRulebook } from '../errors.js'
import type { AtHand } from '../wiring/deps.js'
import { logCareOfCase } from '../tools/care-of-case.js'
import { takeForCase } from '../parts/take.js'
import type { OnBench } from './on-bench.js'
import { withAssessment } from './on-bench.js'

/**
 * Records what was said and done: does the rulebook know it, was the sender looking at the case as it is, can the case
 * take it; then it is stored, all or nothing, and the case is assessed anew. Pages and API both come through here.
 *
 * @param on   the case as it was judged; what is stored in the meantime makes the record stale
 * @param seen how many events the sender had seen
 * @throws UnknownToRulebook, NotAsItStands, StaleForm, or BadRequest for what is no event at all
 */
export async function record(
  hand: AtHand,
  on: OnBench,
  events: readonly CaseEvent[],
  seen = on.bench.events.length,
): Promise<OnBench> {
  const { bench, knowledge, assessment } = on
  if (events.some((event) => !CaseEvent.safeParse(event).success))
    throw new BadRequest('Something in this form does not fit; load the page again and send it once more.')
  const [problem, ...others] = events.flatMap((event) => eventProblems(knowledge, bench.kind, event))
  if (problem) throw new UnknownToRulebook([problem, ...others])
  if (seen !== bench.events.length) throw new StaleForm(bench.id)
  const conflict = conflictAmong(bench, events, assessment)
  if (conflict !== null) throw new NotAsItStands(conflict)
  const after = await hand.cases.append(bench.id, events, hand.now().toISOString(), bench.events.length)
  if (events.some(({ type }) => type === 'finished')) {
    await takeForCase(hand, after)
    await logCareOfCase(hand, after)
  }
  return withAssessment(hand, after)
}
