import type { Setup } from '../../../shared/knowledge.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import type { OnBench } from '../../bench/on-bench.js'
import { minutes } from '../layout/words.js'

/** A set-up that must be made first, told in full. */
interface SetupView {
  readonly name: string
  readonly how: readonly string[]
  readonly back: readonly string[]
  readonly cautions: readonly string[]
  readonly tools: readonly string[]
  readonly minutes: string
}

/** How the tool must stand for a step or fix, against how it stands. */
export interface Setups {
  readonly toMake: readonly SetupView[]
  readonly standing: readonly string[]
  /** set-ups to undo first, because the tool runs now and they do not allow it; empty when there is none */
  readonly putBack: string
}

/** What is to be done to the tool before a step that needs `wanted`, and runs it when `power`. */
export function setupsView(on: OnBench, wanted: readonly string[], power: boolean): Setups {
  const stands = new Set(on.situation.standing)
  const needed = setupsNeeded(on.knowledge.setups, wanted)
  const neededIds = new Set(needed.map((setup) => setup.id))
  const standing = setupsNeeded(on.knowledge.setups, on.situation.standing)
  return {
    toMake: needed
      .filter((setup) => !stands.has(setup.id))
      .map((setup) => ({ ...setup, minutes: minutes(setup.minutes) })),
    standing: standing.filter((setup) => neededIds.has(setup.id)).map((setup) => setup.name),
    putBack: power ? undoing(standing.filter((setup) => !setup.withPower && !neededIds.has(setup.id))) : '',
  }
}

/** "Brush caps in, then plug in": how the tool stands without these set-ups, the last one made first. */
function undoing(setups: readonly Setup[]): string {
  return setups
    .map(({ name, undone }) => (undone ?? `undo “${name}”`).toLowerCase())
    .reverse()
    .join(', then ')
}
