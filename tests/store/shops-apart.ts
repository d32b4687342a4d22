/**
 * Two shops of one database under one address, whose rows have the same ids: what would leak, leaks here. Every address
 * that one of them has is asked for by the other.
 */
import type { Express } from 'express'
import request from 'supertest'
import type { Response } from 'supertest'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { usualRecord } from '../../shared/figures.js'
import { RulebookHolder } from '../../server/rulebook/live-rulebook.js'
import type { ShopDatabase } from '../../server/store/shop-database.js'
import { openShopDatabase } from '../../server/store/shop-database.js'
import type { House } from '../../server/wiring/house.js'
import { houseOver } from '../../server/wiring/house.js'
import { operations } from '../api/documented.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'
import { inUseOf, OPENED } from '../in-use.js'
import { counting, looked, outcomeWith, tool } from '../register/open-register.js'
import type { PostgresServer } from './postgres-server.js'

const later = '2027-01-01T00:00:00.000Z'
const passphrase = 'two combs and a mirror'
/** In every text that a shop keeps; no page has it otherwise. */
const marks = { north: 'Zqnorth', south: 'Zqsouth' } as const
type Side = keyof typeof marks

export function shopsApart(server: () => PostgresServer): void {
  let database: ShopDatabase
  let house: House
  let app: Express
  const ids: Record<Side, string> = { north: '', south: '' }
  const cookies: Record<Side, string> = { north: '', south: '' }
  let addresses: string[]
  const idsOf = () => {
    const newKey = counting()
    return { newId: newKey, newKey }
  }

  beforeAll(async () => {
    database = await openShopDatabase(await server().freshUrl())
    ids.north = (await database.shops())[0]!.id
    await database.rename(ids.north, 'North')
    ids.south = (await database.addShop('South')).id
    const now = () => new Date(OPENED)
    house = await houseOver(
      { stores: await database.open(ids.north, idsOf()), database },
      {
        rulebook: new RulebookHolder(await inUseOf(tinyRulebook)),
        now,
        newSeed: () => 7,
        signIn: true,
        production: true,
        names: [],
      },
      idsOf,
    )
    app = house.app
    addresses = await filled('north')
    await filled('south')
  })
  afterAll(async () => {
    await house.close()
    await database.close()
  })

  /** A shop with something of everything, and its lead signed in. @returns addresses that lead to single things */
  async function filled(side: Side): Promise<string[]> {
    const mark = marks[side]
    const { cases, tools, care, parts, register, people } = await database.open(ids[side], idsOf())
    const [clipper] = await tools.add(
      [{ name: `${mark} chair`, kind: 'bench-motor', place: 'in-use', details: { usedBy: mark } }],
      OPENED,
    )
    const bench = await cases.begin({ kind: 'bench-motor', tool: `${mark} chair`, at: OPENED })
    await cases.append(
      bench.id,
      { type: 'answered', step: 'complaint', answers: { hot: 'yes' }, when: 'now', words: `${mark} hot` },
      OPENED,
    )
    await tools.tie(bench.id, clipper!.id)
    await care.log('batch', [{ toolId: clipper!.id, task: 'oil', day: OPENED.slice(0, 10) }], {
      who: mark,
      at: OPENED,
    })
    const part = await parts.add({
      name: `${mark} brush`,
      details: { supplierDays: 3, is: [], perUse: 1, care: [] },
    })
    await cases.keepShop({ ...usualRecord, figures: { minute: side === 'north' ? 71 : 72 } }, 0)
    const ofClass = await register.addClass({ name: `${mark} evening`, at: OPENED })
    const learner = await register.addLearner({ name: `${mark} Ann`, class: ofClass.id, at: OPENED })
    const exercise = await register.begin({ ...tool, learner: learner.id, at: OPENED })
    await register.makeMove(exercise.id, looked, OPENED, 0)
    await register.keepOutcome(exercise.id, outcomeWith())
    await register.signOff({ learner: learner.id, skill: 'found', by: mark, at: OPENED })
    const lead = await people.add({ name: `${mark} Ada`, role: 'lead', at: OPENED })
    const code = `${ids[side]}-code-of-the-lead`
    await people.makeLink(code, lead.id, later)
    const given = (res: Response): string =>
      String(res.headers['set-cookie'])
        .split(',')
        .flatMap((it) => /clipperwright[\w-]*=[\w-]+/.exec(it) ?? [])
        .join('; ')
    const link = given(await request(app).get(`/welcome/${code}`).expect(303))
    const res = await request(app).post('/welcome').set('Cookie', link).type('form').send({ passphrase })
    expect(res.status).toBe(303)
    cookies[side] = `${link}; ${given(res)}`
    return [
      `/cases/${bench.id}`,
      `/tools/${clipper!.id}`,
      `/parts/${part.id}`,
      `/practice/classes/${ofClass.id}`,
      `/practice/learners/${learner.id}`,
      `/practice/exercises/${exercise.id}`,
    ]
  }

  const get = (path: string, cookie: string) => request(app).get(path).set('Cookie', cookie).buffer(true)
  const linksIn = (html: string): string[] =>
    [...html.replaceAll('&amp;', '&').matchAll(/href="(\/(?!assets|other-shop|rulebook)[^"#]*)/g)].map(
      ([, href]) => href!,
    )

  it('show each what is its own at every address, and nothing of the other', async () => {
    const api = operations
      .filter(({ method }) => method === 'get')
      .map(({ path }) => `/api${path.replace('{id}', 'key2')}`)
    const waiting = ['/', '/cases', '/tools', '/shop/export.json', ...addresses, ...api]
    const seen = new Set<string>()
    const own = new Set<string>()
    while (waiting.length > 0 && seen.size < 90) {
      const path = waiting.shift()!
      if (seen.has(path)) continue
      seen.add(path)
      const [north, south] = await Promise.all([get(path, cookies.north), get(path, cookies.south)])
      expect([path, north.text.includes(marks.south)]).toEqual([path, false])
      expect([path, south.text.includes(marks.north)]).toEqual([path, false])
      if (north.text.includes(marks.north)) own.add(path)
      if (north.type === 'text/html') waiting.push(...linksIn(north.text))
    }
    // it is no test of empty pages
    expect(seen.size).toBeGreaterThan(60)
    expect(own.size).toBeGreaterThan(20)
    const minute = async (side: Side) =>
      ((await get('/api/shop', cookies[side])).body as { figures: { minute: number } }).figures.minute
    expect([await minute('north'), await minute('south')]).toEqual([71, 72])
  })

  it('write each into its own', async () => {
    await request(app)
      .post('/api/cases')
      .set('Cookie', cookies.south)
      .send({ kind: 'bench-motor' })
      .expect(201)
    const count = async (side: Side) => (await database.open(ids[side], idsOf())).cases.count()
    expect([await count('north'), await count('south')]).toEqual([1, 2])
  })

  it('let nobody in by the key of the other, and show a stranger no list of them', async () => {
    const key = /clipperwright-\w+=([\w-]{20,})/.exec(cookies.south)![1]!
    const forged = `clipperwright-shop=${ids.north}; clipperwright-${ids.north}=${key}`
    expect((await get('/cases', forged)).status).toBe(303)
    expect((await get('/api/cases', forged)).status).toBe(401)
    expect((await get('/', '')).headers['location']).toBe('/other-shop')
    const door = await get('/other-shop', '').expect(200)
    expect(door.text).not.toMatch(/North|South/)
    await request(app).post('/other-shop').type('form').send({ shop: ids.south, name: 'East' }).expect(422)
    const found = await request(app).post('/other-shop').type('form').send({ name: ' south' }).expect(303)
    const shop = /clipperwright-shop=\w+/.exec(String(found.headers['set-cookie']))![0]
    expect((await get('/', shop)).headers['location']).toBe('/sign-in')
  })

  it('are changed by one tap on a device that is signed in to both', async () => {
    const keys = [cookies.north, cookies.south]
      .map((it) => /clipperwright-[a-z0-9]{8}=[\w-]+/.exec(it)![0])
      .join('; ')
    const door = await get('/other-shop', keys).expect(200)
    expect(door.text).toMatch(/North/)
    expect(door.text).toMatch(/South/)
    const to = async (side: Side): Promise<string> => {
      const res = await request(app)
        .post('/other-shop')
        .set('Cookie', keys)
        .type('form')
        .send({ shop: ids[side] })
      const shop = /clipperwright-shop=\w+/.exec(String(res.headers['set-cookie']))![0]
      return (await get('/cases', `${shop}; ${keys}`)).text
    }
    expect(await to('south')).toContain(marks.south)
    expect(await to('north')).toContain(marks.north)
  })
}
