/** The sheet of skills: what exercises showed, what a hand signs, and who may. */
import { beforeAll, beforeEach, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import type { ClassAtWork } from './class-at-work.js'
import { classAtWork, usualHistory } from './class-at-work.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
let work: ClassAtWork
let me: Visitor
let sheet: string
let own: string
let ana: string

beforeAll(async () => {
  bench = await benchWith({ knowledge })
})
beforeEach(async (test) => {
  work = await classAtWork(bench.register, `Class ${test.task.id.slice(-20)}`)
  await usualHistory(work)
  ana = work.people[0]!.id
  me = new Visitor(bench.app)
  sheet = `/practice/classes/${work.id}/people/${ana}/skills`
  own = `/practice/people/${ana}/skills`
})

const found = 'found|universal-motor|worn-brushes'
const byHand = `mended|universal-motor|${knowledge.fixes.find(({ kinds }) => kinds.includes('universal-motor'))!.id}`
const lineOf = (key: string): string => me.html.split('<tr>').find((row) => row.includes(key)) ?? ''
const group = (name: string, next: string): string =>
  me.words.split(` ${name} `)[1]?.split(` ${next} `)[0] ?? ''

it('has safe hands first, then repairs, checks and causes, with how often and when', async () => {
  await me.open(sheet)
  const places = ['Safe hands', 'Repairs done', 'Checks made', 'Causes found'].map((name) =>
    me.words.indexOf(` ${name} `),
  )
  expect(places).toEqual([...places].sort((a, b) => a - b))
  expect(places[0]).toBeGreaterThan(0)
  // three exercises began with the danger questions; of two that found the brushes one was set, and others still have it
  expect(group('Safe hands', 'Repairs done')).toMatch(/Asked every danger question .* 3 times, 2 Mar 2026/)
  expect(group('Causes found', 'Also shown')).toMatch(/Worn carbon brushes once, 2 Mar 2026/)
})

it('is signed row by row, with the name that was written and the day of the server', async () => {
  await me.open(sheet)
  await me.post(sheet, { by: ' M. Öz ', sign: [found, byHand] })
  expect(me.status).toBe(200)
  expect(me.words).toContain('2 rows signed.')
  expect(lineOf(`value="${found}"`)).toMatch(/M\. Öz<\/bdi><\/b>, 2 Mar 2026/)
  const signed = await bench.register.signedOff(ana)
  expect(signed.map(({ skill, by, at }) => [skill, by, at.slice(0, 10)]).sort()).toEqual([
    [found, 'M. Öz', '2026-03-02'],
    [byHand, 'M. Öz', '2026-03-02'],
  ])
  // what no exercise showed, but the instructor saw
  expect(me.html.split('<tr>').filter((row) => /data-column="Shown">at the bench</.test(row))).toHaveLength(1)
  // the name stands there for the next sheet of the class
  await me.open(`/practice/classes/${work.id}/people/${work.people[1]!.id}/skills`)
  expect(me.html).toContain('name="by" value="M. Öz"')
})

it('a signature is struck, the row goes back to where it was', async () => {
  await me.post(sheet, { by: 'M. Öz', sign: [found, byHand] })
  await me.post(sheet, { strike: byHand })
  expect(me.words).toContain('Struck out.')
  expect((await bench.register.signedOff(ana)).map(({ skill }) => skill)).toEqual([found])
  expect(me.html).toMatch(new RegExp(`type="checkbox" name="sign" value="${byHand.replaceAll('|', '\\|')}"`))
  await me.post(sheet, { strike: 'nothing-of-the-kind' })
  expect(me.status).toBe(200)
})

it.each([
  ['no name', { by: ' ', sign: found }, 'Write the name of who signs'],
  ['no tick', { by: 'M. Öz' }, 'Tick what is to be signed'],
  [
    'a row of no rulebook',
    { by: 'M. Öz', sign: 'found|universal-motor|phase-of-the-moon' },
    'not on this sheet',
  ],
  ['81 letters', { by: 'x'.repeat(81), sign: found }, '80 letters fit'],
])('%s: said in words, ticks and name kept, nothing signed', async (_, sent, words) => {
  await me.post(sheet, sent as Record<string, string>)
  expect(me.status).toBe(422)
  expect(me.words).toContain(words)
  expect(me.html).toContain(`name="by" value="${sent.by.trim()}"`)
  if ('sign' in sent && sent.sign === found) expect(lineOf(`value="${found}"`)).toContain('checked')
  expect(await bench.register.signedOff(ana)).toEqual([])
})

it('the learner reads it, and has nothing to sign with', async () => {
  await me.post(sheet, { by: 'M. Öz', sign: found })
  await me.open(own)
  expect(me.words).toContain('M. Öz , 2 Mar 2026')
  expect(me.html).not.toMatch(/type="checkbox"|name="by"|Strike/)
  await me.post(own, { by: 'Ana', sign: byHand })
  expect(me.status).toBe(404)
})

it('what was signed stays on the sheet where the class works on other kinds', async () => {
  const other = await bench.register.addClass({ name: `Other ${work.id}`, at: '2026-03-02T09:00:00Z' })
  const { id } = await bench.register.addLearner({ name: 'Ida', class: other.id, at: '2026-03-02T09:00:00Z' })
  const kind = knowledge.kinds.find((it) => it.id !== 'universal-motor')!
  await bench.register.signOff({
    learner: id,
    skill: `dangers-first|${kind.id}`,
    by: 'M. Öz',
    at: '2026-03-02T09:00:00Z',
  })
  await me.open(`/practice/people/${id}/skills`)
  expect(me.words).toContain(`${kind.plainName} at the bench M. Öz`)
})
