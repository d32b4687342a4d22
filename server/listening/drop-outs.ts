/** Where the tool falls silent and comes back. */
import type { DropOut } from './heard.js'
import type { Level } from './level.js'
import { median } from './follow.js'

/** Shorter is a stroke that missed, longer is a tool that was switched off. */
const shortest = 0.02
const longest = 3
/** Between silence (0) and its level (1): what counts as gone. */
const gone = 0.4
/** So much noise that a silence would not stand out. */
const tooLoud = 0.7
/** Its level just now is the middle one of so many seconds to either side. */
const around = 0.75
/** In hair the blows come uneven: gone is what lies so many standard deviations of the levels around below them. */
const deviations = 5
/** A blow or two as it comes back makes no second drop-out. */
const apart = 0.1

/** When it runs: from the first to the last moment at its level, in seconds; null if it never does. */
export function runningFrom(level: Level): { from: number; to: number } | null {
  const bar = level.silent + 0.4 * (1 - level.silent)
  const on = level.values.map((value) => (value > bar ? 1 : 0))
  const first = on.indexOf(1)
  if (first < 0) return null
  return { from: timeOf(level, first), to: timeOf(level, on.lastIndexOf(1)) }
}

export function dropOutsIn(level: Level): readonly DropOut[] {
  const running = runningFrom(level)
  if (running === null || level.silent > tooLoud) return []
  const bar = barOf(level)
  const found: { from: number; to: number }[] = []
  let began: number | null = null
  for (let t = 0; t < level.values.length; t++) {
    const at = timeOf(level, t)
    const low = level.values[t]! < bar(t) && at > running.from && at < running.to
    if (low && began === null) began = at
    if (!low && began !== null) {
      const before = found.at(-1)
      if (before && began - before.to < apart) before.to = at
      else found.push({ from: began, to: at })
      began = null
    }
  }
  return found
    .map(({ from, to }) => ({ at: (from + to) / 2, seconds: to - from }))
    .filter(({ seconds }) => seconds >= shortest && seconds <= longest)
}

/** Below this it is gone: from the levels around, looked up every tenth of a second. */
function barOf({ values, hop, silent }: Level): (t: number) => number {
  const every = Math.max(1, Math.round(0.1 / hop))
  const half = Math.round(around / hop)
  const bars = Array.from({ length: Math.ceil(values.length / every) }, (_, i) => {
    const near = values.slice(Math.max(0, i * every - half), i * every + half + 1)
    const usual = middleOf(near)
    const spread = 1.4826 * middleOf(near.map((value) => Math.abs(Math.log((value + 1e-9) / (usual + 1e-9)))))
    return Math.min(silent + gone * Math.max(0, usual - silent), usual * Math.exp(-deviations * spread))
  })
  return (t) => bars[Math.floor(t / every)]!
}

const middleOf = (values: Float32Array): number => values.slice().sort()[values.length >> 1]!

/** Three or more whose distances differ by less than a quarter from the middle one. */
export function inRhythm(dropOuts: readonly DropOut[]): boolean {
  const gaps = dropOuts.slice(1).map(({ at }, i) => at - dropOuts[i]!.at)
  const usual = median(gaps)
  return gaps.length >= 2 && gaps.every((gap) => Math.abs(gap - usual) < usual / 4)
}

const timeOf = (level: Level, t: number) => t * level.hop + level.length / 2
