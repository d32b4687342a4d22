/** The short lessons of every part and every confusion, in every kind. */
import request from 'supertest'
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { causesOfLesson } from '../../server/practice/lesson-causes.js'
import { confusions as table } from '../facts/confusions-table.js'
import { fromWav } from '../listening/wav.js'
import { knowledge, practiceShops } from './practice-shop.js'

const { withLearner } = practiceShops()
const parts = knowledge.kinds.flatMap((kind) =>
  kind.parts
    .filter(({ id }) => bookOf(knowledge, kind.id).causes.some((it) => it.part === id && !it.exclusive))
    .map(({ id }) => [kind.id, id] as const),
)
const confusions = knowledge.kinds.flatMap(({ id }) =>
  bookOf(knowledge, id).confusions.map((it) => [it.id, id] as const),
)
/** A number with a fraction. */
const decimal = /\d[.,]\d(?! ?(?:V|mm|volts?)\b)/
const ids = [...knowledge.causes, ...knowledge.findings, ...knowledge.steps, ...knowledge.fixes]
  .map(({ id }) => id)
  .filter((id) => id.split('-').length > 2)
const ourIds = new Set(ids)
const idsIn = (words: string) => (words.match(/[\w-]+/g) ?? []).filter((word) => ourIds.has(word))

describe('a part', () => {
  it.each(parts)('%s, %s', async (kind, part) => {
    const { me } = await withLearner()
    await me.open(`/practice/lessons/parts/${kind}/${part}`)
    expect(me.status).toBe(200)
    for (const heading of ['How it works', 'How it fails', 'How to tell', 'Now try it'])
      expect(me.words).toContain(heading)
    for (const cause of bookOf(knowledge, kind).causes.filter((it) => it.part === part))
      expect(me.words).toContain(cause.exclusive ? '' : cause.name)
    // what hurts is never cut off
    const hazards = bookOf(knowledge, kind)
      .causes.filter((it) => it.part === part && !it.exclusive)
      .flatMap(({ hazard }) => hazard ?? [])
    expect(hazards.filter((it) => !me.words.includes(it.replaceAll("'", '’')))).toEqual([])
    expect(me.words).not.toMatch(decimal)
    expect(idsIn(me.words)).toEqual([])
    expect(causesOfLesson(knowledge, `parts/${kind}/${part}`, kind).length).toBeGreaterThan(0)
  })
})

