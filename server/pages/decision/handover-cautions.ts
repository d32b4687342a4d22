/** Dangers, for the papers that go with a tool: whoever opens the box or takes it apart must know them first. */
import { caseLifts } from '../../bench/case-state.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'

/** So many dangers are told with their reason, worst first; all of them by name. */
const mostInFull = 2

/** Those that stand. @param room how many are told with their reason */
export function standingDangers({ assessment, knowledge }: OnBench, room = mostInFull): readonly string[] {
  const { stops } = lookupOf(knowledge)
  const all = assessment.stops.map(({ id }) => stops.get(id) ?? { name: id, why: '' })
  const also = all.slice(room).map(({ name }) => name)
  return [
    ...all.slice(0, room).map(({ name, why }) => `${name}. ${why}`),
    ...(also.length > 0 ? [`Also: ${also.join('; ')}.`] : []),
  ]
}

/** Those that stand, those that were lifted and by whom, and what the likeliest causes could do to the hands. */
export function handoverCautions(on: OnBench, room = mostInFull): readonly string[] {
  const { assessment, situation, bench, knowledge } = on
  const { stops } = lookupOf(knowledge)
  const lifts = caseLifts(bench)
  const lifted = situation.stopsLifted.map(
    (id) => `${stops.get(id)?.name ?? id}, by ${lifts.get(id) ?? 'somebody here'}`,
  )
  return [
    ...standingDangers(on, room),
    ...(lifted.length > 0 ? [`Lifted: ${lifted.join('; ')}.`] : []),
    ...(assessment.stops.length > room ? [] : hazards(on)),
  ]
}

/** How many causes, and from which share on, are worth a warning. */
const mostHazards = 2
const leastShare = 0.1

function hazards({ knowledge, assessment }: OnBench): readonly string[] {
  const { causes } = lookupOf(knowledge)
  return assessment.causes
    .filter(({ probability }, place) => place < mostHazards && probability >= leastShare)
    .flatMap(({ id, name }) => {
      const hazard = causes.get(id)?.hazard
      return hazard === undefined ? [] : [`${name}: ${hazard}`]
    })
}
