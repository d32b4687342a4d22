/** A tool's strokes over the months, by hand. */
import { describe, expect, it } from 'vitest'
import type { BenchCase } from '../../shared/case.js'
import { strokeCurve } from '../../server/pages/tools/stroke-curve.js'
import { pastCase } from '../../server/tools/tool-life.js'
import { knowledge } from '../the-rulebook.js'

const counted = (begunAt: string, percents: readonly number[], tookBack = false): BenchCase => ({
  id: begunAt,
  kind: 'rotary-cordless',
  tool: 'Chair 2',
  begunAt,
  changedAt: begunAt,
  events: [
    ...percents.map((percent) => ({
      type: 'answered' as const,
      step: 'speed-by-ear-cordless',
      answers: { 'speed-percent': percent },
      when: 'now' as const,
    })),
    ...(tookBack ? [{ type: 'took-back' as const, questions: ['speed-percent'] }] : []),
  ],
})
const curveOf = (...cases: BenchCase[]) => strokeCurve(knowledge, cases.map(pastCase))

describe('strokes over the months', () => {
  it('go from left to right by the day, down as they fall, the last word of a case counting', () => {
    const curve = curveOf(
      counted('2026-09-01T10:00:00.000Z', [70]),
      counted('2026-03-01T10:00:00.000Z', [55, 98]),
      counted('2026-06-01T10:00:00.000Z', [90]),
    )!
    const xs = curve.points.map(({ x }) => x)
    const ys = curve.points.map(({ y }) => y)
    expect(xs).toEqual([...xs].sort((a, b) => a - b))
    expect(ys).toEqual([...ys].sort((a, b) => a - b))
    expect(ys[0]! - curve.full).toBeGreaterThan(0)
    // 92 days of 184: in the middle
    expect(xs[1]).toBe(Math.round((xs[0]! + xs[2]!) / 2))
    expect(curve.words).toMatch(/98.*70/)
  })
  it('need two readings; what was taken back is none', () => {
    const first = counted('2026-03-01T10:00:00.000Z', [98])
    expect(curveOf(first)).toBeNull()
    expect(curveOf(first, counted('2026-06-01T10:00:00.000Z', [90], true))).toBeNull()
  })
})
