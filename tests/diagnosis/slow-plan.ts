/**
 * The slow way to the best plan: every step, every fix and ending, every answer followed to the end, nothing
 * remembered, nothing cut short. Own code throughout; weights stay unnormalised, so a state's value is its
 * chance times its expected cost.
 */
import { onceFor } from '../../shared/once-for.js'
import type { PlanProblem, PlanState, PlanStep } from '../../server/diagnosis/plan/problem.js'

interface Where {
  /** weight by set of causes still there, named "0,2" */
  readonly weights: ReadonlyMap<string, number>
  readonly known: ReadonlySet<number>
  readonly tried: ReadonlySet<number>
  readonly standing: number
  readonly powerBarred: boolean
}

export function leastCost(problem: PlanProblem, start: PlanState): number {
  const weights = new Map<string, number>()
  problem.sets.forEach((set, h) => start.weights[h]! > 0 && weights.set(set.join(), start.weights[h]!))
  const indices = (flags: Uint8Array) => new Set([...flags.keys()].filter((k) => flags[k]))
  return valueOf(problem, {
    weights,
    known: indices(start.settled),
    tried: indices(start.tried),
    standing: start.standing,
    powerBarred: start.powerBarred,
  })
}

const numbers = onceFor(({ sets }: PlanProblem) => new Map(sets.map((set, h) => [set.join(), h])))
const numberOf = (problem: PlanProblem, set: string): number => numbers(problem).get(set)!

const total = (weights: ReadonlyMap<string, number>): number =>
  [...weights.values()].reduce((s, w) => s + w, 0)

function setupCost(problem: PlanProblem, needed: number, standing: number): number {
  return problem.setupCosts.reduce((sum, cost, bit) => {
    const missing = needed & (1 << bit) && !(standing & (1 << bit))
    return missing ? sum + cost : sum
  }, 0)
}

function valueOf(problem: PlanProblem, where: Where): number {
  const mass = total(where.weights)
  if (mass === 0) return 0
  let best = Infinity
  for (const end of problem.ends) {
    let cost = 0
    for (const [set, w] of where.weights) cost += w * end[numberOf(problem, set)]!
    best = Math.min(best, cost)
  }
  for (const step of problem.steps) {
    if (step.barred || (step.power && where.powerBarred)) continue
    if (step.findings.every((f) => where.known.has(f))) continue
    const cost = mass * (step.cost + setupCost(problem, step.setups, where.standing))
    best = Math.min(best, cost + afterStep(problem, where, step))
  }
  problem.fixes.forEach((fix, f) => {
    if (fix.barred || where.tried.has(f)) return
    const cost = mass * (fix.cost + setupCost(problem, fix.setups, where.standing))
    best = Math.min(best, cost + afterFix(problem, where, f))
  })
  return best
}

/** All answers to the findings of a step, one after the other. */
function afterStep(problem: PlanProblem, where: Where, step: PlanStep): number {
  const open = step.findings.filter((f) => !where.known.has(f))
  const sameTopic = (f: number, g: number) =>
    f === g || (problem.topic[f]! >= 0 && problem.topic[f] === problem.topic[g])
  const standing = (where.standing | step.setups) & step.keeps
  const answer = (k: number, weights: ReadonlyMap<string, number>, yes: number[], no: number[]): number => {
    if (total(weights) === 0) return 0
    if (k === open.length) {
      const known = new Set([...where.known, ...open])
      let tried = where.tried
      const dead = [
        ...yes.filter((f) => problem.effectOfYes[f]!.hidesRunning),
        ...no.filter((f) => problem.effectOfNo[f]!.hidesRunning),
      ]
      for (const f of open) {
        if (dead.length > 0 && problem.running[f] && !yes.includes(f) && !no.includes(f)) continue
        problem.topic.forEach((_, g) => sameTopic(f, g) && known.add(g))
      }
      let powerBarred = where.powerBarred
      const effects = [...yes.map((f) => problem.effectOfYes[f]!), ...no.map((f) => problem.effectOfNo[f]!)]
      for (const effect of effects) {
        effect.hidesFindings.forEach((f) => known.add(f))
        if (effect.hidesRunning) problem.running.forEach((is, f) => is && known.add(f))
        if (effect.hidesPower) powerBarred = true
        if (effect.hidesFixes.length > 0) tried = new Set([...tried, ...effect.hidesFixes])
      }
      return valueOf(problem, { weights, known, tried, standing, powerBarred })
    }
    const f = open[k]!
    const dead =
      yes.some((g) => problem.effectOfYes[g]!.hidesRunning) ||
      no.some((g) => problem.effectOfNo[g]!.hidesRunning)
    if (problem.running[f] && dead) return answer(k + 1, weights, yes, no)
    // sides of one number: the first in rulebook order speaks for all that are asked with it
    if (open.some((g) => g < f && sameTopic(f, g))) return answer(k + 1, weights, yes, no)
    const split = (is: boolean) =>
      new Map(
        [...weights].map(([set, w]) => {
          const p = problem.chance[f]![numberOf(problem, set)]!
          return [set, w * (is ? p : 1 - p)] as const
        }),
      )
    const whenYes = problem.effectOfYes[f]!.stops
      ? total(split(true)) * problem.stopCost
      : answer(k + 1, split(true), [...yes, f], no)
    const whenNo = problem.effectOfNo[f]!.stops
      ? total(split(false)) * problem.stopCost
      : answer(k + 1, split(false), yes, [...no, f])
    return whenYes + whenNo
  }
  return answer(0, where.weights, [], [])
}

/** Each cause that the fix touches goes or stays by its chance; where nothing is left it is over. */
function afterFix(problem: PlanProblem, where: Where, f: number): number {
  const fix = problem.fixes[f]!
  const left = new Map<string, number>()
  const better = new Map<string, number>()
  const tells = fix.outcome >= 0 && !where.known.has(fix.outcome)
  for (const [set, w] of where.weights) {
    const p = tells ? problem.chance[fix.outcome]![numberOf(problem, set)]! : 0
    const go = (causes: readonly number[], kept: readonly number[], chance: number): void => {
      const [cause, ...rest] = causes
      if (cause === undefined) {
        if (kept.length === 0) return
        left.set(kept.join(), (left.get(kept.join()) ?? 0) + chance * (1 - p))
        better.set(kept.join(), (better.get(kept.join()) ?? 0) + chance * p)
        return
      }
      const g = fix.cures.get(cause) ?? 0
      go(rest, kept, chance * g)
      go(rest, [...kept, cause], chance * (1 - g))
    }
    go(set.split(',').map(Number), [], w)
  }
  const known = tells ? new Set([...where.known, fix.outcome]) : where.known
  const next = { known, tried: new Set([...where.tried, f]), standing: 0, powerBarred: where.powerBarred }
  return valueOf(problem, { ...next, weights: left }) + valueOf(problem, { ...next, weights: better })
}
