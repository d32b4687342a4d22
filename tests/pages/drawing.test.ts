import { readdirSync, readFileSync } from 'node:fs'
import ejs from 'ejs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { drawingIds, partPlaces } from '../../server/pages/layout/drawing-files.js'
import { dotField, shadeLevel } from '../../server/pages/layout/drawing.js'
import { partsDrawing, partsMarked } from '../../server/pages/layout/parts-drawing.js'
import type { PartsDrawing } from '../../server/pages/layout/parts-drawing.js'
import { knowledge } from '../the-rulebook.js'

const partials = new URL('../../views/partials/', import.meta.url)
const part = (name: string, page: unknown): string =>
  ejs.render(readFileSync(new URL(`${name}.ejs`, partials), 'utf8'), { page, part })

/** Every kind of the rulebook, and every drawing with all the parts that it shows. */
const kinds = knowledge.kinds
const wholeDrawings = [...partPlaces].map(([drawing, places]) => ({
  id: drawing,
  drawing,
  parts: Object.entries(places).map(([id, { label }]) => ({ id, name: label })),
}))
const drawn = (tool: (typeof wholeDrawings)[number], suspicion: ReadonlyMap<string, number>): PartsDrawing =>
  partsDrawing(tool, suspicion)!

describe('the drawing of the parts', () => {
  it.each(kinds)('of $id shows each of its parts', ({ drawing, parts }) => {
    expect(parts.map(({ id }) => id).filter((id) => !partPlaces.get(drawing)?.[id])).toEqual([])
  })

  it.each(wholeDrawings)('of $id has one group a part, hatched at the level of that part alone', (tool) => {
    for (const { id } of tool.parts) {
      const svg = part('parts-drawing', drawn(tool, new Map([[id, 0.9]])))
      const groups = [...svg.matchAll(/class="part part-([a-z-]+) shade-([0-5])"/g)]
      expect(groups.map(([, name]) => name).sort()).toEqual(tool.parts.map((it) => it.id).sort())
      expect(groups.filter(([, , level]) => level !== '0').map(([, name]) => name)).toEqual([id])
      expect(svg).toContain('url(#hatch-5)')
    }
  })

  it('labels and tells the three likeliest parts, and no part that hardly anything points to', () => {
    const tool = wholeDrawings.find(({ id }) => id === 'universal-motor')!
    const suspicion = new Map([
      ['brushes', 0.62],
      ['cord', 0.24],
      ['switch', 0.12],
      ['commutator', 0.08],
      ['wiring', 0.01],
    ])
    const { labels, alt } = drawn(tool, suspicion)
    expect(labels.map(({ text }) => text).sort()).toEqual(['Brushes', 'Cord', 'Switch'])
    expect(alt).toContain('Brushes, 62 in 100; Cord, 24 in 100; Switch, 12 in 100.')
    expect(drawn(tool, new Map([['cord', 0.01]])).labels).toEqual([])
  })

  it.each(wholeDrawings)('of $id never lets two labels of a row touch or leave the sheet', (tool) => {
    const chance = fc.double({ min: 0, max: 1, noNaN: true })
    const { length } = tool.parts
    fc.assert(
      fc.property(fc.array(chance, { minLength: length, maxLength: length }), (chances) => {
        const { labels } = drawn(tool, new Map(tool.parts.map(({ id }, i) => [id, chances[i]!])))
        // 26-unit bold type: 15 units a letter is a wide face's average.
        const boxes = labels.map(({ text, x, y }) => ({
          y,
          left: x - text.length * 7.5,
          right: x + text.length * 7.5,
        }))
        for (const box of boxes) {
          expect(box.left).toBeGreaterThanOrEqual(0)
          expect(box.right).toBeLessThanOrEqual(520)
          const others = boxes.filter((other) => other !== box && other.y === box.y)
          expect(others.every((other) => other.left > box.right || other.right < box.left)).toBe(true)
        }
      }),
    )
  })

  it('marks where a hand has to go, alike, three by name', () => {
    const tool = wholeDrawings.find(({ id }) => id === 'universal-motor')!
    const marked = partsMarked(tool, new Set(['switch', 'wiring', 'cord', 'plug']))!
    const shades = Object.entries(marked.shades).filter(([, level]) => level > 0)
    expect(new Set(shades.map(([id]) => id))).toEqual(new Set(['switch', 'wiring', 'cord', 'plug']))
    expect(new Set(shades.map(([, level]) => level)).size).toBe(1)
    expect(marked.labels).toHaveLength(3)
    expect(partsMarked(tool, new Set())).toBeNull()
  })

  it('is left out for a kind that nobody has drawn, and for one with a part that has no place', () => {
    const parts = [{ id: 'cord', name: 'Cord' }]
    expect(partsDrawing({ drawing: 'nobody-drew-it', parts }, new Map())).toBeNull()
    const strange = [...parts, { id: 'steam-valve', name: 'Steam valve' }]
    expect(partsDrawing({ drawing: 'universal-motor', parts: strange }, new Map())).toBeNull()
  })
})

