/** Kinds, causes, parts and the rest are data: no line of code and no view may know one by name. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'

const root = fileURLToPath(new URL('../../', import.meta.url))
const drawings = 'views/partials/drawings/'

function filesBelow(folder: string, ends: RegExp): { file: string; text: string }[] {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name}`)
    .filter((file) => ends.test(file) && !file.startsWith(drawings))
    .map((file) => ({ file, text: readFileSync(`${root}${file}`, 'utf8') }))
}

/** Quoted ids with a dash in them; a single word such as "switch" or "cord" has other meanings in code. */
const idsOf = (folder: string): string[] =>
  readdirSync(`${root}rules/${folder}`)
    .map((name) => name.replace(/\.json$/, ''))
    .filter((id) => id.includes('-'))

const code = [
  ...filesBelow('server', /\.ts$/),
  ...filesBelow('shared', /\.ts$/),
  ...filesBelow('views', /\.(ejs|js|css)$/),
]

describe('no code names', () => {
  it.each(['kinds', 'causes', 'findings', 'steps', 'fixes', 'setups', 'care'])(
    'one of rules/%s',
    (folder) => {
      const ids = idsOf(folder)
      expect(ids.length).toBeGreaterThan(2)
      const named = code.flatMap(({ file, text }) =>
        ids.filter((id) => new RegExp(`['"\`>]${id}['"\`<]`).test(text)).map((id) => `${file} names ${id}`),
      )
      expect(named).toEqual([])
    },
  )

  it('would be seen if it did', () => {
    expect(code.length).toBeGreaterThan(150)
    expect(
      idsOf('kinds').some((id) =>
        new RegExp(`['"\`>]${id}['"\`<]`).test(`if (kind === '${idsOf('kinds')[0]}')`),
      ),
    ).toBe(true)
  })
})
