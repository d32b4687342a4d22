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

/** What stands in a text like a name of its own, quoted or between tags. */
const namedIn = (text: string): Set<string> =>
  new Set([...text.matchAll(/['"`>]([a-z0-9-]+)(?=['"`<])/g)].map((it) => it[1]!))

const code = [
  ...filesBelow('server', /\.ts$/),
  ...filesBelow('shared', /\.ts$/),
  ...filesBelow('views', /\.(ejs|js|css)$/),
].map(({ file, text }) => ({ file, names: namedIn(text) }))

describe('no code names', () => {
  it.each(['kinds', 'causes', 'findings', 'steps', 'fixes', 'setups', 'care'])(
    'one of rules/%s',
    (folder) => {
      const ids = idsOf(folder)
      expect(ids.length).toBeGreaterThan(2)
      const named = code.flatMap(({ file, names }) =>
        ids.filter((id) => names.has(id)).map((id) => `${file} names ${id}`),
      )
      expect(named).toEqual([])
    },
  )

  it('would be seen if it did', () => {
    expect(code.length).toBeGreaterThan(150)
    const id = idsOf('kinds')[0]!
    expect([...namedIn(`if (kind === '${id}' || it === "x") <b>${id}</b>`)]).toEqual([id, 'x'])
  })
})
