/** The JSON Schemas for editors: fresh, and saying the same as the schemas that the loader uses. */
import { readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { Ajv2020 } from 'ajv/dist/2020.js'
import addFormats from 'ajv-formats'
import { afterEach, describe, expect, it } from 'vitest'
import { jsonSchemas, schemaFiles, staleSchemas } from '../../server/rulebook/json-schemas.js'
import { reportOnRules } from '../../server/rulebook/check-rules.js'
import { readRulebook } from '../../server/rulebook/load.js'
import { knownIds } from '../../server/rulebook/known-ids.js'
import { fixRules } from '../../server/rulebook/fix-rules.js'
import { folders, type Folder } from '../../shared/knowledge.js'
import { tinyFiles, writtenRules, type Files } from './tiny-rulebook.js'

const rules = fileURLToPath(new URL('../../rules/', import.meta.url))
const realIds = knownIds(rules)!
const written: string[] = []

function tiny(mistake: (files: Files) => void = () => {}): string {
  const files = tinyFiles()
  files.kinds.tiny.drawing = 'universal-motor'
  mistake(files)
  written.push(writtenRules(files))
  return written.at(-1)!
}

// oxlint-disable-next-line typescript/no-explicit-any -- tests write nonsense into files on purpose
type Loose = Record<string, any>

let idsOfTiny: typeof realIds | undefined
const tinyIds = () => (idsOfTiny ??= knownIds(tiny())!)
const schemasOf = new WeakMap<typeof realIds, ReturnType<typeof jsonSchemas>>()

/** A general-purpose validator of the published standard (JSON Schema 2020-12), which knows nothing of zod. */
function validator(file: string, ids = realIds) {
  const ajv = new Ajv2020({ strict: false, inlineRefs: false, code: { optimize: false } })
  addFormats.default(ajv)
  const schemas = schemasOf.get(ids) ?? jsonSchemas(ids)
  schemasOf.set(ids, schemas)
  ajv.addSchema(schemas.get('ids.schema.json')!, 'ids.schema.json')
  return ajv.compile(schemas.get(file)!)
}

afterEach(() => written.splice(0).forEach((dir) => rmSync(dir, { recursive: true })))

it('are fresh in rules/schema/ (if not: npm run fix:rules)', () => {
  expect(staleSchemas(rules)).toEqual([])
})

describe('an editor that uses them', () => {
  it.each(Object.entries(schemaFiles))('accepts every file of rules/%s', (folder, schema) => {
    const accepts = validator(schema)
    for (const name of readdirSync(join(rules, folder))) {
      accepts(JSON.parse(readFileSync(join(rules, folder, name), 'utf8')))
      expect({ name, errors: accepts.errors }).toEqual({ name, errors: null })
    }
  })

  const compare = (operator: string, value?: unknown) => ({ fact: 'pulls', operator, value })
  it.each([
    [true, { all: [compare('equal', 'yes')] }],
    [true, { any: [compare('lessThan', 2), { all: [{ any: [compare('in', ['yes', 'no'])] }] }] }],
    [false, { all: [] }],
    [false, { all: [compare('equal', 'yes')], any: [compare('equal', 'yes')] }],
    [false, { all: [compare('notEqual', 'yes')] }],
    [false, { any: [{ all: [{ any: [compare('notIn', ['yes'])] }] }] }],
    [false, { all: [compare('lessThan', '2')] }],
    [false, compare('equal', 'yes')],
  ])('agrees with the loader, %s, on the condition %j', (good, when) => {
    const stop = { ...JSON.parse(JSON.stringify(tinyFiles().stops['cord-damaged'])), when }
    const asWritten = JSON.parse(JSON.stringify(stop)) as unknown
    expect(validator('stop.schema.json', tinyIds())(asWritten)).toBe(good)
    expect(folders.stops.safeParse(asWritten).success).toBe(good)
  })

  it('is told about a misspelt field', () => {
    const care = { ...tinyFiles().care['oil-blade'], evry: 'daily' }
    expect(validator('care.schema.json', tinyIds())(care)).toBe(false)
  })

  const spoilt: readonly (readonly [string, Folder, string, (it: Loose) => unknown])[] = [
    ['a kind', 'findings', 'pulls', (it) => (it['kinds'] = ['tinny'])],
    ['a cause in strengths', 'findings', 'pulls', (it) => (it['strengths'] = { 'dul-blade': 0.9 })],
    [
      'a kind in one strength',
      'findings',
      'pulls',
      (it) => (it['strengths'] = { 'dull-blade': { tinny: 0.9 } }),
    ],
    ['a question', 'findings', 'pulls', (it) => (it['when'].all[0].fact = 'pulled')],
    ['a source', 'findings', 'pulls', (it) => (it['source'] = 'gues')],
    ['a share’s kind', 'causes', 'dull-blade', (it) => (it['shares'] = { tinny: 600 })],
    ['a part', 'causes', 'dull-blade', (it) => (it['part'] = 'blad')],
    ['a kind in forKind', 'causes', 'dull-blade', (it) => (it['forKind'] = { tinny: {} })],
    ['a set-up', 'steps', 'measure-blade', (it) => (it['setups'] = ['plug-off'])],
    ['a set-up needed', 'setups', 'body-open', (it) => (it['needs'] = ['plug-off'])],
    ['a cure', 'fixes', 'new-blade', (it) => (it['cures'] = { 'dul-blade': 0.9 })],
    ['care afterwards', 'fixes', 'new-blade', (it) => (it['afterwards'] = ['oil-blad'])],
    ['a finding', 'stops', 'cord-damaged', (it) => (it['when'].all[0].fact = 'cord')],
    ['a hidden question', 'relevance', 'cord-first', (it) => (it['hides'] = { questions: ['pulled'] })],
    ['a hidden fix', 'relevance', 'cord-first', (it) => (it['hides'] = { fixes: ['new-blad'] })],
    ['what it prevents', 'care', 'oil-blade', (it) => (it['prevents'] = ['dul-blade'])],
    ['a drawing', 'kinds', 'tiny', (it) => (it['drawing'] = 'no-such-drawing')],
  ]
  it.each(spoilt)('underlines a misspelt name: %s', (_what, folder, id, misspell) => {
    const accepts = validator(schemaFiles[folder], tinyIds())
    const files = tinyFiles()
    files.kinds.tiny.drawing = 'universal-motor'
    const file = files[folder][id] as Loose
    expect(accepts(file)).toBe(true)
    misspell(file)
    expect(accepts(file)).toBe(false)
  })
})

describe('npm run fix:rules', () => {
  it('brings schemas, key order and form into order, changes no meaning, and then finds nothing to do', async () => {
    const dir = tiny((it) => {
      const { name, ...rest } = it.causes['dull-blade']
      it.causes['dull-blade'] = { ...rest, name }
    })
    const path = join(dir, 'causes', 'dull-blade.json')
    const before = JSON.parse(readFileSync(path, 'utf8')) as object
    expect(reportOnRules(dir).text).toMatch(
      /^rules\/schema\/ is out of date \(care\.schema\.json, .*; run npm run fix:rules$/,
    )

    expect(await fixRules(dir)).toEqual(
      expect.arrayContaining(['schema/cause.schema.json', 'causes/dull-blade.json']),
    )

    const after = JSON.parse(readFileSync(path, 'utf8')) as object
    // it says by which schema an editor knows it, and nothing else is new
    expect(after).toEqual({ $schema: '../schema/cause.schema.json', ...before })
    expect(Object.keys(after).slice(0, 3)).toEqual(['$schema', 'name', 'part'])
    expect(reportOnRules(dir)).toMatchObject({ ok: true })
    expect(await fixRules(dir)).toEqual([])
  })

  it('removes a schema that is no longer generated, and leaves a file alone that is no JSON', async () => {
    const dir = tiny((it) => (it.causes['dull-blade'] = '{ "name": '))
    const ids = () => JSON.parse(readFileSync(join(dir, 'schema', 'ids.schema.json'), 'utf8')) as object
    await fixRules(dir)
    expect(ids()).toMatchObject({
      $defs: { causes: { enum: ['broken-cord', 'dull-blade', 'nothing-wrong'] } },
    })
    writeFileSync(join(dir, 'schema', 'old.schema.json'), '{}')
    expect(staleSchemas(dir)).toEqual(['old.schema.json'])
    expect(await fixRules(dir)).toEqual(['schema/old.schema.json'])
    expect(readFileSync(join(dir, 'causes', 'dull-blade.json'), 'utf8')).toBe('{ "name": ')
  })

  it('lists what a finding points to strongest first, by the greatest number where kinds differ, then by name', async () => {
    const strengths = {
      'nothing-wrong': 0.2,
      'dull-blade': 0.2,
      'broken-cord': { tiny: 0.6 },
    }
    const dir = tiny((it) => (it.findings.pulls.strengths = strengths))
    await fixRules(dir)
    const after = JSON.parse(readFileSync(join(dir, 'findings', 'pulls.json'), 'utf8')) as {
      strengths: object
    }
    expect(Object.keys(after.strengths)).toEqual(['broken-cord', 'dull-blade', 'nothing-wrong'])
  })

  it('leaves out a when that is a yes to the own question, and the loader reads the same', async () => {
    const dir = tiny((it) => delete it.findings['cord-damaged'].when)
    const before = readRulebook(dir)
    expect(before.problems).toEqual([])
    expect(before.knowledge.findings.find(({ id }) => id === 'cord-damaged')?.when).toEqual({
      all: [{ fact: 'cord-damaged', operator: 'equal', value: 'yes' }],
    })
    await fixRules(dir)
    const read = (id: string) =>
      JSON.parse(readFileSync(join(dir, 'findings', `${id}.json`), 'utf8')) as object
    expect(read('pulls')).not.toHaveProperty('when')
    expect(read('blade-thin')).toHaveProperty('when')
    expect(readRulebook(dir).knowledge).toEqual(before.knowledge)
  })

  it('adds a new id to the one list of ids, which is stale until then', async () => {
    const dir = tiny()
    await fixRules(dir)
    const cause = tinyFiles().causes['dull-blade'] as object
    writeFileSync(join(dir, 'causes', 'bent-blade.json'), JSON.stringify(cause))
    expect(staleSchemas(dir)).toEqual(['ids.schema.json'])
    expect(await fixRules(dir)).toEqual(['schema/ids.schema.json', 'causes/bent-blade.json'])
    expect(staleSchemas(dir)).toEqual([])
  })

  it('keeps the ids as they were while a file that holds some cannot be read', async () => {
    const dir = tiny()
    await fixRules(dir)
    writeFileSync(join(dir, 'steps', 'how-it-cuts.json'), '{')
    expect(staleSchemas(dir)).toEqual([])
    expect(await fixRules(dir)).toEqual([])
  })
})

it('have one for each folder of the rulebook', () => {
  expect(Object.keys(schemaFiles)).toEqual(Object.keys(folders))
})
