/** A made clipper of a kind that does what a sign says, as a WAV file to be listened to. */
import wavefile from 'wavefile'
import { drawsFrom } from '../listening/made/draws.js'
import type { Draws } from '../listening/made/draws.js'
import { inRoom } from '../listening/made/room.js'
import { runTool } from '../listening/made/run-tool.js'
import { someTool } from '../listening/made/some-tool.js'
import type { MadeTool, WhatItDoes } from '../listening/made/tool.js'
import { runsFor } from '../listening/made/tool.js'
import type { EarSign, SoundingKind } from './by-ear.js'

/** Samples a second, and seconds: enough for an ear, small enough for a phone. */
const rate = 16_000
const seconds = 6
/** The loudest sample, of full scale. */
const peak = 0.6

/** What the mains drives is off only with the mains: a plate of 60 hertz on 50, or of 50 on 60. */
const plateOf = { slower: 60, faster: 50 } as const

/** Hertz of the plate of a tool that will show a sign; null where any will do, or it shows none. */
export const plateFor = (sign: EarSign | null): 50 | 60 | null =>
  sign === 'slower' || sign === 'faster' ? plateOf[sign] : null

/**
 * @param plate  hertz on its plate; a tool with a motor hums with them and no more
 * @param number the same number is the same tool, whatever it does
 * @param sign   null: it runs as it should
 */
export function madeSound(
  { sound }: SoundingKind,
  plate: 50 | 60,
  number: number,
  sign: EarSign | null,
): Float32Array {
  const draws = drawsFrom(number)
  const off = sound.drive === 'mains' ? plateFor(sign) : null
  const well = someTool(sound.like, off ? 110 - off : plate, draws)
  const { tool: made, does } = sign && !off ? sick(well, sign, draws) : { tool: well, does: {} }
  // on a battery an arm hums at its own strokes, not with the mains
  const tool =
    sound.drive === 'board' && made.hum ? { ...made, hum: { ...made.hum, hertz: made.perMinute / 60 } } : made
  const heard = inRoom(
    runTool(tool, { ...runsFor(seconds), ...does }, rate, draws),
    { overNoise: 24, echo: null, phone: false },
    rate,
    draws,
  )
  const gain = peak / heard.reduce((most, value) => Math.max(most, Math.abs(value)), 1e-9)
  return heard.map((value) => value * gain)
}

/** 16 bits, one channel. */
export function asWav(samples: Float32Array): Uint8Array {
  const wav = new wavefile.WaveFile()
  wav.fromScratch(
    1,
    rate,
    '16',
    Int16Array.from(samples, (value) => Math.round(32_767 * value)),
  )
  return wav.toBuffer()
}

interface Sick {
  readonly tool: MadeTool
  readonly does: Partial<WhatItDoes>
}

/** As plain as a learner needs it: what a phone hears is finer. */
function sick(well: MadeTool, sign: EarSign, draws: Draws): Sick {
  const gap = (from: number) => ({ from, to: from + draws.between(0.09, 0.16) })
  switch (sign) {
    case 'slower':
      return { tool: { ...well, perMinute: well.perMinute * draws.between(0.68, 0.8) }, does: {} }
    case 'faster':
      return { tool: { ...well, perMinute: well.perMinute * draws.between(1.2, 1.35) }, does: {} }
    case 'drop-outs':
      return {
        tool: well,
        does: { off: [draws.between(0.9, 1.2), draws.between(1.6, 1.9), draws.between(4, 5)].map(gap) },
      }
    case 'rhythm': {
      const every = draws.between(0.9, 1.2)
      return { tool: well, does: { off: [1, 2, 3, 4].map((k) => gap(k * every)) } }
    }
    case 'beat':
      return { tool: { ...well, knock: { every: draws.unit() < 0.5 ? 4 : 6, loud: 1.2 } }, does: {} }
    case 'sinks':
      return { tool: well, does: { drift: -draws.between(0.02, 0.03) } }
    case 'grows':
      return { tool: { ...well, slide: Math.max(0.1, well.slide) }, does: { harsher: draws.between(3, 4) } }
    case 'fades':
      return { tool: well, does: { quieter: draws.between(2, 3) } }
    case 'droop':
      return { tool: well, does: { hair: [{ from: 2, to: 4.2, falls: draws.between(0.3, 0.4) }] } }
  }
}
