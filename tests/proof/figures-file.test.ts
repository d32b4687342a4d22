import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { readFigures } from '../../server/proof/figures-file.js'

let folder: string
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'figures-'))))
afterAll(() => rmSync(folder, { recursive: true }))

function fileOf(text: string): URL {
  const path = join(folder, 'figures.json')
  writeFileSync(path, text)
  return pathToFileURL(path)
}

it('are null where nothing was proved', () => {
  expect(readFigures(pathToFileURL(join(folder, 'none.json')))).toBeNull()
})

it('are read as written', () => {
  const figures = {
    kinds: {},
    told: { digest: 'b'.repeat(64), stories: 0, causes: [] },
  }
  expect(readFigures(fileOf(JSON.stringify(figures)))).toEqual(figures)
})

it.each([
  ['cut off', '{"kinds": "'],
  ['of another shape', '{"kinds": "abc"}'],
])('%s: say what to do', (_, text) => {
  expect(() => readFigures(fileOf(text))).toThrow(/figures\.json: .*run npm run prove/)
})
