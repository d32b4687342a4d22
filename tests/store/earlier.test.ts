/**
 * Files of every earlier version of the program, made by that version itself (the commit that brought the step of the
 * schema after which a file is named) with a shop in it as far as it could keep one: each opens with all that was told.
 */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { knownMigrations } from '../../server/store/migrations/migrations.js'
import { openStores } from '../../server/store/stores.js'

const earlier = fileURLToPath(new URL('earlier', import.meta.url))
const files = readdirSync(earlier)
  .map((name) => name.replace('.db.gz', ''))
  .sort()
let folder: string
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'earlier-test-'))))
afterAll(() => rmSync(folder, { recursive: true }))

it('there is one of each step', () => {
  expect(files).toEqual([...knownMigrations].sort())
})

it.each(files)('that of %s opens, with all that was told', async (name) => {
  const file = join(folder, `${name}.db`)
  writeFileSync(file, gunzipSync(readFileSync(join(earlier, `${name}.db.gz`))))
  /** Was it kept by then? The two steps of the number 6 came in the order 006-case-list, 007, 006-lessons. */
  const since = (step: string): boolean => name >= step
  let ids = 0
  const open = () => openStores({ file, newId: () => `new${++ids}`, newKey: () => `new${++ids}` })
  await (await open()).close() // a second start finds nothing more to do
  const { cases, register, tools, care, parts, people, written, close } = await open()
  const [later, first] = await cases.list()
  expect(later).toMatchObject({ tool: 'Chair 3', state: 'on-the-bench', words: null })
  expect(first).toMatchObject({ tool: 'Chair 2', state: 'boxed-for-service', words: 'Läuft heiß' })
  expect((await cases.get(first!.id)).events).toMatchObject([
    { type: 'answered', answers: { hot: 'yes' }, words: 'Läuft heiß' },
    { type: 'finished' },
  ])
  expect(await cases.count({ find: 'LÄUFT' })).toBe(1)
  if (since('002')) {
    const told = { currency: { code: 'EUR', digits: 2 }, figures: { minute: 115 } }
    expect((await cases.shop())?.record).toEqual(told)
  }
  if (since('004')) {
    const [evening] = await register.classes()
    const [ann] = await register.learners(evening!.id)
    expect([evening!.name, ann!.name]).toEqual(['Evening', 'Ann'])
    expect(await register.exercises({ learner: ann!.id })).toMatchObject([
      { moveCount: 2, outcome: { over: 'hand-back', score: 83 } },
    ])
    expect(await register.unscored()).toEqual([])
    expect(await register.setExercises(evening!.id)).toHaveLength(1)
    expect(await register.signedOff(ann!.id)).toMatchObject([{ skill: 'found', by: 'Ngozi' }])
    if (since('006-lessons') && name !== '007-whose')
      expect(await register.doorOf(evening!.id)).toMatchObject({ word: 'comb' })
  }
  if (since('005')) expect(await tools.ofCase(first!.id)).toMatchObject({ name: 'Chair 2' })
  if (name === '006-lessons' || since('008')) {
    expect((await parts.list())[0]).toMatchObject({ name: 'Brush set', stock: 3 })
    expect([...(await care.lastDone()).values()].map((it) => [...it])).toEqual([[['oil', '2026-03-02']]])
  }
  if (since('008')) expect((await people.people()).map((it) => it.name)).toEqual(['Ada'])
  if (since('010')) {
    const [one] = await tools.list()
    expect(await written.about('tool', one!.id, 9)).toMatchObject([{ did: 'place spare', by: 'Ada' }])
  }
  if (since('011')) {
    const [evening] = await register.classes()
    const [lately] = await written.about('class', evening!.id, 1)
    expect(lately).toMatchObject({ did: expect.stringMatching(/^renamed /) as unknown, by: 'Ada' })
    expect((await care.history({ most: 1 }))[0]).toMatchObject({ who: null })
  }
  await cases.append(later!.id, { type: 'finished', state: 'set-aside' }, '2026-03-03T09:00:00.000Z')
  await close()
})
