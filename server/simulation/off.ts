/** A world in which the rulebook's estimates are off: what happens when the tools are not as the book has them. */
import type { NoisyOrModel } from '../diagnosis/noisy-or.js'
import type { ToolModel } from './tool.js'
import { chance, keyOf, normal } from './chance.js'

/**
 * Every prior, leak and strength moved by a normal number of log-odds, each by its own. What is 0 or 1 stays so.
 *
 * @param sd    standard deviation in log-odds; 0.7 makes one in three odds wrong by a factor of 2 or more
 * @param world a number: another one, another world; the same is the same for the same ids
 */
export function worldOff<Model extends ToolModel>(model: Model, sd: number, world: number): Model {
  const shift = (...keys: readonly number[]) =>
    sd * normal(chance(world, ...keys, keyOf('off-u')), chance(world, ...keys, keyOf('off-v')))
  const causeKeys = model.causes.map(({ id }) => keyOf(id))
  const numbers: NoisyOrModel = {
    exclusive: model.exclusive,
    priors: model.priors.map((p, i) => movedInLogOdds(p, shift(keyOf('prior'), causeKeys[i]!))),
    leaks: model.leaks.map((p, f) => movedInLogOdds(p, shift(keyOf('leak'), keyOf(model.findings[f]!.id)))),
    strengths: model.strengths.map((row, f) => {
      const key = keyOf(model.findings[f]!.id)
      return row.map((p, i) => (p === 0 ? 0 : movedInLogOdds(p, shift(key, causeKeys[i]!))))
    }),
  }
  return { ...model, ...numbers }
}

/** @param p in [0, 1] */
export function movedInLogOdds(p: number, by: number): number {
  if (p <= 0 || p >= 1) return p
  const odds = (p / (1 - p)) * Math.exp(by)
  return odds / (1 + odds)
}
