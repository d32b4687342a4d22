/** From samples to what was heard. Pure: the same sound gives the same answer in a browser and anywhere else. */
import { beatOf } from './beat.js'
import { combOf } from './comb.js'
import { driftOf, droopOf, freeRate, startUpOf, undisturbed } from './course.js'
import { dropOutsIn, inRhythm, runningFrom } from './drop-outs.js'
import { follow, median } from './follow.js'
import { framesOf } from './frames.js'
import type { Context, Droop, Heard, Moment, Rate, Silence } from './heard.js'
import { levelOf } from './level.js'
import { strokeOf } from './octave.js'
import { boundToMains, onlyHum, overdriven, quiet, steady, twoTools } from './quality.js'
import { loudnessTrend, noiseTrend } from './trend.js'
import { atWorkingRate } from './working-rate.js'

/** Less than this says too little. */
const shortest = 2

/**
 * @param samples one channel, full scale 1
 * @param rate    samples a second, from 8000 to 192000
 */
export function hear(samples: Float32Array, rate: number, context: Context): Heard {
  if (!(rate >= 8000 && rate <= 192_000))
    throw new RangeError(`Sound needs 8000 to 192000 samples a second, not ${rate}.`)
  if (samples.length < shortest * rate) return nothing('too-short')
  if (quiet(samples)) return nothing('too-quiet')
  if (overdriven(samples)) return nothing('overdriven')
  const sound = atWorkingRate(samples, rate)
  const frames = framesOf(sound)
  if (onlyHum(frames, context.mains)) return nothing('only-hum')
  const byFrames = follow(sound, frames)
  const { hertz, used } = steady(byFrames) ? byFrames : follow(sound, frames, combOf(frames))
  if (!steady({ hertz, used })) return nothing('no-steady-sound')
  if (context.drive === 'motor' && boundToMains(hertz, used, context.mains)) return nothing('only-hum')
  if (twoTools(frames, hertz, used)) return nothing('two-tools')
  const stroke = strokeOf(frames, hertz, used, context)
  if (stroke === null) return nothing('octave')

  const level = levelOf(sound, frames, used, median(used.map((t) => hertz[t]!)) * stroke)
  const running = runningFrom(level) ?? { from: 0, to: samples.length / rate }
  const known = new Set(used)
  const track: Moment[] = Array.from(hertz, (value, t) => ({
    at: t * frames.hop + frames.length / 2,
    perMinute: known.has(t) ? value * stroke * 60 : null,
  }))
  const dropOuts = dropOutsIn(level)
  const startUp = startUpOf(track, running.from)
  const moments = undisturbed(track, running, startUp, dropOuts)
  const droop = droopOf(moments)
  const rate60 = rateOf(moments)
  return {
    rate: rate60,
    silence: rate60 ? null : 'no-steady-sound',
    track,
    dropOuts,
    inRhythm: inRhythm(dropOuts),
    droop,
    startUp,
    drift: driftOf(moments, droop),
    beat: rate60 && beatOf(sound, rate60.perMinute / 60, notBeats(context, droop)),
    noise: noiseTrend(frames, running),
    loudness: loudnessTrend(level, running),
  }
}

/** Shares of its rate at which its own strokes are: pulled unevenly twice a cycle, or held back by hair. */
const notBeats = ({ drive }: Context, droop: Droop | null): readonly number[] => [
  ...(drive === 'mains' ? [0.5] : []),
  ...(droop ? [1 - droop.percent / 100] : []),
]

/** A phone's clock is that good, in parts of one; no spread of the moments makes the rate surer. */
const clock = 2e-4

/** The rate at which it runs free, and 1.96 standard errors: frames overlap by three quarters. */
function rateOf(moments: readonly Moment[]): Rate | null {
  if (moments.length < 8) return null
  const free = freeRate(moments)
  const rates = moments
    .flatMap(({ perMinute }) => perMinute ?? [])
    .filter((it) => Math.abs(it / free - 1) < 0.03)
  const perMinute = median(rates)
  const spread = 1.4826 * median(rates.map((it) => Math.abs(it - perMinute)))
  return { perMinute, plusMinus: 1.96 * spread * Math.sqrt(4 / rates.length) + clock * perMinute }
}

function nothing(silence: Silence): Heard {
  return {
    rate: null,
    silence,
    track: [],
    dropOuts: [],
    inRhythm: false,
    droop: null,
    startUp: null,
    drift: null,
    beat: null,
    noise: null,
    loudness: null,
  }
}
