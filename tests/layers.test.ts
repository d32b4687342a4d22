/** Imports go one way. The tables below are the map of the house; the functions read source text, not running code. */
import { isBuiltin } from 'node:module'
import { posix } from 'node:path'
import ts from 'typescript'
import { describe, expect, it } from 'vitest'
import { sources, viewNames, worldlyProblems } from './layers/source-scan.js'

/** What each layer may import besides itself. A layer is a folder or a file; the longest match counts. */
const mayImport: Readonly<Record<string, readonly string[]>> = {
  'shared/': [],
  'server/errors.ts': [],
  'server/diagnosis/': ['shared/'],
  'server/knowledge/': ['shared/', 'server/errors.ts'],
  'server/cases/': ['shared/', 'server/errors.ts'],
  'server/assessments.ts': ['shared/'],
  'server/deps.ts': ['shared/', 'server/assessments.ts', 'server/cases/', 'server/diagnosis/'],
  'server/pages/': ['shared/', 'server/errors.ts', 'server/cases/'],
  'server/middleware/': ['server/errors.ts'],
  'server/api/': [
    'shared/',
    'server/cases/',
    'server/deps.ts',
    'server/diagnosis/',
    'server/errors.ts',
    'server/middleware/',
  ],
  'server/routes/': [
    'shared/',
    'server/api/',
    'server/cases/',
    'server/deps.ts',
    'server/diagnosis/',
    'server/errors.ts',
    'server/middleware/',
    'server/pages/',
  ],
  'server/error-page.ts': ['server/errors.ts', 'server/pages/'],
  'server/app.ts': [
    'server/deps.ts',
    'server/error-page.ts',
    'server/middleware/',
    'server/pages/',
    'server/routes/',
  ],
  'server/config.ts': ['shared/', 'server/errors.ts'],
  'server/serve.ts': [
    'server/app.ts',
    'server/assessments.ts',
    'server/cases/',
    'server/config.ts',
    'server/diagnosis/',
    'server/errors.ts',
    'server/knowledge/',
  ],
  'server/start.ts': ['server/config.ts', 'server/serve.ts'],
  'server/demo-cases.ts': ['shared/', 'server/cases/'],
  'server/demo.ts': ['server/config.ts', 'server/demo-cases.ts', 'server/serve.ts'],
  'tests/': ['shared/', 'server/'],
}

/** Who may import a package. `node:` stands for everything that Node brings along. */
const mayUse: Readonly<Record<string, readonly string[]>> = {
  'better-sqlite3': ['server/cases/'],
  ejs: ['server/pages/render.ts'],
  express: [
    'server/api/',
    'server/app.ts',
    'server/error-page.ts',
    'server/middleware/',
    'server/pages/render.ts',
    'server/routes/',
  ],
  helmet: ['server/middleware/'],
  'json-rules-engine': ['server/diagnosis/fired-rules.ts'],
  kysely: ['server/cases/'],
  'lru-cache': ['server/assessments.ts', 'server/cases/'],
  minisearch: ['server/pages/complaint-search.ts'],
  'node:': [
    'server/app.ts',
    'server/cases/',
    'server/config.ts',
    'server/demo.ts',
    'server/knowledge/',
    'server/pages/render.ts',
    'server/serve.ts',
    'server/start.ts',
  ],
  prettier: ['server/knowledge/fix-rules.ts'],
  zod: ['shared/', 'server/api/', 'server/config.ts', 'server/knowledge/', 'server/routes/'],
}

/** Upward imports that are known and to be mended. One that is no longer needed fails, so the list only shrinks. */
const exceptions: readonly string[] = [
  'server/middleware/body-type.ts imports server/api/problems.ts, which is above it',
]

function layerOf(file: string): string | undefined {
  return Object.keys(mayImport)
    .filter((layer) => file.startsWith(layer))
    .sort((a, b) => b.length - a.length)[0]
}

/** What a file imports against the tables; empty when all is well. */
function importProblems(file: string, text: string): string[] {
  const layer = layerOf(file)
  if (layer === undefined) return [`${file} belongs to no layer: add it to the table`]
  return ts
    .preProcessFile(text)
    .importedFiles.flatMap(({ fileName: name }) =>
      name.startsWith('.') ? fileProblems(file, layer, name) : packageProblems(file, name),
    )
}

function fileProblems(file: string, layer: string, name: string): string[] {
  const target = posix.join(posix.dirname(file), name).replace(/\.js$/, '.ts')
  if (target.endsWith('.json')) return []
  if (target.startsWith(layer) || mayImport[layer]!.some((it) => target.startsWith(it))) return []
  return [`${file} imports ${target}, which is above it`]
}

function packageProblems(file: string, name: string): string[] {
  if (file.startsWith('tests/')) return []
  const key = isBuiltin(name)
    ? 'node:'
    : name
        .split('/')
        .slice(0, name.startsWith('@') ? 2 : 1)
        .join('/')
  const users = mayUse[key]
  if (users === undefined) return [`${file} imports ${name}, which is in no table: say who may use it`]
  return users.some((it) => file.startsWith(it)) ? [] : [`${file} imports ${name}, which is not for it`]
}

