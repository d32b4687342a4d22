/**
 * The sound of a made clipper at the ear, before room and noise: blows at both ends of each stroke that make the body
 * ring, edges that slide, a body that shakes, gear teeth that pass, hum.
 *
 * It knows nothing of how sound is analysed: every part is a thing that moves.
 */
import type { Draws } from './draws.js'
import type { MadeTool, WhatItDoes } from './tool.js'

const within = (t: number, { from, to }: { from: number; to: number }) => t >= from && t < to

/** How long the stroke of a vibrator takes to die and to come back. */
const strokeSeconds = 0.012

/** @param rate samples a second */
export function runTool(tool: MadeTool, does: WhatItDoes, rate: number, draws: Draws): Float32Array {
  const sound = new Float32Array(Math.round(does.seconds * rate))
  const step = 1 / rate
  const settles = 1 - Math.exp(-step / (tool.inertia || strokeSeconds))
  const rings = tool.ring
    .filter(({ hertz }) => hertz < 0.45 * rate)
    .map(({ hertz, seconds, other }) => ({ sound: ringing(hertz, seconds, rate), other }))
  let phase = draws.unit()
  let runs = does.on > 0 ? 0 : 1
  let wander = 0
  let half = Math.floor(2 * phase)
  let blow = 0
  let [hiss, loud] = [1, 1]
  for (let n = 0; n < sound.length; n++) {
    const t = n * step
    const powered = t >= does.on && !does.off.some((it) => within(t, it))
    const hair = does.hair.find((it) => within(t, it))
    const goal = powered ? 1 - (tool.inertia > 0 ? (hair?.falls ?? 0) : 0) : 0
    runs += (goal - runs) * settles
    // no motor is steadier than some parts in ten thousand
    if (n % 512 === 0 && tool.inertia > 0) wander = 0.98 * wander + 0.0002 * draws.normal()
    if (n % 512 === 0) [hiss, loud] = [10 ** ((does.harsher * t) / 20), 10 ** ((-does.quieter * t) / 20)]
    const speed = (tool.inertia > 0 ? runs : 1) * (1 + does.drift * t) * (1 + wander)
    phase += (tool.perMinute / 60) * speed * step
    const strength = loud * (tool.inertia > 0 ? runs ** 1.5 : runs)

    let struck: Blow | null = null
    if (Math.floor(2 * phase) !== half) {
      half = Math.floor(2 * phase)
      const stroke = Math.floor(half / 2)
      const end = half % 2 === 0 ? 1 : tool.otherEnd
      const uneven = stroke % 2 === 0 ? 1 : 1 - tool.everySecond
      blow = end * uneven * strength * (1 + 0.08 * draws.normal() + (hair ? 0.4 * draws.normal() : 0))
      if (tool.knock && half % 2 === 0 && stroke % tool.knock.every === 0) blow += tool.knock.loud * strength
      struck = { loud: blow, late: (2 * phase - half) / ((tool.perMinute / 30) * speed * step) }
    }
    let heard = 0
    for (const ring of rings) heard += ring.sound(struck, half % 2 === 0 ? 1 : ring.other)
    const turn = 2 * Math.PI * phase
    heard += strength * (tool.shake[0] * Math.sin(turn) + tool.shake[1] * Math.sin(2 * turn + 1))
    heard += strength * hiss * tool.slide * (hair ? 2 : 1) * Math.abs(Math.cos(turn)) * draws.normal()
    if (tool.gear) {
      const shaft = turn * tool.gear.ratio
      const teeth = Math.sin(tool.gear.teeth * shaft) * (1 + 0.4 * Math.sin(shaft))
      heard += strength * tool.gear.loud * (teeth + 0.7 * Math.sin(shaft + 2))
    }
    if (tool.hum && powered) {
      const mains = 4 * Math.PI * tool.hum.hertz * t
      heard += tool.hum.loud * (Math.sin(mains) + 0.4 * Math.sin(2 * mains + 1) + 0.15 * Math.sin(3 * mains))
    }
    sound[n] = heard
  }
  return sound
}

interface Blow {
  readonly loud: number
  /** how long before this sample it fell, in samples */
  readonly late: number
}

/** A part of the body that rings when struck: two poles, and two zeros that put the blow where it fell between samples. */
function ringing(
  hertz: number,
  seconds: number,
  rate: number,
): (struck: Blow | null, moves: number) => number {
  const decay = Math.exp(-1 / (seconds * rate))
  const angle = (2 * Math.PI * hertz) / rate
  const turn = 2 * Math.cos(angle) * decay
  const gain = (4 * Math.sqrt(1 - decay * decay) * Math.sqrt(rate / 8000)) / Math.sin(angle)
  let last = 0
  let before = 0
  let pending = 0
  return (struck, moves) => {
    let now = turn * last - decay * decay * before + pending
    pending = 0
    if (struck) {
      const loud = gain * struck.loud * moves * decay ** struck.late
      now += loud * Math.sin(angle * struck.late)
      pending = loud * decay * Math.sin(angle * (1 - struck.late))
    }
    before = last
    last = now
    return now
  }
}
