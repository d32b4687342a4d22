/**
 * The three ways out of a trouble and what each is expected to cost, in minor units: fix it here (and send it in or
 * replace it after all if it comes to that), send it in now, replace it now.
 */
import type { Figures } from '../../shared/figures.js'
import type { Way } from '../../shared/verdict-file.js'
import type { Course, Makeup } from './course.js'
import { meanOf, nothing, plus, totalOf } from './course.js'
import {
  dayCost,
  minuteCost,
  replacingCost,
  replacingToday,
  sendingIn,
  warrantyHolds,
  yearlyOf,
} from './prices.js'
import type { Job, MayBe, Trouble } from './trouble.js'

export type { Way } from '../../shared/verdict-file.js'
export const ways = ['mend-here', 'send-in', 'replace'] as const satisfies readonly Way[]

export interface Option {
  readonly way: Way
  /** expected cost from here until it runs again or a new one does, set against having fixed it for nothing */
  readonly cost: number
  readonly makeup: Makeup
  /** expected cash: what is paid today or soon, with a new one at its whole price */
  readonly cash: number
  /** equivalent annual cost over the years that a fixed tool would serve, upkeep included */
  readonly yearly: number
  /** expected days until the shop has a tool again */
  readonly days: number
  /** chance that it comes out as its name says: fixed here, fixed by the service, a new one */
  readonly works: number
}

/** How a trouble is looked at: with which figures, whether the body was opened already, and what the rules close. */
export interface View {
  readonly figures: Figures
  readonly opened: boolean
  readonly closed?: ReadonlySet<Way>
}

/**
 * Sending in what may be this. What comes back as it went is replaced.
 *
 * @param within where in the ranges of fee and days it comes out, 0 to 1
 */
export function sent({ figures, opened }: View, it: MayBe, within = 0.5): { works: Course; fails: Course } {
  const holds = warrantyHolds(figures, opened)
  const price = sendingIn(figures, holds && it.covered, within)
  const { inVain } = sendingIn(figures, holds, within)
  const course = (fee: number): Course => ({
    makeup: { ...nothing, fee, waiting: price.away },
    cash: fee,
    days: price.days,
    works: 1,
  })
  const back = plus(course(inVain), replaced({ figures, opened }, it))
  return { works: course(price.fixed), fails: { ...back, works: 0 } }
}

/** Expected: the service's own chance, where it can do it at all. */
export function sentOnMean(view: View, it: MayBe): Course {
  const { works, fails } = sent(view, it)
  const chance = it.serviceMends ? view.figures.serviceMends : 0
  return meanOf([
    [chance, works],
    [1 - chance, fails],
  ])
}

export function replaced({ figures }: View, { renews }: MayBe): Course {
  const waiting = figures.newDays * dayCost(figures)
  return {
    makeup: { ...nothing, waiting, replacing: replacingCost(figures, renews) - waiting },
    cash: replacingToday(figures),
    days: figures.newDays,
    works: 1,
  }
}

/** The cheaper of sending in and replacing, of those that no rule closes, as expected beforehand. */
export function endingOf(view: View, it: MayBe): 'send-in' | 'replace' {
  if (view.closed?.has('send-in')) return 'replace'
  if (view.closed?.has('replace')) return 'send-in'
  return totalOf(sentOnMean(view, it).makeup) <= totalOf(replaced(view, it).makeup) ? 'send-in' : 'replace'
}

/** How many of the tries are worth making, were it known that it is this; they come best first. */
export function triesMade(view: View, { tries }: MayBe, end: number): number {
  const pays = (jobs: readonly Job[]): boolean =>
    totalOf(jobsDone(view, jobs).makeup) <= chanceOf(jobs) * (end + view.figures.teaches)
  const last = tries.findIndex((jobs) => !pays(jobs))
  return last === -1 ? tries.length : last
}

/** Fixing here what may be this, once it is known: try after try, and the end if all fail. */
export function fixedHere(view: View, it: MayBe): Course {
  const end = endingOf(view, it) === 'send-in' ? sentOnMean(view, it) : replaced(view, it)
  const failed: Course = { ...end, works: 0 }
  const made = it.tries.slice(0, triesMade(view, it, totalOf(end.makeup)))
  return made.reduceRight<Course>((rest, jobs) => tried(view, jobs, rest), failed)
}

function tried(view: View, jobs: readonly Job[], rest: Course): Course {
  const chance = chanceOf(jobs)
  const works: Course = {
    makeup: { ...nothing, teaching: -view.figures.teaches },
    cash: 0,
    days: 0,
    works: 1,
  }
  return plus(
    jobsDone(view, jobs),
    meanOf([
      [chance, works],
      [1 - chance, rest],
    ]),
  )
}

export const chanceOf = (jobs: readonly Job[]): number => jobs.reduce((all, { chance }) => all * chance, 1)

export function jobsDone({ figures }: View, jobs: readonly Job[]): Course {
  const minutes = jobs.reduce((sum, job) => sum + job.minutes, 0)
  const parts = jobs.reduce((sum, job) => sum + job.parts, 0)
  const days = jobs.some(({ needsParts }) => needsParts) ? figures.partDays : 0
  const work = minutes * minuteCost(figures)
  return {
    makeup: { ...nothing, work, parts, waiting: days * dayCost(figures) },
    cash: minutes * figures.minute + parts,
    days,
    works: 0,
  }
}

/** All three, in the order of `ways`. */
export function optionsOf({ asking, mayBe }: Trouble, view: View): readonly Option[] {
  const mean = (courseOf: (it: MayBe) => Course): Course =>
    meanOf(mayBe.map((it) => [it.weight, courseOf(it)]))
  const finding: Course = {
    makeup: { ...nothing, asking: asking * minuteCost(view.figures) },
    cash: asking * view.figures.minute,
    days: 0,
    works: 0,
  }
  return [
    option(
      'mend-here',
      plus(
        finding,
        mean((it) => fixedHere(view, it)),
      ),
      view,
    ),
    option(
      'send-in',
      mean((it) => sentOnMean(view, it)),
      view,
    ),
    option(
      'replace',
      mean((it) => replaced(view, it)),
      view,
    ),
  ]
}

function option(way: Way, course: Course, { figures }: View): Option {
  const cost = totalOf(course.makeup)
  return { way, ...course, cost, yearly: yearlyOf(figures, cost) }
}
