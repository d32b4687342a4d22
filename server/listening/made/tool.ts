/** What a clipper that exists only as numbers sounds like, and what it does while it is heard. */

/** A stretch of time in seconds from the beginning of the sound. */
interface Stretch {
  readonly from: number
  readonly to: number
}

/** Amplitudes are against the blow at the harder end of a stroke, 1. */
export interface MadeTool {
  readonly perMinute: number
  /** how hard the other end of the stroke strikes, against 1 */
  readonly otherEnd: number
  /** every second stroke weaker by this share: an arm pulled unevenly by the two halves of a mains cycle */
  readonly everySecond: number
  /** the body shaken once and twice a stroke */
  readonly shake: readonly [number, number]
  /** edges that slide on each other */
  readonly slide: number
  /** seconds in which it comes up to speed, or stops; 0 where the mains holds the rate and only the stroke dies */
  readonly inertia: number
  /** a motor behind a gear: turns of its shaft a stroke, teeth of the pinion, how loud. Null without one */
  readonly gear: { readonly ratio: number; readonly teeth: number; readonly loud: number } | null
  /** hum at twice the mains frequency and its multiples */
  readonly hum: { readonly hertz: number; readonly loud: number } | null
  /** one more blow at every so many strokes, against 1 */
  readonly knock: { readonly every: number; readonly loud: number } | null
  /** ringing of the body: hertz, seconds to a third, and how a blow at the other end moves it, from −1 to 1 */
  readonly ring: readonly { readonly hertz: number; readonly seconds: number; readonly other: number }[]
}

export interface WhatItDoes {
  readonly seconds: number
  /** when it is switched on; 0: it runs already */
  readonly on: number
  /** without power */
  readonly off: readonly Stretch[]
  /** in hair: its rate falls by a share of itself */
  readonly hair: readonly (Stretch & { readonly falls: number })[]
  /** change of its rate in a second, a share of itself */
  readonly drift: number
  /** its edges hiss louder by so many decibels a second, and all of it grows quieter by so many */
  readonly harsher: number
  readonly quieter: number
}

export const runsFor = (seconds: number): WhatItDoes => ({
  seconds,
  on: 0,
  off: [],
  hair: [],
  drift: 0,
  harsher: 0,
  quieter: 0,
})
