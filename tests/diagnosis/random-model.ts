/** Random networks with findings seen and fixes tried, from seeded numbers. */
import type { NoisyOrModel, Observation, Tried } from '../../server/diagnosis/noisy-or.js'
import { generator } from '../study/random-rulebook.js'

export interface Scored {
  readonly model: NoisyOrModel
  readonly observations: readonly Observation[]
  readonly tried: readonly Tried[]
}

export interface Shape {
  readonly causes: number
  readonly positives: number
  readonly negatives: number
  /** fixes tried; findings are seen before, between and after them */
  readonly fixes?: number
  readonly exclusive?: number
  /** strengths and leaks hard against 0 and 1 */
  readonly extreme?: boolean
}

export function randomlyScored(seed: number, shape: Shape): Scored {
  const random = generator(1 + seed * 7919)
  for (let k = 0; k < 12; k++) random()
  const { causes, positives, negatives, fixes = 0, exclusive = 0, extreme = false } = shape
  const edge = () => [1e-9, 1e-6, 1e-3, 0.5, 1 - 1e-3, 1 - 1e-6, 1 - 1e-9][Math.floor(random() * 7)]!
  const strength = () => (random() < 0.4 ? 0 : extreme ? edge() : random())
  const leak = () => (extreme && random() < 0.5 ? 1e-9 : 0.2 * random())
  const findings = positives + negatives
  const present = Array.from({ length: findings }, (_, f) => f < positives)
  const model: NoisyOrModel = {
    priors: Array.from({ length: causes }, () => 0.002 + 0.3 * random()),
    exclusive: Array.from({ length: causes }, (_, i) => i < exclusive),
    leaks: present.map(leak),
    strengths: present.map(() => Array.from({ length: causes }, strength)),
  }
  const after = () => Math.floor(random() * (fixes + 1))
  const observations = present.map((is, finding) => ({ finding, present: is, after: after() }))
  // positives and negatives in mixed order
  observations.sort(() => random() - 0.5)
  const tried = Array.from({ length: fixes }, () =>
    Array.from({ length: causes }, () => (random() < 2.2 / causes ? 0.05 + 0.9 * random() : 0)),
  )
  return { model, observations, tried }
}
