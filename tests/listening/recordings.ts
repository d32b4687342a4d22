/** Made recordings with known answers: a tool of a kind, what it does, where it is heard. */
import { drawsFrom } from '../../server/listening/made/draws.js'
import type { Draws } from '../../server/listening/made/draws.js'
import type { Room } from '../../server/listening/made/room.js'
import { inRoom, powerOf } from '../../server/listening/made/room.js'
import { runTool } from '../../server/listening/made/run-tool.js'
import type { MadeKind } from '../../server/listening/made/some-tool.js'
import { someTool } from '../../server/listening/made/some-tool.js'
import type { MadeTool, WhatItDoes } from '../../server/listening/made/tool.js'
import { runsFor } from '../../server/listening/made/tool.js'
import type { Context } from '../../server/listening/heard.js'

export const madeKinds: readonly MadeKind[] = ['vibrator', 'magnet-arm', 'geared', 'direct', 'brushless']

/** Strokes a minute between which such a tool lies: common practice, no source. */
const between: Readonly<Record<MadeKind, readonly [number, number]>> = {
  vibrator: [2600, 9000],
  'magnet-arm': [2600, 9000],
  geared: [1500, 6000],
  direct: [2500, 9500],
  brushless: [3000, 12_000],
}

export interface Recording {
  readonly samples: Float32Array
  readonly rate: number
  readonly tool: MadeTool
  /** what a person knows who holds it: its kind, the mains, and a figure that is off by up to a quarter, or none */
  readonly context: Context
}

export interface Wish {
  readonly does?: Partial<WhatItDoes>
  readonly room?: Partial<Room>
  readonly rate?: number
  readonly change?: (tool: MadeTool, draws: Draws) => MadeTool
  readonly knows?: boolean
  readonly mains?: 50 | 60
}

/** Loud enough for a phone on the bench: −30 dB of full scale. */
const loud = 10 ** (-30 / 20)

/** @param number another number is another tool in another room */
export function recording(kind: MadeKind, number: number, wish: Wish = {}): Recording {
  const draws = drawsFrom(7919 * number + madeKinds.indexOf(kind))
  const drawn = draws.unit() < 0.5 ? 50 : 60
  const mains = wish.mains ?? drawn
  const some = someTool(kind, mains, draws)
  const tool = wish.change?.(some, draws) ?? some
  const rate = wish.rate ?? [8000, 11_025, 16_000, 22_050][number % 4]!
  const echo = draws.unit() < 0.7 ? { seconds: draws.between(0.2, 0.6), under: draws.between(6, 14) } : null
  const room: Room = { overNoise: 10, echo, phone: true, ...wish.room }
  const heard = inRoom(runTool(tool, { ...runsFor(10), ...wish.does }, rate, draws), room, rate, draws)
  const gain = loud / Math.sqrt(powerOf(heard))
  return {
    samples: heard.map((value) => value * gain),
    rate,
    tool,
    context: {
      drive: kind === 'vibrator' || kind === 'magnet-arm' ? 'mains' : 'motor',
      mains,
      between: between[kind],
      expected: wish.knows === false ? null : tool.perMinute * draws.between(0.8, 1.25),
    },
  }
}

export interface Tally {
  readonly right: number
  readonly cannotTell: number
  /** for each wrong one: what is so, and what was heard */
  readonly wrong: readonly string[]
  readonly of: number
}

/** How often a rate comes within a share of the true one. */
export function tally(
  outcomes: readonly { readonly truth: number; readonly heard: number | null; readonly of: string }[],
  within = 0.01,
): Tally {
  const isRight = ({ truth, heard }: (typeof outcomes)[number]) =>
    heard !== null && Math.abs(heard / truth - 1) <= within
  return {
    right: outcomes.filter(isRight).length,
    cannotTell: outcomes.filter(({ heard }) => heard === null).length,
    wrong: outcomes
      .filter((it) => it.heard !== null && !isRight(it))
      .map(({ of, truth, heard }) => `${of}: ${truth.toFixed(0)} heard as ${heard!.toFixed(0)}`),
    of: outcomes.length,
  }
}
