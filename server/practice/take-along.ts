/**
 * The one thing that a learner takes along from an exercise. What can hurt comes first, then how it ended, then the
 * dearest move, then what was believed; and where nothing was wrong, what was done well. Nothing is held against
 * anybody that the answers up to then allowed: luck is no fault.
 */
import type { Slip } from '../../shared/knowledge.js'
import type { PracticeMove, Spread } from '../../shared/practice.js'
import type { Debrief, DebriefStep } from './debrief.js'

export type TakeAlong =
  | { readonly what: 'slip'; readonly slip: Slip; readonly ended: boolean; readonly step: number }
  /** handed back with trouble in it */
  | { readonly what: 'in-trouble'; readonly step: number }
  /** sent in, set aside or handed back where something else was right */
  | { readonly what: 'wrong-end'; readonly step: number }
  | { readonly what: 'dear-move'; readonly step: number }
  /** points on a cause that was not there, more than on the one that was; `allowed`: the answers spoke for it */
  | ({ readonly what: 'mixed-up'; readonly allowed: boolean } & Pair)
  /** more, or fewer, points on a cause than the answers up to then allowed */
  | ({ readonly what: 'too-sure' | 'not-sure-enough'; readonly wasThere: boolean } & Pointed)
  | { readonly what: 'well-done'; readonly which: 'as-the-plan' | 'sure-and-right' | 'little-lost' }

export interface Pointed {
  readonly cause: string
  /** 0 to 100 */
  readonly points: number
  readonly plans: number
}

export interface Pair {
  /** the cause that had the points, and the one that was there */
  readonly taken: Pointed
  readonly there: Pointed
}

/** What it is chosen from. */
export type LookedThrough = Pick<Debrief, 'over' | 'causes' | 'left' | 'spread' | 'planSpread' | 'losses'> & {
  readonly steps: readonly (Pick<DebriefStep, 'plan' | 'lostMinutes' | 'slips'> & {
    readonly done: { readonly move: PracticeMove }
  })[]
}

/** "A few minutes": less is not worth a lesson. */
const fewMinutes = 3
/** Less than this is as good as the plan's, in minutes; nobody at a bench would notice. */
export const noLoss = 0.25
/** Points on a cause that was not there, from which it counts as mixed up with the one that was. */
const mixedUp = 30
/** Points off what the answers allowed, from which it is a lesson; and up to which it is no fault. */
const farOff = 30
const nearly = 20
/** Points that count as sure. */
const sure = 80

/** Of a finished exercise. */
export function takeAlong(it: LookedThrough): TakeAlong {
  return slipIn(it) ?? wrongEnd(it) ?? dearMove(it) ?? inPoints(it) ?? wellDone(it)
}

function slipIn({ steps }: LookedThrough): TakeAlong | undefined {
  const slips = steps.flatMap(({ slips: its }, step) =>
    its.map((slip) => ({ what: 'slip' as const, slip, ended: slip.grade === 'ends', step })),
  )
  return slips.find(({ ended }) => ended) ?? slips[0]
}

function wrongEnd({ steps, over, left }: LookedThrough): TakeAlong | undefined {
  const step = steps.length - 1
  if (over === 'hand-back' && left.length > 0) return { what: 'in-trouble', step }
  const last = steps[step]
  return last?.done.move.type === 'ended' && last.lostMinutes > fewMinutes
    ? { what: 'wrong-end', step }
    : undefined
}

function dearMove({ steps }: LookedThrough): TakeAlong | undefined {
  const most = Math.max(...steps.map(({ lostMinutes }) => lostMinutes))
  if (!(most > fewMinutes)) return undefined
  return { what: 'dear-move', step: steps.findIndex(({ lostMinutes }) => lostMinutes === most) }
}

function inPoints({ spread, planSpread, causes }: LookedThrough): TakeAlong | undefined {
  if (!spread || !planSpread || !namesAny(spread)) return undefined
  const mixUp = mixUpIn(spread, planSpread, causes)
  if (mixUp && !mixUp.allowed) return mixUp
  const all = [...new Set([...Object.keys(spread.points), ...Object.keys(planSpread.points)])]
    .map((cause) => pointed(spread, planSpread, cause))
    .sort((a, b) => Math.abs(b.points - b.plans) - Math.abs(a.points - a.plans))
  const tooSure = all.find(({ points, plans }) => points - plans >= farOff)
  if (tooSure) return { what: 'too-sure', ...tooSure, wasThere: causes.includes(tooSure.cause) }
  const notSure = all.find(({ points, plans }) => plans - points >= farOff)
  if (notSure) return { what: 'not-sure-enough', ...notSure, wasThere: causes.includes(notSure.cause) }
  return mixUp
}

/** Were suspects given at all? All on "something else" says nothing of any. */
export const namesAny = ({ points }: Spread): boolean => Object.values(points).some((given) => given > 0)

const pointed = (spread: Spread, plan: Spread, cause: string): Pointed => ({
  cause,
  points: spread.points[cause] ?? 0,
  plans: plan.points[cause] ?? 0,
})

function mixUpIn(spread: Spread, plan: Spread, causes: readonly string[]) {
  const byPoints = (ids: readonly string[]) =>
    ids.map((id) => pointed(spread, plan, id)).sort((a, b) => b.points - a.points)
  const [taken] = byPoints(Object.keys(spread.points).filter((id) => !causes.includes(id)))
  const there = byPoints(causes).at(-1)
  if (!taken || !there || taken.points < mixedUp || there.points >= taken.points) return undefined
  const allowed = taken.plans >= there.plans && taken.points - taken.plans <= nearly
  return { what: 'mixed-up' as const, allowed, taken, there }
}

function wellDone({ steps, spread, causes, planSpread }: LookedThrough): TakeAlong {
  if (steps.every(({ lostMinutes }) => lostMinutes < noLoss))
    return { what: 'well-done', which: 'as-the-plan' }
  const onThem = causes.reduce((sum, id) => sum + (spread?.points[id] ?? 0), 0)
  const which = planSpread && onThem >= sure ? 'sure-and-right' : 'little-lost'
  return { what: 'well-done', which }
}
