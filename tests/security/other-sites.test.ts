import request from 'supertest'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'

let bench: Bench
beforeEach(async () => {
  bench = await benchWith()
})

const HOST = 'bench.local:3000'
const ways = [
  [
    'a form',
    () =>
      request(bench.app)
        .post('/cases')
        .set('Host', HOST)
        .type('form')
        .send({ kind: 'bench-motor', tool: '' }),
  ],
  ['the API', () => request(bench.app).post('/api/cases').set('Host', HOST).send({ kind: 'bench-motor' })],
] as const

// Fetch (fetch.spec.whatwg.org) §3.2: a POST carries `Origin`. W3C Fetch Metadata: `Sec-Fetch-Site` on
// trustworthy addresses only.
describe.each(ways)('a post by %s', (_, send) => {
  it.each<[string, Record<string, string>]>([
    ['another site', { Origin: 'http://elsewhere.example' }],
    ['another port of this machine', { Origin: 'http://bench.local:8080' }],
    ['a page without an origin of its own', { Origin: 'null' }],
    ['something that is no address', { Origin: 'bench.local:3000' }],
    ['another site that hides its origin', { 'Sec-Fetch-Site': 'cross-site' }],
    ['a neighbour of this site', { 'Sec-Fetch-Site': 'same-site', Origin: 'http://bench.local:3000' }],
    ['another site that only says where it was', { Referer: 'http://elsewhere.example/page' }],
  ])('from %s is refused and does nothing', async (_from, headers) => {
    const res = await send().set(headers)
    expect(res.status).toBe(403)
    expect(await bench.cases.list()).toEqual([])
  })
  it.each<[string, Record<string, string>]>([
    ['a page of ours', { 'Sec-Fetch-Site': 'same-origin', Origin: `http://${HOST}` }],
    ['a page of ours on a phone over http', { Origin: `http://${HOST}` }],
    ['a page of ours behind https', { Origin: `https://${HOST}` }],
    ['a program', {}],
  ])('from %s is taken', async (_from, headers) => {
    const res = await send().set(headers)
    expect(res.status).toBeLessThan(400)
    expect(await bench.cases.list()).toHaveLength(1)
  })
})

it('says it in the language of the asker: a page to a person, problem details to a program', async () => {
  const [form, api] = await Promise.all(
    ways.map(([, send]) => send().set('Origin', 'http://elsewhere.example')),
  )
  expect(form?.type).toBe('text/html')
  expect(api?.type).toBe('application/problem+json')
})
it('lets another site read nothing, but does not break a link from it', async () => {
  await request(bench.app).get('/').set('Sec-Fetch-Site', 'cross-site').expect(200)
})
