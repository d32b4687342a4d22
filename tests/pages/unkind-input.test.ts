/** Stale, malformed, hostile and unknown: a clear page of the 4xx kind, nothing lost, nothing unescaped. */
import type { Express } from 'express'
import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import { benchWith } from '../api/bench.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

let app: Express
let me: Visitor
let home: string

beforeAll(async () => {
  app = (await benchWith({ knowledge })).app
  me = new Visitor(app)
  home = await me.begin(['slows-down'])
  await me.lookForDanger(home)
})

describe('a form of an older page', () => {
  it('is not stored, is kept, and can be applied all the same', async () => {
    const other = new Visitor(app)
    const at = await other.begin([])
    await other.lookForDanger(at)
    await me.open(`${at}/answers/hot-near-head`)
    await other.open(`${at}/answers/squeals`)
    await other.send(`${at}/answers/squeals`, { 'q-squeals': 'yes' })

    await me.send(`${at}/answers/hot-near-head`, { 'q-hot-near-head': 'yes', when: 'now' })
    expect(me.status).toBe(409)
    expect(me.heading).toBe('This case has moved on')
    const statement = knowledge.steps
      .flatMap(({ questions }) => questions)
      .find(({ id }) => id === 'hot-near-head')
    expect(me.words).toContain(statement?.statement)
    expect(me.field('q-hot-near-head')).toBe('yes')

    await me.send(`${at}/answers/hot-near-head`, { 'q-hot-near-head': 'yes', when: 'now' })
    expect(me.status).toBe(200)
    await me.open(`${at}/answers/hot-near-head`)
    expect(me.words).toContain('You said: Yes')
    await me.open(`${at}/answers/squeals`)
    expect(me.words).toContain('You said: Yes')
  })

  it('sent twice, as a thumb does, is stored once', async () => {
    const at = await me.begin([])
    const fields = { seen: '1', 'q-x': '' }
    await me.lookForDanger(at)
    await me.post(`${at}/put-together`, fields)
    expect(me.status).toBe(409)
  })
})

// OWASP Cross Site Scripting Prevention Cheat Sheet: the characters that must be encoded in HTML text.
describe('hostile words', () => {
  const hostile = `"><script>alert(1)</script><img src=x onerror=alert(1)>'&{{7*7}}<%= 7*7 %>`
  it('are shown as they were typed, and do nothing', async () => {
    const at = await me.begin([], hostile)
    await me.open(`${at}/complaint`)
    await me.send(`${at}/complaint`, { q: hostile })
    await me.lookForDanger(at)
    for (const page of [
      '',
      '/complaint',
      '/answers',
      '/slip',
      '/why',
      '/finish',
      `/complaint?q=${encodeURIComponent(hostile)}`,
    ]) {
      await me.open(`${at}${page}`)
      expect(me.status, page).toBe(200)
      expect(me.html, page).not.toContain('<script>alert')
      expect(me.html, page).not.toContain('<img src=x')
      expect(me.html, page).not.toContain('{{49}}')
    }
    await me.open('/')
    expect(me.html).not.toContain('<script>alert')
    expect(me.html).toContain('&lt;script&gt;alert')
  })
  it('come back escaped from a slip and from a stale form', async () => {
    await me.post(`${home}/finish`, { seen: '0', note: hostile, state: hostile, [hostile]: hostile })
    expect(me.status).toBe(409)
    expect(me.html).not.toContain('<script>alert')
    await me.open(`${home}/finish`)
    await me.send(`${home}/finish`, { note: hostile })
    expect(me.status).toBe(422)
    expect(me.html).not.toContain('<script>alert')
    expect(me.html).toContain('&lt;script&gt;alert')
  })
})

describe('what does not exist', () => {
  it.each([
    '/nowhere',
    '/cases/none',
    '/cases/none/why',
    '/cases/../../etc/passwd',
    '/cases/%00',
    '/rulebook/causes/none',
    '/rulebook/steps/__proto__',
    '/rulebook/fixes/constructor',
    '/rulebook/none',
  ])('%s is a 404 page', async (path) => {
    await me.open(path)
    expect(me.status).toBe(404)
    expect(me.title).toMatch(/^Error: /)
    expect(me.words).toContain('To the bench')
  })
  it.each(['/stops/none', '/stops/none/mistake', '/answers/none', '/answers/__proto__', '/none'])(
    'in a case: %s is a 404 page',
    async (path) => {
      await me.open(`${home}${path}`)
      expect(me.status).toBe(404)
    },
  )
})

describe('a form that no page sends', () => {
  it.each<[string, Record<string, string>]>([
    ['/complaint', {}],
    ['/complaint', { seen: 'many' }],
    ['/complaint', { seen: '-1' }],
    ['/complaint', { seen: '1e3' }],
    ['/answers', { seen: '2' }],
    ['/answers', { seen: '2', step: 'none', asked: 'x' }],
    ['/answers', { seen: '2', step: 'where-hot', asked: 'wont-start' }],
    ['/answers', { seen: '2', step: 'where-hot', asked: '' }],
    ['/answers', { seen: '2', step: 'where-hot', asked: 'hot-near-head', 'q-hot-near-head': 'maybe' }],
    ['/danger', { seen: '2', 'q-cord-damaged': 'perhaps' }],
    ['/danger', { seen: '2', yes: 'slows-down' }],
    ['/danger', { seen: '2', unsure: '__proto__' }],
    ['/tried', { seen: '2', fix: 'none', outcome: 'no' }],
    ['/tried', { seen: '2', fix: 'new-brush-pair', outcome: 'sort of' }],
    ['/untried', { seen: '2', fix: 'new-brush-pair' }],
    ['/cannot-do', { seen: '2', id: 'NOT AN ID' }],
    ['/cannot-do', { seen: '2' }],
    ['/can-do', { seen: '2', id: 'none' }],
    ['/take-back', { seen: '2', question: '__proto__' }],
    ['/take-back', { seen: '2' }],
    ['/finish', { seen: '2', state: 'on-the-bench' }],
    ['/finish', { seen: '2', state: 'set-aside', cause: 'none' }],
    ['/finish', { seen: '2', state: 'set-aside', note: 'x'.repeat(400) }],
    ['/complaint', { seen: '2', q: 'x'.repeat(400) }],
    ['/stops/tingle-or-shock/lift', { seen: '2', by: 'x'.repeat(400) }],
    ['/reopen', { seen: '2' }],
  ])('to %s with %j gets a 4xx and stores nothing', async (path, fields) => {
    await me.post(`${home}${path}`, fields)
    expect(me.status).toBeGreaterThanOrEqual(400)
    expect(me.status).toBeLessThan(500)
    expect(me.title).toMatch(/^Error: /)
    await me.open(`${home}/finish`)
    expect(me.field('seen')).toBe('2')
  })

  it('with one field many times over gets a 4xx', async () => {
    await me.post(`${home}/finish`, { seen: '2', state: Array<string>(60).fill('set-aside') })
    expect(me.status).toBe(400)
  })

  it.each(['application/json', 'text/plain'])('as %s is told to use the form', async (type) => {
    const sent = await request(app).post(`${home}/complaint`).type(type).send('{"seen":"2"}')
    expect(sent.status).toBe(415)
    expect(sent.text).not.toMatch(/at \S+ \(|node_modules/)
  })

  it('asks for a tool again when none was chosen', async () => {
    await me.post('/cases', { kind: 'steam-engine', tool: 'Chair 9' })
    expect(me.status).toBe(422)
    expect(me.title).toMatch(/^Error: /)
    expect(me.field('kind')).toBeDefined()
  })
})