describe('density of hatching', () => {
  it('never falls as a probability rises, and uses its whole range', () => {
    const levels = Array.from({ length: 101 }, (_, i) => shadeLevel(i / 100))
    expect(levels).toEqual([...levels].sort((a, b) => a - b))
    expect(new Set(levels)).toEqual(new Set([0, 1, 2, 3, 4, 5]))
  })
})

describe('drawing files', () => {
  it('of parts have their places beside them, and none stands without its drawing', () => {
    const names = readdirSync(new URL('drawings/parts/', partials))
    const ending = (it: string) => names.filter((name) => name.endsWith(it)).map((name) => name.split('.')[0])
    expect(ending('.ejs')).toEqual(ending('.json'))
    expect(ending('.ejs').length).toBeGreaterThan(0)
  })

  it.each([...drawingIds])('%s tells its alternative, escaped, and is drawn in ink alone', (id) => {
    const svg = part(`drawings/${id}`, { alt: 'a "b" <c>' })
    expect(svg).toContain('role="img" aria-label="a &#34;b&#34; &lt;c&gt;"')
    // no inline style or script, which the policy refuses, and no colour of its own, which the dark would swallow
    expect(svg).not.toMatch(/<script|<style|\sstyle=|\son\w+=|NaN|undefined|="#[0-9a-f]{3}/)
  })
})

describe('a field of dots', () => {
  /** Where the rings stand: those of the first row, and that row once more for each use of it. */
  function rings(): string[] {
    const [, group] = /<g id="dot-rings">([\s\S]*?)<\/g>/.exec(part('hatch-defs', {}))!
    const [, row] = /<path id="dot-row" class="dot" d="([^"]+)"/.exec(group!)!
    // Two half circles of radius 3.6, so the centre is as far to the right of where the ring begins.
    const begins = [...row!.matchAll(/M([\d.]+) 5a3\.6 3\.6 0 1 0 7\.2 0a3\.6 3\.6 0 1 0-7\.2 0/g)]
    const columns = begins.map(([, x]) => Number(x) + 3.6)
    const rows = [0, ...[...group!.matchAll(/<use href="#dot-row" y="(\d+)"/g)].map(([, y]) => Number(y))]
    return rows.flatMap((y) => columns.map((x) => `${x} ${y + 5}`))
  }

  it('has 100 rings, no two in one place, none over the edge', () => {
    const at = rings()
    expect(new Set(at).size).toBe(100)
    for (const place of at.flatMap((words) => words.split(' ').map(Number))) {
      expect(place).toBeGreaterThanOrEqual(5)
      expect(place).toBeLessThanOrEqual(95)
    }
  })

  it.each([0, 1, 62, 100])('has %i of the rings full, row by row', (count) => {
    const svg = part('dots', dotField(count, `${count} in 100`))
    expect(svg).toContain('<use href="#dot-rings"')
    const [, path] = /<path class="dot-full" d="([^"]*)"/.exec(svg)!
    const full = [...path!.matchAll(/M(\d+) (\d+)h0/g)].map(([, x, y]) => `${x} ${y}`)
    expect(full).toEqual(rings().slice(0, count))
    expect(svg).toContain(`aria-label="${count} in 100"`)
  })
})
