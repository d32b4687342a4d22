import { expect, it } from 'vitest'
import type { ToolModel } from '../../server/simulation/tool.js'
import { movedInLogOdds, worldOff } from '../../server/simulation/off.js'

// Odds 1:3 doubled are 2:3, that is 0.4; odds 4:1 divided by 4 are even.
it('moves odds by a factor', () => {
  expect(movedInLogOdds(0.25, Math.log(2))).toBeCloseTo(0.4, 12)
  expect(movedInLogOdds(0.8, -Math.log(4))).toBeCloseTo(0.5, 12)
  expect(movedInLogOdds(0, 1)).toBe(0)
  expect(movedInLogOdds(1, -1)).toBe(1)
})

const many = 120
const book: ToolModel = {
  causes: Array.from({ length: many }, (_, i) => ({ id: `cause-${i}` })),
  findings: Array.from({ length: many }, (_, f) => ({ id: `finding-${f}` })),
  priors: Array.from({ length: many }, () => 0.1),
  exclusive: Array.from({ length: many }, () => false),
  leaks: Array.from({ length: many }, () => 0.05),
  strengths: Array.from({ length: many }, (_, f) =>
    Array.from({ length: many }, (_, i) => (f === i ? 0.6 : 0)),
  ),
}
const logOdds = (p: number) => Math.log(p / (1 - p))

it.each([
  ['priors', (m: ToolModel) => m.priors, 0.1],
  ['leaks', (m: ToolModel) => m.leaks, 0.05],
  ['strengths', (m: ToolModel) => m.strengths.map((row, f) => row[f]!), 0.6],
] as const)('moves the %s by the stated spread, none by what another moves', (_, numbers, p) => {
  const moves = Array.from({ length: 20 }, (_, world) =>
    numbers(worldOff(book, 0.7, world)).map((q) => logOdds(q) - logOdds(p)),
  ).flat()
  const mean = moves.reduce((sum, m) => sum + m, 0) / moves.length
  const sd = Math.sqrt(moves.reduce((sum, m) => sum + (m - mean) ** 2, 0) / moves.length)
  expect(Math.abs(mean)).toBeLessThan((4 * 0.7) / Math.sqrt(moves.length))
  expect(sd).toBeCloseTo(0.7, 1)
  expect(new Set(moves).size).toBe(moves.length)
})

it('leaves what cannot be as it is, and is the same for the same world', () => {
  const off = worldOff(book, 0.7, 3)
  off.strengths.forEach((row, f) => row.forEach((s, i) => f !== i && expect(s).toBe(0)))
  expect(worldOff(book, 0.7, 3)).toEqual(off)
  expect(worldOff(book, 0.7, 4)).not.toEqual(off)
  expect(worldOff(book, 0, 3).priors).toEqual(book.priors.map((p) => expect.closeTo(p, 12)))
})