describe('the house', () => {
  it('imports one way only', () => {
    const all = ['shared', 'server', 'tests'].flatMap(sources)
    expect(all.length).toBeGreaterThan(20)
    expect(all.flatMap(({ file, text }) => importProblems(file, text))).toEqual(exceptions)
  })

  it('keeps clock, chance and the world out of the core', () => {
    const core = sources('server/diagnosis')
    expect(core.length).toBeGreaterThan(5)
    expect(core.flatMap(({ file, text }) => worldlyProblems(file, text))).toEqual([])
  })

  it('names templates in pages/render.ts only (the rulebook names drawings, to check that they are there)', () => {
    const naming = sources('server').filter(({ text }) => viewNames(text).length > 0)
    expect(naming.map(({ file }) => file).filter((file) => !file.startsWith('server/knowledge/'))).toEqual([
      'server/pages/render.ts',
    ])
  })
})

describe('a planted mistake is caught:', () => {
  it.each([
    [
      'server/diagnosis/x.ts',
      "import { page } from '../pages/words.js'",
      'server/pages/words.ts, which is above it',
    ],
    [
      'server/diagnosis/plan/x.ts',
      "import type { Deps } from '../../deps.js'",
      'server/deps.ts, which is above it',
    ],
    [
      'server/diagnosis/x.ts',
      "export { read } from '../knowledge/load.js'",
      'server/knowledge/load.ts, which is above it',
    ],
    [
      'server/pages/x.ts',
      "const a = await import('../routes/case-routes.js')",
      'server/routes/case-routes.ts, which is above it',
    ],
    ['shared/x.ts', "import { x } from '../server/errors.js'", 'server/errors.ts, which is above it'],
    ['server/app.ts', "import { x } from '../tests/help.js'", 'tests/help.ts, which is above it'],
    ['server/diagnosis/x.ts', "import { readFileSync } from 'node:fs'", 'node:fs, which is not for it'],
    ['server/diagnosis/x.ts', "import { readFileSync } from 'fs'", 'fs, which is not for it'],
    [
      'server/diagnosis/plan/x.ts',
      "import { Engine } from 'json-rules-engine'",
      'json-rules-engine, which is not for it',
    ],
    ['server/pages/x.ts', "import { z } from 'zod'", 'zod, which is not for it'],
    ['server/routes/x.ts', "import { sql } from 'kysely'", 'kysely, which is not for it'],
    ['server/pages/x.ts', "import ejs from 'ejs'", 'ejs, which is not for it'],
    [
      'server/routes/x.ts',
      "import x from '@some/thing/deep'",
      '@some/thing/deep, which is in no table: say who may use it',
    ],
  ])('%s: %s', (file, text, problem) => {
    expect(importProblems(file, text)).toEqual([`${file} imports ${problem}`])
  })

  it('a file that belongs nowhere', () => {
    expect(importProblems('server/utils/x.ts', '')).toEqual([
      'server/utils/x.ts belongs to no layer: add it to the table',
    ])
  })

  it.each([
    ['Date.now()', 'Date'],
    ['new Date()', 'Date'],
    ['const r = Math.random', 'Math.random'],
    ['performance.now()', 'performance'],
    ['process.env.HOME', 'process'],
    ['console.log(1)', 'console'],
    ['setTimeout(f, 1)', 'setTimeout'],
    ["globalThis['Date']", 'globalThis'],
  ])('in the core: %s', (text, name) => {
    expect(worldlyProblems('server/diagnosis/x.ts', text)).toEqual([`server/diagnosis/x.ts uses ${name}`])
  })

  it.each([
    "res.render('pages/step', {})",
    "join(root, 'views')",
    "const it = 'step.ejs'",
    'open(`pages/${name}`)',
  ])('a template named elsewhere: %s', (text) => {
    expect(viewNames(text)).toHaveLength(1)
  })
})

describe('what is right is let through:', () => {
  it.each([
    ['server/diagnosis/fired-rules.ts', "import { Engine } from 'json-rules-engine'"],
    ['server/diagnosis/plan/x.ts', "import { posterior } from '../posterior.js'"],
    ['server/routes/x.ts', "import { stepPage } from '../pages/step-page.js'"],
    ['tests/cases/x.test.ts', "import { fold } from '../../server/cases/fold.js'"],
  ])('%s: %s', (file, text) => {
    expect(importProblems(file, text)).toEqual([])
  })

  it.each([
    '// Date.now() would make it impure',
    "const said = 'process'",
    'stage.process(1)',
    'Math.log2(2)',
  ])('in the core: %s', (text) => {
    expect(worldlyProblems('server/diagnosis/x.ts', text)).toEqual([])
  })

  it.each(["import { page } from './pages/step-page.js'", "new URL('../views/assets', here)"])(
    'no template: %s',
    (text) => {
      expect(viewNames(text)).toEqual([])
    },
  )
})
