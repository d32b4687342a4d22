/** Imports go one way, as layers/tables.ts has it. What is held is source text, not running code. */
import { describe, expect, it } from 'vitest'
import { importProblems, inCircles, stageProblems } from './layers/import-scan.js'
import { sources, viewNames, worldlyProblems } from './layers/source-scan.js'
import { coreStages } from './layers/tables.js'

describe('the house', () => {
  it('imports one way only', () => {
    const all = ['shared', 'server', 'tests', 'views'].flatMap(sources)
    expect(all.length).toBeGreaterThan(20)
    expect(all.flatMap(({ file, text }) => importProblems(file, text))).toEqual([])
  })

  it('goes through the core in the order of its arrows', () => {
    const core = sources('server/diagnosis')
    expect(core.flatMap(({ file, text }) => stageProblems(file, text))).toEqual([])
    const there = new Set(core.map(({ file }) => file))
    expect(coreStages.flat().filter((name) => !there.has(`server/diagnosis/${name}`))).toEqual([])
  })

  it('goes nowhere in circles', () => {
    expect(inCircles(['shared', 'server', 'tests'].flatMap(sources))).toEqual([])
  })

  it('keeps clock, chance and the world out of the core', () => {
    // simulated tools have chances of their own, fixed by number and id
    const core = ['server/diagnosis', 'server/simulation', 'server/practice'].flatMap(sources)
    expect(core.length).toBeGreaterThan(5)
    expect(core.flatMap(({ file, text }) => worldlyProblems(file, text))).toEqual([])
  })

  it('names templates in pages/render.ts only (drawings are listed too, to know which are there)', () => {
    const naming = sources('server').filter(({ text }) => viewNames(text).length > 0)
    expect(naming.map(({ file }) => file).filter((file) => !file.startsWith('server/rulebook/'))).toEqual([
      'server/pages/layout/drawing-files.ts',
      'server/pages/render.ts',
    ])
  })
})

describe('a planted mistake is caught:', () => {
  it.each([
    [
      'server/diagnosis/x.ts',
      "import { page } from '../pages/layout/words.js'",
      'server/pages/layout/words.ts, which is above it',
    ],
    [
      'server/diagnosis/plan/x.ts',
      "import type { Deps } from '../../wiring/deps.js'",
      'server/wiring/deps.ts, which is above it',
    ],
    [
      'server/diagnosis/x.ts',
      "export { read } from '../rulebook/load.js'",
      'server/rulebook/load.ts, which is above it',
    ],
    [
      'server/pages/x.ts',
      "const a = await import('../routes/case/case-routes.js')",
      'server/routes/case/case-routes.ts, which is above it',
    ],
    ['shared/x.ts', "import { x } from '../server/errors.js'", 'server/errors.ts, which is above it'],
    ['server/wiring/app.ts', "import { x } from '../../tests/help.js'", 'tests/help.ts, which is above it'],
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

  it('a step back in the core, and a file of the core that is in no stage', () => {
    expect(stageProblems('server/diagnosis/posterior.ts', "import { x } from './plan/build.js'")).toEqual([
      'server/diagnosis/posterior.ts imports server/diagnosis/plan/build.ts, which comes after it',
    ])
    expect(stageProblems('server/diagnosis/x.ts', '')).toEqual([
      'server/diagnosis/x.ts is in no stage of the core: add it to the table',
    ])
  })

  it('a circle of three', () => {
    const files = [
      { file: 'a.ts', text: "import { b } from './b.js'" },
      { file: 'b.ts', text: "import type { C } from './c.js'" },
      { file: 'c.ts', text: "export { a } from './a.js'" },
      { file: 'd.ts', text: "import { a } from './a.js'" },
    ]
    expect(inCircles(files)).toEqual(['a.ts', 'b.ts', 'c.ts'])
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
