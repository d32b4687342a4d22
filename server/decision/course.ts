/** A way to its end: what it costs and what that is made of, how long it takes, how likely it works. */

/** What an expected cost is made of. All in minor units; they sum to the cost. Only `teaching` is below nothing. */
export interface Makeup {
  readonly asking: number
  readonly work: number
  readonly parts: number
  readonly waiting: number
  readonly fee: number
  readonly replacing: number
  readonly teaching: number
}

export interface Course {
  readonly makeup: Makeup
  readonly cash: number
  readonly days: number
  readonly works: number
}

export const nothing: Makeup = { asking: 0, work: 0, parts: 0, waiting: 0, fee: 0, replacing: 0, teaching: 0 }
const none: Course = { makeup: nothing, cash: 0, days: 0, works: 0 }

export const totalOf = (it: Makeup): number =>
  it.asking + it.work + it.parts + it.waiting + it.fee + it.replacing + it.teaching

/** One after the other, or a share of the second. */
export function plus(a: Course, b: Course, share = 1): Course {
  return {
    makeup: {
      asking: a.makeup.asking + share * b.makeup.asking,
      work: a.makeup.work + share * b.makeup.work,
      parts: a.makeup.parts + share * b.makeup.parts,
      waiting: a.makeup.waiting + share * b.makeup.waiting,
      fee: a.makeup.fee + share * b.makeup.fee,
      replacing: a.makeup.replacing + share * b.makeup.replacing,
      teaching: a.makeup.teaching + share * b.makeup.teaching,
    },
    cash: a.cash + share * b.cash,
    days: a.days + share * b.days,
    works: a.works + share * b.works,
  }
}

/** The mean of courses by their shares, which sum to 1. */
export const meanOf = (parts: readonly (readonly [share: number, course: Course])[]): Course =>
  parts.reduce((sum, [share, course]) => plus(sum, course, share), none)
