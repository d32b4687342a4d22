import { Validator } from '@seriousme/openapi-schema-validator'
import request from 'supertest'
import { describe, expect, it } from 'vitest'
import { problemKinds } from '../../server/api/problems.js'
import { benchWith } from './bench.js'
import { document, expectDocumented, operations } from './documented.js'

describe('/api/openapi.json', () => {
  // OpenAPI Specification 3.1, its published JSON Schema (spec.openapis.org/oas/3.1/schema), as the library has it.
  it('is a valid OpenAPI 3.1 document', async () => {
    const { app } = await benchWith()
    const res = await request(app).get('/api/openapi.json').expect(200).expect('Content-Type', /json/)
    const validator = new Validator()
    expect(await validator.validate(JSON.parse(res.text) as Record<string, unknown>)).toEqual({ valid: true })
    expect(validator.version).toBe('3.1')
    expect(res.body).toEqual(JSON.parse(JSON.stringify(document)))
  })
  it('points nowhere that is not there', () => {
    const text = JSON.stringify(document)
    const schemas = (document as unknown as { components: { schemas: object } }).components.schemas
    const targets = [...text.matchAll(/"\$ref":"([^"]+)"/g)].map(([, target]) => target!)
    expect(targets.length).toBeGreaterThan(20)
    for (const target of targets) {
      expect(target).toMatch(/^#\/components\/schemas\/[\w.-]+$/)
      expect(Object.keys(schemas)).toContain(target.slice('#/components/schemas/'.length))
    }
  })
  it('names every operation once', () => {
    const names = operations.map(({ name }) => name)
    expect(new Set(names).size).toBe(names.length)
  })
})

// RFC 9457 §3.1.1: a type that is an address should give documentation when it is fetched.
it.each(Object.entries(problemKinds))('tells what the problem %s means', async (slug, { status, title }) => {
  const { app } = await benchWith()
  const res = await request(app).get(`/api/problems/${slug}`).expect(200)
  expectDocumented(res, 'get', '/api/problems/{kind}')
  expect(res.body).toMatchObject({ status, title, type: `/api/problems/${slug}` })
})
