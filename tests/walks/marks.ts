import type { Walk } from './walk.js'

export interface Marks {
  readonly walks: number
  readonly taps: Spread
  readonly looks: Spread
  readonly words: Spread
  readonly scrolled: Spread
  /** screens without a button in the first 640 px */
  readonly outOfReach: readonly string[]
  readonly ends: Readonly<Record<string, number>>
}

interface Spread {
  readonly mean: number
  readonly median: number
  readonly p90: number
  readonly most: number
}

/** What many walks took. Words are counted screen by screen, the rest walk by walk. */
export function marksOf(walks: readonly Walk[]): Marks {
  const ends: Record<string, number> = {}
  for (const { end } of walks) {
    const sort = end.split(':')[0]!
    ends[sort] = (ends[sort] ?? 0) + 1
  }
  const screens = walks.flatMap((it) => it.screens)
  return {
    walks: walks.length,
    taps: spread(walks.map(({ taps }) => taps)),
    looks: spread(walks.map(({ looks }) => looks)),
    words: spread(screens.map(({ words }) => words)),
    scrolled: spread(walks.map(({ scrolled }) => Math.round(scrolled))),
    outOfReach: [...new Set(screens.filter(({ inReach }) => !inReach).map(({ name }) => name))],
    ends,
  }
}

function spread(values: readonly number[]): Spread {
  const sorted = values.toSorted((a, b) => a - b)
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)] ?? 0
  return {
    mean: values.reduce((sum, value) => sum + value, 0) / Math.max(1, values.length),
    median: at(0.5),
    p90: at(0.9),
    most: sorted.at(-1) ?? 0,
  }
}

export function printMarks(name: string, { walks, outOfReach, ends, ...rest }: Marks): void {
  console.log(`\n${name}: ${walks} walks`)
  for (const [what, { mean, median, p90, most }] of Object.entries(rest) as [string, Spread][])
    console.log(`  ${what.padEnd(9)} mean ${mean.toFixed(1)}  median ${median}  90th ${p90}  most ${most}`)
  console.log(`  no button in the first 640 px: ${outOfReach.join(', ') || 'none'}`)
  console.log(
    `  ended: ${Object.entries(ends)
      .map(([end, count]) => `${end} ${count}`)
      .join(', ')}`,
  )
}
