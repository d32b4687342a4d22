/** What is known before one listens, and what was heard. Rates are strokes of the cutter a minute, there and back as one. */

export interface Context {
  /** what sets its strokes: the mains, a motor that turns, or a board that pulls an arm, as steadily as the mains */
  readonly drive: 'mains' | 'motor' | 'board'
  /** hertz of the mains where the tool is plugged in; what sounds at its multiples may be hum */
  readonly mains: 50 | 60
  /** the least and the most strokes a minute that such a tool makes, sound or sick */
  readonly between: readonly [number, number]
  /** what its plate, its manual or its twin says; settles an octave that the sound leaves open */
  readonly expected: number | null
}

/** Why there is no rate. */
export type Silence =
  | 'too-short'
  | 'too-quiet'
  | 'overdriven'
  | 'no-steady-sound'
  | 'two-tools'
  | 'octave'
  | 'only-hum'

export interface Rate {
  readonly perMinute: number
  /** half the width of the stretch that holds the true rate 19 times in 20 */
  readonly plusMinus: number
}

/** One look at the sound, a quarter of a second long. */
export interface Moment {
  /** seconds from the beginning, at its middle */
  readonly at: number
  /** null where no strokes were heard */
  readonly perMinute: number | null
}

export interface DropOut {
  readonly at: number
  readonly seconds: number
}

/** A fall of the rate that lasts, as in hair. */
export interface Droop {
  readonly at: number
  readonly seconds: number
  /** how far it fell, in percent of its rate before */
  readonly percent: number
  /** is it back at its rate before the end? */
  readonly recovered: boolean
}

/** Change of loudness over a minute, and how sure: half the width of the stretch that holds it 19 times in 20. */
export interface Trend {
  readonly decibels: number
  readonly plusMinus: number
}

export interface Heard {
  readonly rate: Rate | null
  /** null where there is a rate */
  readonly silence: Silence | null
  readonly track: readonly Moment[]
  readonly dropOuts: readonly DropOut[]
  /** do three drop-outs or more come at even distances? */
  readonly inRhythm: boolean
  readonly droop: Droop | null
  /** seconds from the switch to its rate; null where it ran already */
  readonly startUp: number | null
  /** change of the rate over a minute in percent, and how sure */
  readonly drift: { readonly percent: number; readonly plusMinus: number } | null
  /** a beat beside the strokes: a knock or a rattle, in beats a minute */
  readonly beat: number | null
  /** of the noise between its tones, and of the tool itself; null where the recording is too short for it */
  readonly noise: Trend | null
  readonly loudness: Trend | null
}