describe('a confusion', () => {
  it.each(confusions)('%s, %s', async (id, kind) => {
    const { me, learner } = await withLearner()
    const path = `/practice/lessons/confusions/${id}?kind=${kind}&for=${learner.id}`
    await me.open(path)
    expect(me.status).toBe(200)
    const { rivals, trap } = bookOf(knowledge, kind).confusions.find((it) => it.id === id)!
    const { causes } = bookOf(knowledge, kind)
    for (const rival of rivals) expect(me.words).toContain(causes.find((it) => it.id === rival)!.name)
    // the commonest first
    const listed = me.words.split('It may be')[1]!
    const byShare = rivals
      .map((rival) => causes.find((it) => it.id === rival)!)
      .sort((a, b) => b.shares[kind]! - a.shares[kind]!)
    const places = byShare.map(({ name }) => listed.indexOf(name))
    expect(places).toEqual([...places].sort((a, b) => a - b))
    // nothing is given away before the learner has chosen
    expect(me.words).not.toContain('Tells the most')
    expect(me.words).not.toContain(trap)
    const choices = [...me.html.matchAll(/name="say" value="(\d)"/g)].map((match) => match[1])
    expect(choices.length).toBeGreaterThan(1)
    // every choice in one kind of each confusion, another one each time; what is said of it is one code for all kinds
    const place = knowledge.confusions.findIndex((it) => it.id === id)
    const own = confusions.filter(([it]) => it === id)
    const chosen = own[place % own.length]![1] === kind
    const verdicts = new Set<string>()
    for (const say of chosen ? choices : choices.slice(0, 1)) {
      await me.open(`${path}&say=${say}`)
      expect(me.words).toContain(trap)
      expect(me.words).not.toMatch(decimal)
      expect(idsIn(me.words)).toEqual([])
      expect(me.words.match(/Tells the most/g)).toHaveLength(1)
      expect(me.words.match(/Yours/g)).toHaveLength(1)
      // the order of work says of the same question that it tells the most, wherever it stands there
      const best = /lesson-asked-best">\s*<h3>([^<]*)/.exec(me.html)![1]!
      const marked = /<li>([^<]*) <span class="small">\([^<]*<b>tells the most/.exec(me.html)
      expect(marked === null || marked[1] === best).toBe(true)
      verdicts.add(/id="answer" role="status"><b>([^<]*)/.exec(me.html)![1]!)
    }
    expect(me.html).toContain(`name="lesson" value="confusions/${id}"`)
    if (!chosen) return
    // one of them is the best, and not all are
    expect([...verdicts].filter((it) => it.startsWith('Yes.'))).toHaveLength(1)
    expect(verdicts.size).toBeGreaterThan(1)
  })

  it('is there for each of the tests’ own table of twenty, with most of its rivals', () => {
    expect(knowledge.confusions).toHaveLength(table.length)
    for (const row of table) {
      const most = Math.max(
        ...knowledge.confusions.map((it) => it.rivals.filter((id) => row.rivals.includes(id)).length),
      )
      expect(most, row.looks).toBeGreaterThanOrEqual(0.7 * row.rivals.length)
    }
  })
})

it('the list leads to every lesson, and carries who learns', async () => {
  const { me, learner, home } = await withLearner()
  await me.open(`/practice/lessons?for=${learner.id}`)
  const hrefs = [...me.html.matchAll(/href="(\/practice\/lessons\/[^"]+)"/g)].map((match) => match[1]!)
  const byEar = 1
  expect(new Set(hrefs).size).toBe(parts.length + confusions.length + knowledge.hearsay.length + byEar)
  for (const href of hrefs) expect(href).toContain(`for=${learner.id}`)
  expect(me.html).toContain(`href="${home}"`)
})

it('the exercise after a lesson is about one of its causes, and belongs to who learns', async () => {
  const { me, learner, register } = await withLearner()
  for (const lesson of ['confusions/cuts-out', 'parts/universal-motor/brushes', 'hearsay/clipper-burn']) {
    await me.post('/practice/exercises', { learner: learner.id, lesson, kind: 'universal-motor' })
    expect(me.status).toBe(200)
    const begun = await register.exercise(me.at.split('/').at(-1)!)
    expect(begun.learner).toBe(learner.id)
    expect(causesOfLesson(knowledge, lesson, 'universal-motor')).toContain(begun.setting.about)
  }
})

it.each([
  '/practice/lessons/parts/spaceship/brushes',
  '/practice/lessons/parts/universal-motor/no-such-part',
  '/practice/lessons/confusions/no-such-thing',
])('%s is told to be no lesson', async (path) => {
  const { me } = await withLearner()
  await me.open(path)
  expect(me.status).toBe(404)
  expect(me.words).toContain('lesson of this name')
})

it('a look says how the tool must stand: brushes are seen with the plug out (common practice, no source)', async () => {
  const { me } = await withLearner()
  await me.open('/practice/lessons/parts/universal-motor/brushes')
  expect(me.words.split('What keeps it well')[0]).toMatch(
    /Take out both brushes \(about \d+ minutes: plug out/,
  )
})

it('a reading has no yes', async () => {
  const { me } = await withLearner()
  await me.open('/practice/lessons/confusions/cuts-out?kind=universal-motor&say=1')
  const told = /How long is the shorter brush[\s\S]*?<\/div>/.exec(me.html)![0]
  expect(told).not.toContain('<b>Yes</b>')
  expect(told).toContain('length limit')
})

it('what nobody sends counts as nothing said, and nobody as no learner', async () => {
  const { me } = await withLearner()
  for (const query of ['say=99', 'say=yes', 'say=1&say=2', 'for=<script>', 'kind=spaceship']) {
    await me.open(`/practice/lessons/confusions/cuts-out?${query}`)
    expect(me.status).toBe(200)
    expect(me.html).toContain('name="say"')
    expect(me.html).not.toContain('id="answer"')
    expect(me.html).not.toContain('name="for"')
  }
})

describe('by ear', () => {
  it('a sound is a WAV file that our own pages may play, and what there is not is not found', async () => {
    const { app } = await withLearner()
    const at = '/practice/lessons/by-ear'
    const sent = await request(app).get(`${at}/rotary-cordless/5/this.wav`).buffer(true).expect(200)
    expect(sent.headers['content-type']).toContain('audio/wav')
    const { samples, rate } = fromWav(sent.body as Buffer)
    expect(samples.length / rate).toBe(6)
    for (const path of ['rotary-cordless/5/nothing.wav', 'nothing/5/this.wav', 'rotary-cordless/x/this.wav'])
      await request(app).get(`${at}/${path}`).expect(404)
    const page = await request(app).get(`${at}?kind=nothing&n=-3&heard=x`).expect(200)
    expect(page.headers['content-security-policy']).toContain("media-src 'self'")
  })
})
