/** What each way of playing deserves (table.json: common practice, no source), held against what the score says. */
import { readFileSync } from 'node:fs'
import { beforeAll, describe, expect, it } from 'vitest'
import { z } from 'zod'
import { preparedRulebook } from '../../the-rulebook.js'
import type { Measured } from './measured.js'
import { mean, measured } from './measured.js'
import { players, pointers } from './players.js'

const Rows = z.record(z.string(), z.strictObject({ says: z.string(), from: z.number(), to: z.number() }))
const Order = z.array(z.tuple([z.string(), z.string()]))
const table = z
  .strictObject({
    source: z.string(),
    players: Rows,
    order: Order,
    points: z.strictObject({ says: z.string(), pointers: Rows, order: Order }),
  })
  .parse(JSON.parse(readFileSync(new URL('table.json', import.meta.url), 'utf8')))

describe.each([
  { kind: 'universal-motor', level: 'sweeping-the-floor', tools: 3 },
  { kind: 'rotary-cordless', level: 'oiling-the-blades', tools: 2 },
])('$level, $kind', (sample) => {
  let all: Measured
  beforeAll(async () => {
    all = await measured(await preparedRulebook(), sample)
  })
  const score = (name: string): number => mean(all.scores[name]!)
  const off = (name: string): number => mean(all.points[name]!.map((it) => it.off))

  it('everybody in the table plays', () => {
    expect(Object.keys(players).sort()).toEqual(Object.keys(table.players).sort())
    expect(Object.keys(pointers).sort()).toEqual(Object.keys(table.points.pointers).sort())
  })
  it.each(Object.entries(table.players))('%s has what that deserves, on average', (name, { from, to }) => {
    expect(score(name)).toBeGreaterThanOrEqual(from)
    expect(score(name)).toBeLessThanOrEqual(to)
  })
  it.each(table.order)('%s stands above %s', (better, worse) => {
    expect(score(better)).toBeGreaterThan(score(worse))
  })
  it('no tool is so lucky for a guess that a good plan would not have done better', () => {
    all.scores['guess']!.forEach((guess, k) => expect(guess).toBeLessThan(all.scores['good']![k]!))
  })
  it.each(Object.entries(table.points.pointers))('points %s are as far off as they should', (name, row) => {
    expect(off(name)).toBeGreaterThanOrEqual(row.from)
    expect(off(name)).toBeLessThanOrEqual(row.to)
  })
  it.each(table.points.order)('points %s are nearer than %s', (better, worse) => {
    expect(off(better)).toBeLessThan(off(worse))
  })
  it('a good way takes 20 taps at most', () => {
    for (const taps of all.taps) expect(taps).toBeLessThanOrEqual(20)
  })
  it('whoever spreads them evenly, or names nobody, has found nothing', () => {
    for (const name of ['spread evenly', 'names nobody'])
      for (const { rating } of all.points[name]!) expect(rating).toBeLessThan(3)
  })
})
