/** A tool of a kind as chance makes them: no two strike, shake and ring alike. */
import type { Draws } from './draws.js'
import type { MadeTool } from './tool.js'

/** How a blade is driven, as far as the ear goes. */
export type MadeKind = 'vibrator' | 'magnet-arm' | 'geared' | 'direct' | 'brushless'

/** Strokes a minute that makers print on plates: common practice, no source. */
const plates = {
  geared: [2200, 4800],
  direct: [4500, 7600],
  brushless: [5500, 10_200],
} as const satisfies Record<string, readonly [number, number]>

/** @param mains hertz; what a vibrator strokes by */
export function someTool(kind: MadeKind, mains: number, draws: Draws): MadeTool {
  const ring = Array.from({ length: 4 }, (_, k) => ({
    hertz: draws.between(0.7, 1.3) * [350, 900, 1800, 3400][k]!,
    seconds: draws.between(0.001, 0.006),
    other: draws.between(-1, 1),
  }))
  const common = { ring, knock: null, slide: draws.between(0.02, 0.15) }
  if (kind === 'vibrator' || kind === 'magnet-arm') {
    const twice = kind === 'vibrator'
    return {
      ...common,
      perMinute: (twice ? 120 : 60) * mains,
      otherEnd: draws.between(0.3, 1),
      everySecond: twice ? draws.between(0, 0.12) : 0,
      shake: [draws.between(0.3, 1.2), draws.between(0.1, 0.5)],
      inertia: 0,
      gear: null,
      hum: { hertz: mains, loud: draws.between(0.05, 0.4) },
    }
  }
  return {
    ...common,
    perMinute: draws.between(plates[kind][0], plates[kind][1]),
    otherEnd: draws.between(0.3, 1),
    everySecond: 0,
    shake: [draws.between(0.2, 0.8), draws.between(0.1, 0.4)],
    inertia: kind === 'geared' ? draws.between(0.06, 0.15) : draws.between(0.03, 0.1),
    gear:
      kind === 'geared'
        ? {
            ratio: draws.between(3.6, 5.4),
            teeth: Math.round(draws.between(8, 12)),
            loud: draws.between(0.05, 0.3),
          }
        : null,
    hum: kind === 'geared' ? { hertz: mains, loud: draws.between(0, 0.1) } : null,
  }
}
