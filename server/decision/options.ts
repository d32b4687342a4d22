/**
 * The three ways out of a trouble and what each is expected to cost, in minor units: mend it here (and send it in or
 * replace it after all if it comes to that), send it in now, replace it now.
 */
import type { Figures } from '../../shared/figures.js'
import {
  dayCost,
  replacingCost,
  sendingIn,
  warrantyHolds,
  yearlyIfMended,
  yearlyIfReplaced,
} from './prices.js'
import type { Job, MayBe, Trouble } from './trouble.js'

export const ways = ['mend-here', 'send-in', 'replace'] as const
export type Way = (typeof ways)[number]

/** What an expected cost is made of. All in minor units; they sum to the cost. */
export interface Makeup {
  readonly asking: number
  readonly work: number
  readonly parts: number
  readonly waiting: number
  readonly fee: number
  readonly replacing: number
}

export interface Option {
  readonly way: Way
  /** expected cost from here until it runs again or a new one does */
  readonly cost: number
  readonly makeup: Makeup
  /** equivalent annual cost from here on, upkeep included */
  readonly yearly: number
  /** expected days until the shop has a tool again */
  readonly days: number
  /** chance that it comes out as meant: mended here, mended by the service, a new one */
  readonly asMeant: number
}

/** How a trouble is looked at: with which figures, and whether the body was opened already. */
export interface View {
  readonly figures: Figures
  readonly opened: boolean
}

const none: Makeup = { asking: 0, work: 0, parts: 0, waiting: 0, fee: 0, replacing: 0 }
const plus = (a: Makeup, b: Makeup, share = 1): Makeup => ({
  asking: a.asking + share * b.asking,
  work: a.work + share * b.work,
  parts: a.parts + share * b.parts,
  waiting: a.waiting + share * b.waiting,
  fee: a.fee + share * b.fee,
  replacing: a.replacing + share * b.replacing,
})
export const totalOf = (it: Makeup): number =>
  it.asking + it.work + it.parts + it.waiting + it.fee + it.replacing

/** A way to its end, for one thing that may be wrong: what it costs, how long it takes, how likely as meant. */
export interface Course {
  readonly makeup: Makeup
  readonly days: number
  readonly asMeant: number
}

/** Sending in what may be this. What comes back as it went is replaced. */
export function sent({ figures, opened }: View, { serviceMends }: MayBe): Course {
  const days = (figures.daysAwayLow + figures.daysAwayHigh) / 2
  const price = sendingIn(figures, warrantyHolds(figures, opened))
  const mends = serviceMends ? price.mends : 0
  return {
    makeup: {
      ...none,
      fee: mends * price.mended + (1 - mends) * price.inVain,
      waiting: price.away,
      replacing: (1 - mends) * replacingCost(figures),
    },
    days: days + (1 - mends) * figures.newDays,
    asMeant: mends,
  }
}

export function replaced({ figures }: View): Course {
  const waiting = figures.newDays * dayCost(figures)
  return {
    makeup: { ...none, waiting, replacing: replacingCost(figures) - waiting },
    days: figures.newDays,
    asMeant: 1,
  }
}

/** The cheaper of sending in and replacing, for one thing that may be wrong, as expected beforehand. */
export function endingOf(view: View, it: MayBe): 'send-in' | 'replace' {
  return totalOf(sent(view, it).makeup) <= totalOf(replaced(view).makeup) ? 'send-in' : 'replace'
}

const ended = (view: View, it: MayBe): Course =>
  endingOf(view, it) === 'send-in' ? sent(view, it) : replaced(view)

/** Is mending here the thing to do, were it known that it is this? */
export function isMended(view: View, it: MayBe): boolean {
  if (it.jobs.length === 0) return false
  const end = ended(view, it)
  return totalOf(repaired(view, it, end).makeup) <= totalOf(end.makeup)
}

/** The jobs done, and the end if one of them fails. */
function repaired(view: View, { jobs }: MayBe, end: Course): Course {
  const works = jobs.reduce((chance, { chance: one }) => chance * one, 1)
  const done = jobs.reduce((sum, job) => plus(sum, jobMakeup(view, job)), none)
  const wait = jobs.some(({ needsParts }) => needsParts) ? view.figures.partDays : 0
  return {
    makeup: plus(done, end.makeup, 1 - works),
    days: wait + (1 - works) * end.days,
    asMeant: works,
  }
}

export function jobMakeup({ figures }: View, job: Job): Makeup {
  return {
    ...none,
    work: job.minutes * figures.minute,
    parts: job.parts,
    waiting: job.needsParts ? figures.partDays * dayCost(figures) : 0,
  }
}

/** Mending here what may be this, once it is known. */
function mended(view: View, it: MayBe): Course {
  const end = ended(view, it)
  if (!isMended(view, it)) return { ...end, asMeant: 0 }
  return repaired(view, it, end)
}

/** All three, in the order of `ways`. */
export function optionsOf(trouble: Trouble, view: View): readonly Option[] {
  const asking: Makeup = { ...none, asking: trouble.asking * view.figures.minute }
  const here = meanOf(trouble, (it) => mended(view, it))
  const away = meanOf(trouble, (it) => sent(view, it))
  return [
    option('mend-here', { ...here, makeup: plus(here.makeup, asking) }, view),
    option('send-in', away, view),
    option('replace', replaced(view), view),
  ]
}

function option(way: Way, { makeup, days, asMeant }: Course, { figures }: View): Option {
  const cost = totalOf(makeup)
  const yearly = way === 'replace' ? yearlyIfReplaced(figures) : yearlyIfMended(figures, cost)
  return { way, cost, makeup, yearly, days, asMeant }
}

function meanOf({ mayBe }: Trouble, courseOf: (it: MayBe) => Course): Course {
  return mayBe.reduce<Course>(
    (sum, it) => {
      const course = courseOf(it)
      return {
        makeup: plus(sum.makeup, course.makeup, it.weight),
        days: sum.days + it.weight * course.days,
        asMeant: sum.asMeant + it.weight * course.asMeant,
      }
    },
    { makeup: none, days: 0, asMeant: 0 },
  )
}

/** Costs nearer than this are the same, in minor units. */
const same = 1e-6

/**
 * The way with the least expected cost among those allowed. In a tie the one that more likely comes out as meant: to
 * begin mending what would be sent in anyway is no mending.
 */
export function cheapest(
  options: readonly Option[],
  allowed: (way: Way) => boolean = () => true,
): Option | null {
  return options
    .filter(({ way }) => allowed(way))
    .reduce<Option | null>((best, it) => {
      if (best === null || it.cost < best.cost - same) return it
      return it.cost < best.cost + same && it.asMeant > best.asMeant ? it : best
    }, null)
}
