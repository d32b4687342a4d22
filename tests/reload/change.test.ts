/** Changed rule files: taken over whole, or kept out and told. */
import { appendFileSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import request from 'supertest'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { AssessmentView, RulebookView } from '../../shared/api.js'
import { writtenRules } from '../rulebook/tiny-rulebook.js'
import { goodFiles, longSettle, settle, watchedBench, type WatchedBench } from './watched-bench.js'

let bench: WatchedBench
beforeEach(async () => {
  bench = await watchedBench()
})
afterEach(() => bench.close())

/** The bench for what is written in pieces. */
async function patientBench(): Promise<void> {
  await bench.close()
  bench = await watchedBench(longSettle)
}

const pulls = (strength: number) => {
  const finding = goodFiles().findings.pulls as object
  return { ...finding, strengths: { 'dull-blade': strength } }
}
const blade = () => goodFiles().causes['dull-blade'] as { shares: Record<string, number> }

async function strengthInUse(): Promise<number | undefined> {
  const { body } = await request(bench.app).get('/api/rulebook?kind=tiny')
  return (body as RulebookView).findings.find(({ id }) => id === 'pulls')?.strengths['dull-blade']
}
async function dullWhenItPulls(): Promise<number> {
  const { body } = await request(bench.app)
    .post('/api/assess')
    .send({ kind: 'tiny', answers: { pulls: 'yes' } })
  return (body as AssessmentView).causes.find(({ id }) => id === 'dull-blade')!.probability
}

describe('a good change', () => {
  it('is taken over with all that was computed from the old rulebook, and told on the console', async () => {
    const before = await dullWhenItPulls()
    bench.write('findings/pulls.json', pulls(0.2))
    await bench.told(1)
    expect(bench.said).toEqual(['14:05 rules/ has changed and is taken over: findings/pulls.'])
    expect(await strengthInUse()).toBe(0.2)
    // a weaker sign raises what it points to less; the remembered answer of the old rulebook would be the old one
    expect(await dullWhenItPulls()).toBeLessThan(before)
    await bench.me.open('/rulebook')
    expect(bench.me.words).not.toContain('on disk')
  })

  it('over several files is taken over at once, however they were written: new, over a copy, in pieces', async () => {
    await patientBench()
    const { 'dull-blade': old, ...others } = goodFiles().causes
    const files = { ...others, 'dull-blade': { ...old, shares: { tiny: 590 } } }
    const text = JSON.stringify(files['dull-blade'])
    bench.write('causes/dull-blade.json', text.slice(0, 40))
    for (let at = 40; at < text.length; at += 40) {
      await pause(20)
      appendFileSync(join(bench.dir, 'causes/dull-blade.json'), text.slice(at, at + 40))
    }
    bench.write('causes/bent-blade.json', { ...old, name: 'Bent blade', shares: { tiny: 10 } })
    bench.write('.new.json.swp', 'half')
    bench.write('findings/pulls.json.tmp', {
      ...pulls(0.9),
      strengths: { 'dull-blade': 0.9, 'bent-blade': 0.9 },
    })
    renameSync(join(bench.dir, 'findings/pulls.json.tmp'), join(bench.dir, 'findings/pulls.json'))
    const fix = goodFiles().fixes['new-blade'] as object
    bench.write('fixes/new-blade.json', { ...fix, cures: { 'dull-blade': 0.9, 'bent-blade': 0.9 } })
    await bench.told(1)
    expect(bench.said).toEqual([
      '14:05 rules/ has changed and is taken over: causes/bent-blade (new), causes/dull-blade, findings/pulls, fixes/new-blade.',
    ])
  })

  it('that comes forty times in a row is taken over as it was at the end', async () => {
    await patientBench()
    for (let i = 1; i <= 40; i++) {
      bench.write('findings/pulls.json', pulls(i / 50))
      await pause(5)
    }
    await bench.told(1)
    expect(bench.said).toHaveLength(1)
    expect(await strengthInUse()).toBe(0.8)
  })

  it('of what nobody reads changes nothing: an editor’s own files, the schemas, a file written again as it was', async () => {
    const inUse = bench.rulebook.current()
    mkdirSync(join(bench.dir, 'schema'))
    for (const name of ['.pulls.json.swp', 'pulls.json~', '4913', '#pulls.json#', 'pulls.json.bak'])
      bench.write(`findings/${name}`, 'half a ')
    bench.write('schema/finding.schema.json', {})
    bench.write('findings/pulls.json', readFileSync(join(bench.dir, 'findings/pulls.json'), 'utf8'))
    await pause(settle * 2)
    expect(bench.said).toEqual([])
    expect(bench.rulebook.current()).toBe(inUse)
    // and what lies about does not stand in the way of a change
    bench.write('findings/pulls.json', pulls(0.3))
    await bench.told(1)
    expect(await strengthInUse()).toBe(0.3)
  })
})

describe('a bad change', () => {
  it('is kept out; console and rulebook pages say why, and the bench goes on', async () => {
    bench.write('causes/dull-blade.json', { ...blade(), shares: { tiny: 700 }, servise: 'mend' })
    bench.write('findings/pulls.json', pulls(0.2))
    await bench.told(1)
    expect(bench.said[0]).toMatch(/rules\/causes\/dull-blade\.json: servise: there is no such field/)
    expect(bench.said[0]).toMatch(/The shop runs on the rulebook from \d\d:\d\d until that is put right\./)
    expect(await strengthInUse()).toBe(0.9)
    for (const page of ['/rulebook', '/rulebook/causes', '/rulebook/stops', '/rulebook/causes/dull-blade']) {
      await bench.me.open(page)
      expect(bench.me.status).toBe(200)
      expect(bench.me.words).toMatch(/The rulebook on disk has 1 mistake; the shop runs on the one from/)
      expect(bench.me.words).toContain('rules/causes/dull-blade.json, servise : there is no such field')
    }
    await bench.me.open('/')
    expect(bench.me.words).not.toContain('on disk')
    await bench.me.send('/cases', { kind: 'tiny', tool: 'Chair 2' })
    expect(bench.me.status).toBe(200)
    expect(bench.me.at).toMatch(/^\/cases\/case1\/complaint$/)
  })

  it('is taken over once it is put right, and the notice goes', async () => {
    bench.write('causes/dull-blade.json', { ...blade(), shares: { tiny: 590 } })
    await bench.told(1)
    expect(bench.said[0]).toContain('990')
    await bench.me.open('/rulebook')
    expect(bench.me.words).toContain('on disk has 1 mistake')
    const other = goodFiles().causes['broken-cord'] as object
    bench.write('causes/broken-cord.json', { ...other, shares: { tiny: 310 } })
    await bench.told(2)
    expect(bench.said[1]).toMatch(/taken over: causes\/broken-cord, causes\/dull-blade\./)
    await bench.me.open('/rulebook')
    expect(bench.me.words).not.toContain('on disk')
  })

  it('that is undone leaves the rulebook in use as it is, with all it remembers', async () => {
    const inUse = bench.rulebook.current()
    bench.write('findings/pulls.json', '{ "says": ')
    await bench.told(1)
    expect(bench.said[0]).toMatch(
      /rules\/findings\/pulls\.json: line 1, column \d+: this is not valid JSON; look here/,
    )
    bench.write('findings/pulls.json', goodFiles().findings.pulls as object)
    await bench.told(2)
    expect(bench.said[1]).toBe('rules/ is as it was; the shop runs on it.')
    expect(bench.rulebook.current()).toBe(inUse)
    expect(bench.rulebook.keptOut()).toBeNull()
  })

  it('is also a file that others point to and that is gone, or the whole folder', async () => {
    rmSync(join(bench.dir, 'causes/broken-cord.json'))
    await bench.told(1)
    expect(bench.said[0]).toMatch(/there is no rules\/causes\/broken-cord\.json/)
    bench.write('causes/broken-cord.json', goodFiles().causes['broken-cord'] as object)
    await bench.told(2)
    expect(bench.said[1]).toMatch(/as it was/)
    rmSync(bench.dir, { recursive: true })
    await bench.told(3)
    expect(bench.said[2]).toMatch(/there is no folder .*; put the rulebook there/)
    expect(await strengthInUse()).toBe(0.9)
    renameSync(writtenRules(goodFiles()), bench.dir)
    await bench.told(4)
    expect(bench.said[3]).toMatch(/as it was/)
    bench.write('findings/pulls.json', pulls(0.3))
    await bench.told(5)
    expect(await strengthInUse()).toBe(0.3)
  })

  it('is a folder in the place of a file: told, and nothing falls over', async () => {
    mkdirSync(join(bench.dir, 'findings/buzzes.json'))
    writeFileSync(join(bench.dir, 'findings/notes.txt'), 'ask the apprentice')
    await bench.told(1)
    expect(bench.said[0]).toMatch(/buzzes\.json: it cannot be read \(EISDIR\); see that it is a file/)
    expect(bench.said[0]).toMatch(/notes\.txt: only \.json files belong here/)
  })
})

it('is silent once it is closed', async () => {
  const { dir, said, close } = await watchedBench()
  writeFileSync(join(dir, 'findings/pulls.json'), JSON.stringify(pulls(0.2)))
  await close()
  await pause(settle * 2)
  expect(said).toEqual([])
})
