/** A page of another site may point a name of its own at this machine (DNS rebinding): under it, nobody gets in. */
import request from 'supertest'
import { beforeAll, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'

let bench: Bench
beforeAll(async () => {
  bench = await benchWith()
})

it.each([
  'evil.example',
  'evil.example:3000',
  'bench.local.evil.example',
  'localhost.evil.example',
  '127.0.0.1.evil.example',
])('the name %s is refused, for pages, forms and programs', async (host) => {
  const page = await request(bench.app).get('/').set('Host', host)
  expect(page.status).toBe(421) // RFC 9110 §15.5.20
  expect(page.text).not.toContain('Which tool')
  const api = await request(bench.app).get('/api/cases').set('Host', host)
  expect(api.status).toBe(421)
  expect(api.type).toBe('application/problem+json')
  // to the browser it is one site, so nothing else would keep it out
  const form = request(bench.app)
    .post('/cases')
    .set({ Host: host, Origin: `http://${host}`, 'Sec-Fetch-Site': 'same-origin' })
  expect((await form.type('form').send({ kind: 'bench-motor', tool: '' })).status).toBe(421)
  expect(await bench.cases.list()).toEqual([])
})

// RFC 6761 §6.3: names under localhost lead nowhere but here. RFC 3986 §3.2.2: brackets round an IPv6 address.
it.each([
  '127.0.0.1',
  '127.0.0.1:3000',
  '192.168.1.20:3000',
  '[::1]:3000',
  '[fe80::1]',
  'localhost',
  'LOCALHOST:3000',
  'shop.localhost',
  'bench.local',
  'Bench.Local.:80',
])('%s is let in', async (host) => {
  await request(bench.app).get('/').set('Host', host).expect(200)
})
