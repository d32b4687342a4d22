import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'

let bench: Bench
beforeAll(async () => {
  bench = await benchWith()
})

// W3C, Content Security Policy Level 3: directives are separated by ";", names from sources by spaces.
const policyOf = (header: string) =>
  new Map(
    header.split(';').map((directive) => {
      const [name = '', ...sources] = directive.trim().split(/\s+/)
      return [name, sources]
    }),
  )

describe.each(['/', '/assets/ground.css', '/api/openapi.json', '/no-such-page'])(
  'the headers of %s',
  (path) => {
    it('let a page load nothing but what this server has, and run no script in the page itself', async () => {
      const res = await request(bench.app).get(path)
      const policy = policyOf(res.headers['content-security-policy'] ?? '')
      expect(policy.get('default-src')).toEqual(["'none'"])
      expect(policy.get('script-src')).toEqual(["'self'"])
      expect(policy.get('style-src')).toEqual(["'self'"])
      expect(policy.get('img-src')).toEqual(["'self'", 'data:'])
      expect(policy.get('form-action')).toEqual(["'self'"])
      expect(policy.get('frame-ancestors')).toEqual(["'none'"])
      expect(policy.get('base-uri')).toEqual(["'none'"])
      expect(res.headers['content-security-policy']).not.toMatch(/unsafe|\*|https?:/)
    })
    // A phone in the shop comes over plain http: sent to https it would get no styles (W3C Upgrade Insecure
    // Requests §3), and HSTS would make it remember that (RFC 6797 §7.2 forbids it over http anyway).
    it('send nobody to an https that is not served', async () => {
      const res = await request(bench.app).get(path)
      expect(res.headers['content-security-policy']).not.toContain('upgrade-insecure-requests')
      expect(res.headers).not.toHaveProperty('strict-transport-security')
    })
    it('keep types as they are said, frames out, and addresses inside', async () => {
      const { headers } = await request(bench.app).get(path)
      expect(headers['x-content-type-options']).toBe('nosniff')
      expect(headers['x-frame-options']).toBe('DENY')
      expect(headers['referrer-policy']).toBe('same-origin')
      expect(headers).not.toHaveProperty('x-powered-by')
      expect(headers).not.toHaveProperty('access-control-allow-origin')
    })
  },
)

it('keeps answers of the API and cases out of caches, and lets styles be kept', async () => {
  const api = await request(bench.app).get('/api/cases').expect(200)
  expect(api.headers['cache-control']).toBe('no-store')
  // a case goes on under one address
  expect((await request(bench.app).get('/cases/none')).headers['cache-control']).toBe('no-store')
  const css = await request(bench.app).get('/assets/ground.css').expect(200)
  expect(css.headers['cache-control']).toMatch(/max-age=[1-9]/)
})
it('serves no template and nothing outside the folder of assets', async () => {
  for (const path of [
    '/assets/../pages/start.ejs',
    '/assets/%2e%2e/pages/start.ejs',
    '/assets/..%2f..%2fpackage.json',
  ]) {
    const { status } = await request(bench.app).get(path)
    expect(status).toBeGreaterThanOrEqual(400)
    expect(status).toBeLessThan(500)
  }
})
