/**
 * Fits the weights of the chances on the complaints to tune on, and prints them: `node server/run.mjs tests/statements/fit.ts`.
 * Least log loss over every statement that shares a word with what was said, by a walk along one weight at a time.
 * A statement that is as right as another counts as meant where it is first; where it is not, it may be meant or not.
 */
import { loadKnowledge } from '../../server/rulebook/load.js'
import type { Weights } from '../../server/statements/chances.js'
import { chances, fitted } from '../../server/statements/chances.js'
import { evidenceIn } from '../../server/statements/statements.js'
import { complaintsOf } from './complaint.js'

const knowledge = loadKnowledge()
const cases = complaintsOf('tuned-on').map(({ kind, words, means }) => ({
  means: new Set(means),
  evidence: evidenceIn(knowledge, kind, words),
}))

/** Mean of −ln P(as labelled) a complaint, and a little that keeps weights from growing without end. */
function loss(weights: Weights): number {
  let sum = 0
  for (const { means, evidence } of cases) {
    const found = chances(evidence, weights)
    const firstRight = found.find(({ id }) => means.has(id))
    if (firstRight === undefined && means.size > 0) sum += 5
    for (const { id, chance } of found) {
      if (!means.has(id)) sum -= Math.log(1 - chance)
      else if (id === firstRight!.id) sum -= Math.log(chance)
    }
  }
  return sum / cases.length + 0.002 * Object.values(weights).reduce((total, w) => total + w * w, 0)
}

/** Set by hand: a long story says several things, each to be offered, and few complaints to tune on are long. */
const byHand: readonly string[] = ['coveredOfAll']
const names = (Object.keys(fitted) as (keyof Weights)[]).filter((name) => !byHand.includes(name))
let best: Weights = fitted
let least = loss(best)
for (let step = 0.8; step > 0.04; step /= 2) {
  for (let moved = true; moved;) {
    moved = false
    for (const name of names) {
      for (const by of [step, -step]) {
        const next = { ...best, [name]: best[name] + by }
        const there = loss(next)
        if (there < least - 1e-6) [best, least, moved] = [next, there, true]
      }
    }
  }
  console.log(step, least.toFixed(4), best)
}
