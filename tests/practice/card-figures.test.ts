import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { readCardFigures } from '../../server/practice/card-figures-file.js'
import type { ToolCost } from '../../server/practice/card-cost.js'
import { cardFigure, paperDigest } from '../../server/practice/card-figures.js'
import type { Card } from '../../server/practice/card.js'

let folder: string
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'card-figures-'))))
afterAll(() => rmSync(folder, { recursive: true }))

const fileOf = (text: string): URL => {
  const path = join(folder, 'card-figures.json')
  writeFileSync(path, text)
  return pathToFileURL(path)
}

const card: Card = {
  kind: 'k',
  complaint: 'c',
  root: { is: 'fix', fix: 'f', next: { is: 'cut' } },
  questions: 0,
  cut: 0.5,
  expected: 10,
}

describe('the file of figures', () => {
  it('is null where nothing was measured, and read as written', () => {
    expect(readCardFigures(pathToFileURL(join(folder, 'none.json')))).toBeNull()
    const figures = { kinds: { k: { rulebook: 'a'.repeat(64), complaints: {} } } }
    expect(readCardFigures(fileOf(JSON.stringify(figures)))).toEqual(figures)
  })

  it.each([
    ['cut off', '{"kinds": {'],
    ['of another shape', '{"kinds": {"k": {"rulebook": "abc", "complaints": {}}}}'],
  ])('%s: says what to do', (_, text) => {
    expect(() => readCardFigures(fileOf(text))).toThrow(/card-figures\.json: .*run npm run cards/)
  })
})

describe('the figures of a card', () => {
  it('are means over tools, with the error of the paired difference', () => {
    const cost = (byCard: number, byPlan: number, lost: number, left: boolean): ToolCost => ({
      card: { money: byCard, minutes: byCard / 2 },
      full: { money: byPlan, minutes: byPlan / 2 },
      lost,
      left,
    })
    const figure = cardFigure(card, [cost(12, 10, 1, true), cost(20, 20, 0, false), cost(34, 30, 2, false)])
    // by hand: differences 2, 0, 4, mean 2, sample variance 4, standard error √(4/3)
    expect(figure).toMatchObject({ tools: 3, full: 20, fullMinutes: 10, minutes: 11, left: 1 / 3 })
    expect(figure.more.mean).toBeCloseTo(2, 12)
    expect(figure.more.se).toBeCloseTo(Math.sqrt(4 / 3), 12)
    expect(figure.lost.mean).toBeCloseTo(1, 12)
  })

  it('tell one card from another', () => {
    expect(paperDigest({ ...card, kind: 'other', cut: 0.1 })).toBe(paperDigest(card))
    expect(paperDigest({ ...card, root: { is: 'fix', fix: 'g', next: { is: 'cut' } } })).not.toBe(
      paperDigest(card),
    )
  })
})
