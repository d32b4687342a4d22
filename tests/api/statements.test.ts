/** `GET /api/statements`: the same that the complaint page offers, and errors that say what to do. */
import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import type { StatementsView } from '../../shared/api.js'
import { statementsMeant } from '../../server/statements/statements.js'
import type { Bench } from './bench.js'
import { benchWith } from './bench.js'
import { expectDocumented } from './documented.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
beforeAll(async () => {
  bench = await benchWith({ knowledge })
})
const ask = (query: object) => request(bench.app).get('/api/statements').query(query)

it('gives statements to confirm, best first', async () => {
  const asked = { kind: 'rotary-cordless', words: 'battery dies quick and it pulls' }
  const res = await ask(asked).expect(200)
  expectDocumented(res, 'get', '/api/statements')
  const { statements } = res.body as StatementsView
  expect(statements.slice(0, 2).map(({ id }) => id)).toEqual(
    expect.arrayContaining(['short-run-time', 'pulls-or-snags']),
  )
  expect(statements).toEqual(statementsMeant(knowledge, asked.kind, asked.words))
})

it('gives none where nothing is understood', async () => {
  const res = await ask({ kind: 'magnetic-motor', words: 'qqq' }).expect(200)
  expect(res.body).toEqual({ statements: [] })
})

describe('what cannot be used is said by name', () => {
  it.each([
    [{ words: 'dead' }, 'kind'],
    [{ kind: 'steam-driven', words: 'dead' }, 'kind'],
    [{ kind: 'magnetic-motor' }, 'words'],
    [{ kind: 'magnetic-motor', words: '  ' }, 'words'],
    [{ kind: 'magnetic-motor', words: 'a'.repeat(601) }, 'words'],
  ])('%j', async (query, parameter) => {
    const res = await ask(query).expect(422)
    expectDocumented(res, 'get', '/api/statements')
    expect((res.body as { errors: { parameter: string }[] }).errors.map((it) => it.parameter)).toEqual([
      parameter,
    ])
  })
})
