import { readdir, readFile } from 'node:fs/promises'
import ejs from 'ejs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { clipperDrawing, dotField, drawingIds, shadeLevel } from '../../server/pages/drawing.js'
import { KindFile } from '../../shared/knowledge.js'

const views = new URL('../../views/', import.meta.url)
const drawings = new URL('partials/drawings/', views)
const kindFile = new URL('../../rules/kinds/universal-motor.json', import.meta.url)
const { parts } = KindFile.parse(JSON.parse(await readFile(kindFile, 'utf8')))
const template = (name: string) => readFile(new URL(`${name}.ejs`, drawings), 'utf8')

describe('the clipper drawing', () => {
  it('has one group a part of the kind, hatched at the level of that part alone', async () => {
    const text = await template('clipper')
    for (const { id } of parts) {
      const svg = ejs.render(text, { page: clipperDrawing(new Map([[id, 0.9]]), parts) })
      const hatched = [...svg.matchAll(/class="part part-([a-z-]+) shade-([0-5])"/g)]
      expect(hatched.map(([, part]) => part).sort()).toEqual(parts.map((part) => part.id).sort())
      expect(hatched.filter(([, , level]) => level !== '0').map(([, part]) => part)).toEqual([id])
      expect(svg).toContain('url(#hatch-5)')
    }
  })

  it('labels and tells the three likeliest parts, and no part that hardly anything points to', () => {
    const suspicion = new Map([
      ['brushes', 0.62],
      ['cord', 0.24],
      ['switch', 0.12],
      ['commutator', 0.08],
      ['wiring', 0.01],
    ])
    const { labels, alt } = clipperDrawing(suspicion, parts)
    expect(labels.map(({ text }) => text).sort()).toEqual(['Brushes', 'Cord', 'Switch'])
    expect(alt).toContain('Brushes, 62 in 100; Cord, 24 in 100; Switch, 12 in 100.')
    expect(clipperDrawing(new Map([['cord', 0.01]]), parts).labels).toEqual([])
  })

  it('never lets two labels of a row touch or leave the sheet, whichever parts are suspected', () => {
    const chance = fc.double({ min: 0, max: 1, noNaN: true })
    fc.assert(
      fc.property(fc.array(chance, { minLength: parts.length, maxLength: parts.length }), (chances) => {
        const suspicion = new Map(parts.map(({ id }, i) => [id, chances[i]!]))
        const { labels } = clipperDrawing(suspicion, parts)
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
})

describe('density of hatching', () => {
  it('never falls as a probability rises, and uses its whole range', () => {
    const levels = Array.from({ length: 101 }, (_, i) => shadeLevel(i / 100))
    expect(levels).toEqual([...levels].sort((a, b) => a - b))
    expect(new Set(levels)).toEqual(new Set([0, 1, 2, 3, 4, 5]))
  })
})

describe('drawing files', () => {
  it('are exactly the listed ones, the clipper and the hand', async () => {
    const names = (await readdir(drawings)).map((name) => name.replace('.ejs', ''))
    expect(names.sort()).toEqual([...drawingIds, 'clipper', 'hand'].sort())
  })

  it.each([...drawingIds])(
    '%s tells its alternative, escaped, and obeys a policy without inline style or script',
    async (id) => {
      const svg = ejs.render(await template(id), { page: { alt: 'a "b" <c>' } })
      expect(svg).toContain('role="img" aria-label="a &#34;b&#34; &lt;c&gt;"')
      expect(svg).not.toMatch(/<script|<style|\sstyle=|\son\w+=|NaN|undefined/)
    },
  )
})

describe('a field of dots', () => {
  const partial = (name: string) => readFile(new URL(`partials/${name}.ejs`, views), 'utf8')

  /** Where the rings stand: those of the first row, and that row once more for each use of it. */
  async function rings(): Promise<string[]> {
    const [, group] = /<g id="dot-rings">([\s\S]*?)<\/g>/.exec(await partial('hatch-defs'))!
    const [, row] = /<path id="dot-row" class="dot" d="([^"]+)"/.exec(group!)!
    // Two half circles of radius 3.6, so the centre is as far to the right of where the ring begins.
    const begins = [...row!.matchAll(/M([\d.]+) 5a3\.6 3\.6 0 1 0 7\.2 0a3\.6 3\.6 0 1 0-7\.2 0/g)]
    const columns = begins.map(([, x]) => Number(x) + 3.6)
    const rows = [0, ...[...group!.matchAll(/<use href="#dot-row" y="(\d+)"/g)].map(([, y]) => Number(y))]
    return rows.flatMap((y) => columns.map((x) => `${x} ${y + 5}`))
  }

  it('has 100 rings, no two in one place, none over the edge', async () => {
    const at = await rings()
    expect(new Set(at).size).toBe(100)
    for (const place of at.flatMap((words) => words.split(' ').map(Number))) {
      expect(place).toBeGreaterThanOrEqual(5)
      expect(place).toBeLessThanOrEqual(95)
    }
  })

  it.each([0, 1, 62, 100])('has %i of the rings full, row by row', async (count) => {
    const svg = ejs.render(await partial('dots'), { page: dotField(count, `${count} in 100`) })
    expect(svg).toContain('<use href="#dot-rings"')
    const [, path] = /<path class="dot-full" d="([^"]*)"/.exec(svg)!
    const full = [...path!.matchAll(/M(\d+) (\d+)h0/g)].map(([, x, y]) => `${x} ${y}`)
    expect(full).toEqual((await rings()).slice(0, count))
    expect(svg).toContain(`aria-label="${count} in 100"`)
  })
})
