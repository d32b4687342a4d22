/**
 * Troubled tools drawn from the rulebook's own model: causes by their priors with at least one there, findings by
 * noisy-OR. Every draw is keyed by the tool's number and by ids.
 *
 * Causes that come independently, one at least, are drawn without rejection as arrivals: cause i arrives at an
 * exponential time of rate λ = −ln(1 − π) and is there if that is before 1. Which one is first (the *main* cause),
 * when, and which others follow can then be drawn one after the other, because exponential waiting has no memory
 * (Devroye, Non-Uniform Random Variate Generation, 1986, ch. V). An exclusive cause is there only alone.
 */
import type { NoisyOrModel } from '../diagnosis/noisy-or.js'
import { chance, exponential, keyOf } from './chance.js'
import { onceFor } from '../../shared/once-for.js'

/** What a tool is drawn from: numbers by position, and the ids that key the draws. */
export interface ToolModel extends NoisyOrModel {
  readonly causes: readonly { readonly id: string }[]
  readonly findings: readonly { readonly id: string }[]
  /** by finding: what the fix that it tells of, done before, would have cured, by cause; absent where none tells of one */
  readonly earlier?: ReadonlyMap<number, readonly number[]>
}

export interface DrawnTool {
  readonly number: number
  /** causes there at the start, ascending positions; at least one */
  readonly causes: readonly number[]
  /** the one that came first; in how many tools a cause does is its share in the rulebook, nearly */
  readonly main: number
  /** is the finding true with these causes there? Fewer causes make one true only where it tells of an earlier fix. */
  readonly shows: (finding: number, causes: readonly number[]) => boolean
  /** does this fix, of chance `g` in [0, 1], cure the cause? The same each time it is tried. */
  readonly cures: (fix: string, cause: number, g: number) => boolean
  /** a further number of this tool in [0, 1), for a purpose and what it is about */
  readonly chance: (purpose: string, id: string) => number
}

const asMain = keyOf('main')
const asFollower = keyOf('follower')
const asLeak = keyOf('leak')
const asCure = keyOf('cure')
const asEarlier = keyOf('earlier')

/** By cause: P(it is the main one), of tools in trouble; sums to 1. */
export function mainShares(model: NoisyOrModel): Float64Array {
  const { rates, rate, exclusiveAbsent } = arrivals(model)
  const ordinary = -Math.expm1(-rate) * exclusiveAbsent
  const nothing = Math.exp(-rate) * exclusiveAbsent
  const shares = Float64Array.from(model.priors, (prior, i) =>
    model.exclusive[i] ? (prior / (1 - prior)) * nothing : rate > 0 ? (rates[i]! / rate) * ordinary : 0,
  )
  const total = shares.reduce((sum, share) => sum + share, 0)
  return shares.map((share) => share / total)
}

/** @param main draws a tool whose main cause is this; absent: by the shares */
export function drawTool(model: ToolModel, number: number, main = drawnMain(model, number)): DrawnTool {
  const causeKeys = keysOf(model.causes)
  const findingKeys = keysOf(model.findings)
  return {
    number,
    main,
    causes: withFollowers(model, causeKeys, number, main),
    shows: (f, causes) => {
      const key = findingKeys[f]!
      // a fix that would have cured it was not done before, or there were no trouble now
      const cured = model.earlier?.get(f)
      if (cured && causes.some((c) => chance(number, key, asEarlier, causeKeys[c]!) < cured[c]!)) return false
      if (chance(number, key, asLeak) < model.leaks[f]!) return true
      const strengths = model.strengths[f]!
      return causes.some((c) => strengths[c]! > 0 && chance(number, key, causeKeys[c]!) < strengths[c]!)
    },
    cures: (fix, cause, g) => chance(number, asCure, keyOf(fix), causeKeys[cause]!) < g,
    chance: (purpose, id) => chance(number, keyOf(purpose), keyOf(id)),
  }
}

function drawnMain(model: ToolModel, number: number): number {
  const keys = keysOf(model.causes)
  let first = -1
  let earliest = Infinity
  sharesOf(model).forEach((share, i) => {
    if (share <= 0) return
    const time = exponential(chance(number, asMain, keys[i]!)) / share
    if (time < earliest) {
      earliest = time
      first = i
    }
  })
  return first
}

/** The causes there when this one came first: whoever follows it in time. */
function withFollowers(model: ToolModel, keys: Uint32Array, number: number, main: number): number[] {
  if (model.exclusive[main]) return [main]
  const { rates, rate } = arrivals(model)
  const whole = -Math.expm1(-rate) // P(somebody arrives in time)
  const began = -Math.log1p(-chance(number, asMain) * whole) / rate
  return [...model.priors.keys()].filter(
    (i) =>
      i === main ||
      (!model.exclusive[i] && began + exponential(chance(number, asFollower, keys[i]!)) / rates[i]! < 1),
  )
}

/** Rates of arrival of the ordinary causes, their sum, and the chance that no exclusive one comes. */
function arrivals({ priors, exclusive }: NoisyOrModel) {
  const rates = priors.map((prior, i) => (exclusive[i] ? 0 : -Math.log1p(-prior)))
  return {
    rates,
    rate: rates.reduce((sum, it) => sum + it, 0),
    exclusiveAbsent: priors.reduce((p, prior, i) => (exclusive[i] ? p * (1 - prior) : p), 1),
  }
}

const sharesOf = onceFor(mainShares)
const keysOf = onceFor((things: readonly { readonly id: string }[]) =>
  Uint32Array.from(things, ({ id }) => keyOf(id)),
)
