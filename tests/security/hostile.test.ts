/** Malformed, oversized, mistyped, and things that break: a clear 4xx or a bare 500, never a stack, nothing lost. */
import fc from 'fast-check'
import request from 'supertest'
import type { Response } from 'supertest'
import { beforeEach, describe, expect, it, vi } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { expectDocumented, operations } from '../api/documented.js'

let bench: Bench
beforeEach(async () => {
  bench = await benchWith()
})

/** RFC 9457 §3: the members, the media type, and `status` as the answer has it. */
function expectProblem(res: Response, status: number): void {
  expect(res.status, res.text).toBe(status)
  expect(res.type).toBe('application/problem+json')
  expect(res.body).toMatchObject({ status, title: expect.any(String), detail: expect.any(String) })
  expect((res.body as { type: string }).type).toMatch(/^\/api\/problems\/[a-z-]+$/)
  expectNoInside(res)
}
function expectNoInside(res: Response): void {
  expect(res.text).not.toMatch(/\bat \S+ \(|node_modules|file:\/\/|\.ts:\d|SyntaxError|\/home\/|\/work\//)
}

describe('a body that cannot be read', () => {
  it.each(['{', '{"kind":', '"text"', 'null', 'kind=bench-motor', '\u0000'])(
    '%j is not JSON',
    async (body) => {
      const res = await request(bench.app).post('/api/assess').type('json').send(body)
      expectProblem(res, 400)
      expectDocumented(res, 'post', '/api/assess')
    },
  )
  it('is told what to send, and nothing of it is quoted', async () => {
    const detail = async (text: string) =>
      (await request(bench.app).post('/api/assess').type('json').send(text)).body as { detail: string }
    expect((await detail('{"kind": "a",}')).detail).toBe(
      'The body is not well-formed JSON at character 14; send one object, such as {"kind": "…", "answers": {}}.',
    )
    for (const text of ['{"kind": secret}', '{"kind": secret in JSON at position 7}', '"secret"', '[1', '7'])
      expect((await detail(text)).detail).toMatch(/^The body is not well-formed JSON[^"]*; send one object/)
    expect(JSON.stringify(await detail('{"kind": secret}'))).not.toContain('secret')
  })
  it('is told at 64 kB and let through below', async () => {
    const body = (bytes: number) =>
      JSON.stringify({ kind: 'bench-motor', x: '' }).replace('""', `"${'x'.repeat(bytes)}"`)
    const large = await request(bench.app).post('/api/assess').type('json').send(body(66_000))
    expectProblem(large, 413)
    expectDocumented(large, 'post', '/api/assess')
    expectProblem(await request(bench.app).post('/api/assess').type('json').send(body(60_000)), 422)
  })
  it.each(['text/plain', 'application/x-www-form-urlencoded', 'application/xml', ''])(
    'is of the type "%s"',
    async (type) => {
      const res = await request(bench.app)
        .post('/api/assess')
        .set('Content-Type', type)
        .send('{"kind":"bench-motor"}')
      expectProblem(res, 415)
      expectDocumented(res, 'post', '/api/assess')
    },
  )
  it('is in a character set or an encoding that nobody has', async () => {
    const send = (headers: Record<string, string>) =>
      request(bench.app).post('/api/assess').set(headers).send('{}')
    expectProblem(await send({ 'Content-Type': 'application/json; charset=klingon' }), 415)
    expectProblem(await send({ 'Content-Type': 'application/json', 'Content-Encoding': 'sponge' }), 415)
  })
  it('is nested deeply, and no more than that', async () => {
    const deep = '{"answers":'.repeat(5000) + '1' + '}'.repeat(5000)
    expectProblem(await request(bench.app).post('/api/assess').type('json').send(deep), 422)
  })
})

describe('an address', () => {
  it('may be as long as it likes; the answer stays short', async () => {
    const res = await request(bench.app).get(`/api/cases/${'x'.repeat(7000)}`)
    expectProblem(res, 404)
    expect(res.text.length).toBeLessThan(1200)
  })
  it('is not there', async () => {
    for (const path of ['/api', '/api/', '/api/nothing', '/api/cases/a/b/c', '/api/%E0%A4%A']) {
      const res = await request(bench.app).get(path)
      expect(res.status).toBeGreaterThanOrEqual(400)
      expectProblem(res, res.status)
    }
  })
  // RFC 9110 §15.5.6: a 405 must name the methods that are allowed.
  it.each([
    ['delete', '/api/cases', 'GET, HEAD, POST'],
    ['get', '/api/assess', 'POST'],
    ['put', '/api/cases/case1/answers', 'POST'],
    ['post', '/api/rulebook', 'GET, HEAD'],
    ['patch', '/api/openapi.json', 'GET, HEAD'],
  ] as const)('is not asked with %s: %s', async (method, path, allowed) => {
    const res = await request(bench.app)[method](path)
    expectProblem(res, 405)
    expect(res.headers['allow']).toBe(allowed)
  })
})

describe('a form that is none of ours', () => {
  it.each<[number, string, string]>([
    [415, 'application/json', '{"kind":"bench-motor"}'],
    [415, 'text/plain', 'kind=bench-motor'],
    [413, 'application/x-www-form-urlencoded', `tool=${'x'.repeat(70_000)}`],
    [413, 'application/x-www-form-urlencoded', 'a=1&'.repeat(500)],
  ])('gets a page with status %i for %s', async (status, type, body) => {
    const res = await request(bench.app).post('/cases').set('Content-Type', type).send(body)
    expect(res.status).toBe(status)
    expect(res.type).toBe('text/html')
    expectNoInside(res)
  })
})

describe('a fault of our own', () => {
  it('is a bare 500 outside and the whole thing in the log', async () => {
    const logged = vi.spyOn(console, 'error').mockImplementation(() => {})
    const broken = await benchWith({
      cases: {
        get: () => Promise.reject(new Error('cannot read /home/bench/cases.db')),
        list: () => Promise.reject(new Error('cannot read /home/bench/cases.db')),
      },
    })
    expectProblem(await request(broken.app).get('/api/cases/case1'), 500)
    const page = await request(broken.app).get('/')
    expect(page.status).toBe(500)
    expect(page.type).toBe('text/html')
    expectNoInside(page)
    expect(logged).toHaveBeenCalledTimes(2)
    for (const [error] of logged.mock.calls) expect(error).toBeInstanceOf(Error)
    logged.mockRestore()
  })
})

it('a key or a text that is half of a surrogate pair is no text: 400', async () => {
  for (const body of [
    '{"answers":{"\\ud83d":"yes"}}',
    '{"kind":"bench-motor","answers":{},"x\\udc88":1}',
    '{"kind":"a\\ud83d"}',
  ]) {
    const res = await request(bench.app).post('/api/assess').type('json').send(body)
    expectProblem(res, 400)
    expect(res.text).toContain('surrogate')
  }
  const whole = await request(bench.app).post('/api/assess').type('json').send('{"kind":"\\ud83d\\udc88"}')
  expectProblem(whole, 422)
})

it('answers no JSON whatever with a 5xx, and keeps the case as it was', async () => {
  const { id } = await bench.cases.begin({ kind: 'bench-motor', tool: '', at: '2026-03-02T09:00:00.000Z' })
  const posts = operations.filter(({ method }) => method === 'post').map(({ path }) => path)
  const names = [
    'kind',
    'answers',
    'fixesTried',
    'answeredAfter',
    'shop',
    'fix',
    'outcome',
    'questions',
    'stop',
    'by',
    'count',
    '__proto__',
    'constructor',
    'hot',
  ]
  const junk = fc.oneof(
    fc.jsonValue(),
    fc.dictionary(
      fc.constantFrom(...names),
      fc.oneof(fc.jsonValue(), fc.constantFrom('bench-motor', 'hot', 'yes', -0, 1e308)),
    ),
  )
  await fc.assert(
    fc.asyncProperty(
      fc.constantFrom(...posts.filter((path) => path.includes('{id}') || path === '/assess')),
      junk,
      async (path, body) => {
        const res = await request(bench.app)
          .post(`/api${path.replace('{id}', id)}`)
          .type('json')
          .send(JSON.stringify(body))
        expect(res.status, `${path} ${JSON.stringify(body)} ${res.text}`).toBeLessThan(500)
        expectNoInside(res)
        expectDocumented(res, 'post', `/api${path}`)
      },
    ),
    { numRuns: 300, seed: 7 },
  )
  await bench.cases.get(id)
})
