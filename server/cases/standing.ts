import type { CaseEvent } from '../../shared/case.js'
import type { Knowledge, Step } from '../../shared/knowledge.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import type { Struck } from './struck-out.js'

/**
 * The set-ups that stand after the events, in rulebook order: whoever has the brush caps out need not
 * take them out again. A check leaves its set-ups, and those they need, behind; one under power first
 * undoes what cannot stand while the tool runs; a fix ends with a test run of the tool put together.
 */
export function standingAfter(events: readonly CaseEvent[], struck: Struck, knowledge: Knowledge): string[] {
  let standing = new Set<string>()
  const looks = looksOf(events, struck, knowledge)

  events.forEach((event, place) => {
    switch (event.type) {
      case 'answered': {
        const step = looks.get(place)
        if (step) standing = afterStep(standing, step, knowledge)
        break
      }
      case 'tried':
        if (!struck.fix(place)) standing = new Set()
        break
      case 'put-together':
      case 'finished':
      case 'came-back':
      case 'reopened':
        standing = new Set()
        break
    }
  })

  return knowledge.setups.filter(({ id }) => standing.has(id)).map(({ id }) => id)
}

/** By the place of an event: the step that somebody put hands or eyes to. What was taken back was none. */
export function looksOf(
  events: readonly CaseEvent[],
  struck: Struck,
  { steps }: Knowledge,
): ReadonlyMap<number, Step> {
  const looks = new Map<number, Step>()
  const seen = new Set<string>()
  events.forEach((event, place) => {
    if (event.type !== 'answered') return
    const given = Object.entries(event.answers).filter(([question]) => !struck.answer(place, question))
    // A correction of what was seen is no second look, and who can't tell may not have looked at all.
    const looked = given.some(
      ([question, value]) => value !== 'cant-tell' && !(event.when === 'as-before' && seen.has(question)),
    )
    const step = looked ? steps.find(({ id }) => id === event.step) : undefined
    if (step) looks.set(place, step)
    for (const [question] of given) seen.add(question)
  })
  return looks
}

function afterStep(standing: ReadonlySet<string>, step: Step, knowledge: Knowledge): Set<string> {
  const all = new Set(standing)
  for (const { id } of setupsNeeded(knowledge.setups, step.setups)) all.add(id)
  if (!step.power) return all
  const mayStand = knowledge.setups.filter(({ id, withPower }) => step.setups.includes(id) || withPower)
  return new Set(mayStand.flatMap(({ id }) => (all.has(id) ? [id] : [])))
}
