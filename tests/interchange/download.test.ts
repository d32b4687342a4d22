/** Proves that the file of each kind is linked from the rulebook's page and arrives as a file of the right type. */
import request from 'supertest'
import type { Response } from 'supertest'
import { beforeAll, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { kinds } from './cuts.js'
import { readXmlbif } from './xmlbif-reader.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
beforeAll(async () => {
  bench = await benchWith({ knowledge })
})

const addressOf = (kind: string): string => `/rulebook/kinds/${kind}/model.xml`

/** What arrives; supertest itself makes text of no XML. */
const fetched = (from: Bench, kind: string): Promise<Response> =>
  request(from.app)
    .get(addressOf(kind))
    .buffer(true)
    .parse((response, done) => {
      const parts: Buffer[] = []
      response.on('data', (part: Buffer) => parts.push(part))
      response.on('end', () => done(null, Buffer.concat(parts).toString('utf8')))
    })

it.each(kinds)('%s', async (kind) => {
  const { text: page } = await request(bench.app).get('/rulebook').expect(200)
  expect(page).toContain(`href="${addressOf(kind)}"`)
  const { status, headers, body } = await fetched(bench, kind)
  expect(status).toBe(200)
  // RFC 7303 the type, RFC 6266 a name to keep it by
  expect(headers['content-type']).toBe('application/xml; charset=utf-8')
  expect(headers['content-disposition']).toMatch(
    new RegExp(`^attachment; filename="?clipperwright-${kind}.xml"?$`),
  )
  expect(readXmlbif(body as string).name).toBe(kind.replaceAll('-', '_'))
})

it('another rulebook has another digest, and the same has the same', async () => {
  const digestAt = async (at: Bench): Promise<string | undefined> =>
    /SHA-256 ([0-9a-f]{64})\n/.exec((await fetched(at, kinds[0]!)).body as string)?.[1]
  const [first, ...others] = knowledge.findings
  const changed = { ...knowledge, findings: [{ ...first!, leak: first!.leak / 2 }, ...others] }
  const digest = await digestAt(bench)
  expect(digest).toBeDefined()
  expect(await digestAt(await benchWith({ knowledge }))).toBe(digest)
  expect(await digestAt(await benchWith({ knowledge: changed }))).not.toBe(digest)
})

it.each(['none', '__proto__', 'constructor', '%3Cb%3E'])('no kind %s: a page says so', async (kind) => {
  const { status, text } = await request(bench.app).get(addressOf(kind))
  expect(status).toBe(404)
  expect(text).toContain('kind of tool')
})
