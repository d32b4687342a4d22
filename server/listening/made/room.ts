/** What stands between a made clipper and its recording: a room, the noise of a shop, the band of a phone. */
import { biquad } from '../biquad.js'
import type { Draws } from './draws.js'

export interface Room {
  /** level of the tool over the noise in the band that is recorded, in decibels; null for no noise */
  readonly overNoise: number | null
  /** seconds in which an echo falls by 60 decibels, and how far it lies under the direct sound, in decibels */
  readonly echo: { readonly seconds: number; readonly under: number } | null
  /** a phone hears 100 Hz to 8 kHz */
  readonly phone: boolean
}

/** @param rate samples a second */
export function inRoom(sound: Float32Array, room: Room, rate: number, draws: Draws): Float32Array {
  const echoed = room.echo ? withEcho(sound, room.echo, rate, draws) : sound.slice()
  const tool = room.phone ? phoneBand(echoed, rate) : echoed
  if (room.overNoise === null) return tool
  const shop = pinkish(sound.length, draws)
  const noise = room.phone ? phoneBand(shop, rate) : shop
  const gain = Math.sqrt(powerOf(tool) / powerOf(noise)) * 10 ** (-room.overNoise / 20)
  return tool.map((value, n) => value + gain * noise[n]!)
}

/** Mean square. */
export function powerOf(sound: Float32Array): number {
  return sound.reduce((sum, value) => sum + value * value, 0) / Math.max(1, sound.length)
}

/** White noise with as much again of noise that falls with frequency, as fans and streets make it. */
function pinkish(length: number, draws: Draws): Float32Array {
  const noise = new Float32Array(length)
  let slow = 0
  let slower = 0
  for (let n = 0; n < length; n++) {
    const white = draws.normal()
    slow += 0.3 * (white - slow)
    slower += 0.03 * (white - slower)
    noise[n] = 0.3 * white + slow + 2 * slower
  }
  return noise
}

/** Forty echoes at chance times, thinning out. */
function withEcho(
  sound: Float32Array,
  { seconds, under }: { seconds: number; under: number },
  rate: number,
  draws: Draws,
): Float32Array {
  const echoes = Array.from({ length: 40 }, () => {
    const after = draws.between(0.004, seconds)
    return { after: Math.round(after * rate), loud: draws.normal() * 10 ** ((-3 * after) / seconds) }
  })
  const total = echoes.reduce((sum, { loud }) => sum + loud * loud, 0)
  const gain = 10 ** (-under / 20) / Math.sqrt(total)
  const heard = sound.slice()
  for (const { after, loud } of echoes)
    for (let n = after; n < sound.length; n++) heard[n]! += gain * loud * sound[n - after]!
  return heard
}

/** Second-order high pass at 100 Hz twice, and low pass at 8 kHz where the rate reaches so far. */
function phoneBand(sound: Float32Array, rate: number): Float32Array {
  const low = biquad(sound, 'high', 100, rate)
  const once = biquad(low, 'high', 100, rate)
  return rate > 18_000 ? biquad(once, 'low', 8000, rate) : once
}
