/** Opened to the network: a stranger gets nothing but a door, and each role what is theirs. */
import request from 'supertest'
import type { Response } from 'supertest'
import { beforeEach, describe, expect, it } from 'vitest'
import type { Role } from '../../shared/person.js'
import { isRight, kept } from '../../server/people/passphrase.js'
import { mayAsk } from '../../server/register/who-may.js'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { operations } from '../api/documented.js'

let bench: Bench
beforeEach(async () => {
  bench = await benchWith({ people: true })
})
const later = '2027-01-01T00:00:00.000Z'
const passphrase = 'two combs and a mirror'

const cookieOf = (res: Response): string => /clipperwright=[\w-]+/.exec(String(res.headers['set-cookie']))![0]
const form = (path: string, fields: object, cookie = '') =>
  request(bench.app).post(path).set('Cookie', cookie).type('form').send(fields)

/** Kept at next to no cost, which is kept with it: at its usual one to tell it takes as long as it is meant to. */
const cheaply = kept(passphrase, { N: 16, r: 8, p: 1, maxmem: 2 ** 20 })
/** Somebody of that role who is signed in, as one is after a link. @returns their cookie */
async function comeIn(name: string, role: Role): Promise<string> {
  const { id } = await bench.people.add({ name, role, at: OPENED })
  await bench.people.keepPassphrase(id, await cheaply)
  const key = `key-of-${id}-on-a-device`
  await bench.people.signIn(id, key, OPENED)
  return `clipperwright=${key}`
}

describe('a stranger', () => {
  it('finds a door at every address, and nothing behind it', async () => {
    const { id } = await bench.cases.begin({ kind: 'bench-motor', tool: 'Secret chair', at: OPENED })
    const pages = [
      '/',
      '/new',
      '/cases',
      `/cases/${id}`,
      '/tools',
      '/shop',
      '/shop/backups',
      '/shop/export.json',
      '/people',
      '/practice',
      '/rulebook',
      '/lab',
      '/no-such-page',
      '/CASES',
      '//cases',
    ]
    for (const path of pages) {
      const res = await request(bench.app).get(path)
      expect([303, 401], path).toContain(res.status)
      expect(res.text).not.toContain('Secret chair')
      if (res.status === 303) expect(res.headers['location']).toMatch(/^\/sign-in/)
    }
    for (const { method, path } of operations) {
      const res = await request(bench.app)[method as 'get' | 'post'](`/api${path.replace('{id}', id)}`)
      expect(res.status, path).toBe(401)
      expect(res.type).toBe('application/problem+json')
    }
    for (const path of ['/cases', '/shop', '/people', '/practice/classes', '/shop/backups'])
      expect((await form(path, { kind: 'bench-motor', name: 'x' })).status).toBe(401)
    expect(await bench.cases.count()).toBe(1)
  })
  it('gets in by no name, no passphrase and no cookie that was made up', async () => {
    await comeIn('Ada', 'lead')
    for (const fields of [
      { name: 'Ada', passphrase: 'Two combs and a mirror' },
      { name: 'Nobody', passphrase },
      { name: 'Ada', passphrase: '' },
    ])
      expect((await form('/sign-in', fields)).status).toBe(422)
    for (const cookie of ['clipperwright=', `clipperwright=${'a'.repeat(32)}`, "clipperwright=' or 1=1 --"])
      expect((await request(bench.app).get('/').set('Cookie', cookie)).status).toBe(303)
  })
  it('is held up after a few tries, from that device and under that name', async () => {
    await comeIn('Ada', 'lead')
    const wrong = (name: string) => form('/sign-in', { name, passphrase: 'wrong wrong' }).expect(422)
    await wrong('Nobody')
    for (const name of ['Ben', 'Cem', 'Dora', 'Eve']) {
      await comeIn(name, 'barber')
      await wrong(name)
    }
    const held = await form('/sign-in', { name: 'Ada', passphrase })
    expect(held.status).toBe(429) // RFC 6585 §4
    expect(Number(held.headers['retry-after'])).toBeGreaterThan(0)
    bench.wait(20)
    expect((await form('/sign-in', { name: 'Ada', passphrase })).status).toBe(303)
  })
  it('is held up from five devices as well, however the name is written', async () => {
    bench = await benchWith({ people: true, trustProxy: 'loopback' })
    const from = (device: number, name: string) =>
      form('/sign-in', { name, passphrase: 'wrong wrong' }).set('X-Forwarded-For', `192.0.2.${device}`)
    // a space or a capital more is no five tries more
    for (const [k, name] of ['Ada', 'ADA', ' ada ', 'ａｄａ', 'aDa'].entries())
      await from(k, name).expect(422)
    await from(9, 'Ada').expect(429)
    await from(10, 'Ben').expect(422)
  })
})

describe('a phone that joins a class', () => {
  const joined = async (fields: object) => form('/join', fields)
  const passOf = (res: Response): string =>
    /clipperwright-class=[\w-]+/.exec(String(res.headers['set-cookie']))![0]
  let door: { word: string; pin: string }
  beforeEach(async () => {
    const ofClass = (await bench.register.addClass({ name: 'Evenings', at: OPENED })).id
    door = { word: 'comb', pin: '4711' }
    await bench.register.hangDoor({ class: ofClass, ...door })
  })

  it('practises, alone or two of them, and sees nothing of the shop, no list of names, and nobody else’s page', async () => {
    await request(bench.app).get('/join').expect(200)
    const res = await joined({ ...door, name: 'Ana', beside: 'Ben' })
    expect([res.status, res.headers['location']]).toEqual([
      303,
      expect.stringMatching(/^\/practice\/people\/.*with=/),
    ])
    const pass = passOf(res)
    const get = (path: string) => request(bench.app).get(path).set('Cookie', pass)
    const home = await get(String(res.headers['location'])).expect(200)
    expect(home.text).toContain('Ana and Ben')
    const other = passOf(await joined({ ...door, name: 'Cem' }))
    const cem = (await bench.register.learners()).find(({ name }) => name === 'Cem')!.id
    await request(bench.app).get(`/practice/people/${cem}`).set('Cookie', other).expect(200)
    for (const path of [
      '/',
      '/cases',
      '/practice',
      '/practice/classes',
      '/people',
      `/practice/people/${cem}`,
    ])
      expect([303, 401], path).toContain((await get(path)).status)
    expect((await form('/cases', { kind: 'bench-motor', tool: 'x' }, pass)).status).toBe(401)
  })
  it('is held up after a few numbers in vain; a right one lets in again', async () => {
    for (let k = 0; k < 5; k++) expect((await joined({ ...door, pin: '0000', name: 'Ana' })).status).toBe(422)
    const held = await joined({ ...door, name: 'Ana' })
    expect(held.status).toBe(429) // RFC 6585 §4
    expect(Number(held.headers['retry-after'])).toBeGreaterThan(0)
    expect(await bench.register.learners()).toEqual([])
    bench.wait(20)
    expect((await joined({ ...door, name: 'Ana' })).status).toBe(303)
  })
})

describe('signing in', () => {
  it('by a link that works once, for whom it was made, and for so long', async () => {
    await bench.people.makeLink('first-of-all-links', null, later)
    const opened = await request(bench.app).get('/welcome/first-of-all-links').expect(303)
    // its secret is in no address from here on, and no page is told that it ever was
    expect([opened.headers['location'], opened.headers['referrer-policy']]).toEqual([
      '/welcome',
      'no-referrer',
    ])
    const link = /clipperwright-link=[\w-]+/.exec(String(opened.headers['set-cookie']))![0]
    const page = await request(bench.app).get('/welcome').set('Cookie', link).expect(200)
    expect(page.text).toContain('action="/welcome"')
    expect(page.text).not.toContain('first-of-all-links')
    // OWASP ASVS 5.0.0, 6.2.1 and 6.2.4: eight letters, and none of the commonest however its capitals are
    for (const bad of ['short', 'Iloveyou', '1234567890', 'Ada ada.'])
      await form('/welcome', { name: 'Ada', passphrase: bad }, link).expect(422)
    const cookie = cookieOf(await form('/welcome', { name: 'Ada', passphrase }, link).expect(303))
    expect((await request(bench.app).get('/people').set('Cookie', cookie).expect(200)).text).toContain('Ada')
    await request(bench.app).get('/welcome/first-of-all-links').expect(404)
    await form('/welcome', { name: 'Eve', passphrase }, link).expect(404)
    await form('/welcome', { name: 'Eve', passphrase }).expect(404)
    await bench.people.makeLink('link-of-yesterday-1', null, '2026-03-02T08:59:00.000Z')
    await request(bench.app).get('/welcome/link-of-yesterday-1').expect(404)
  })
  it('by a passphrase that one changes oneself, with the old one, and no other device stays signed in', async () => {
    const [here, there] = [await comeIn('Cleo', 'learner'), `clipperwright=${'other-device-'.repeat(2)}`]
    const { id } = (await bench.people.byName('Cleo'))!.person
    await bench.people.signIn(id, there.slice(14), OPENED)
    const change = (old: string, fresh: string) => form('/passphrase', { old, passphrase: fresh }, here)
    await form('/passphrase', { old: passphrase, passphrase: 'seven blunt blades' }).expect(401)
    for (const [old, fresh] of [
      ['two combs and no mirror', 'seven blunt blades'],
      [passphrase, 'princess'],
    ] as const)
      await change(old, fresh).expect(422)
    const fresh = cookieOf(await change(passphrase, 'seven blunt blades').expect(303))
    const status = async (cookie: string) =>
      (await request(bench.app).get('/practice').set('Cookie', cookie)).status
    expect([await status(fresh), await status(here), await status(there)]).toEqual([200, 303, 303])
    await form('/sign-in', { name: 'Cleo', passphrase: 'seven blunt blades' }).expect(303)
  })
  it('gives a cookie that no script and no other site gets at, new each time', async () => {
    await comeIn('Ada', 'lead')
    const [one, two] = [
      await form('/sign-in', { name: ' ADA ', passphrase }).expect(303),
      await form('/sign-in', { name: 'Ada', passphrase }).expect(303),
    ]
    // RFC 6265bis §4.1.2; over plain http `Secure` would keep it from being sent at all
    expect(String(one.headers['set-cookie'])).toMatch(/HttpOnly; SameSite=Strict/)
    expect(String(one.headers['set-cookie'])).not.toMatch(/Secure/)
    expect(cookieOf(one)).not.toBe(cookieOf(two))
  })
  it('ends on this device, on all of them, with a new passphrase, after a month unused, and with the person', async () => {
    const lead = await comeIn('Ada', 'lead')
    const barber = await comeIn('Ben', 'barber')
    const again = cookieOf(await form('/sign-in', { name: 'Ben', passphrase }).expect(303))
    const isIn = async (cookie: string) =>
      (await request(bench.app).get('/').set('Cookie', cookie)).status === 200
    await form('/sign-out', {}, barber).expect(303)
    expect([await isIn(barber), await isIn(again)]).toEqual([false, true])
    await form('/sign-out-everywhere', {}, again).expect(303)
    expect(await isIn(again)).toBe(false)
    const third = cookieOf(await form('/sign-in', { name: 'Ben', passphrase }).expect(303))
    const ben = (await bench.people.byName('Ben'))!.person.id
    await form(`/people/${ben}/remove`, {}, lead).expect(303)
    expect(await isIn(third)).toBe(false)
    bench.wait(31 * 24 * 60)
    expect(await isIn(lead)).toBe(false)
  })
  it('leads on to an address here, and to no other site', async () => {
    await comeIn('Ada', 'lead')
    const to = async (where: string) =>
      (await form('/sign-in', { name: 'Ada', passphrase, to: where }).expect(303)).headers['location']
    expect(await to('/cases?find=x')).toBe('/cases?find=x')
    expect(await to('//evil.example')).toBe('/')
    for (const where of [
      '//evil.example',
      'https://evil.example',
      '/\\evil.example',
      'javascript:alert(1)',
      '/\t/evil.example',
    ]) {
      const { text } = await request(bench.app).get(`/sign-in?to=${encodeURIComponent(where)}`)
      expect(text).toMatch(/name="to" value="\/"/)
    }
  })
  it('behind a proxy with TLS gives a secure cookie that tells so by its name, and only where the proxy was named', async () => {
    const said = async (shop: Bench) => {
      await shop.people.makeLink('first-of-all-links', null, later)
      const { headers } = await request(shop.app)
        .get('/welcome/first-of-all-links')
        .set('X-Forwarded-Proto', 'https')
      return headers as Record<string, unknown>
    }
    const plain = await said(bench)
    expect(String(plain['set-cookie'])).not.toMatch(/Secure|__Host-/)
    // RFC 6797 §7.2: never said over plain http
    expect(plain).not.toHaveProperty('strict-transport-security')
    const named = await benchWith({ people: true, trustProxy: 'loopback' })
    const secure = await said(named)
    // RFC 6265bis §4.1.3.2
    expect(String(secure['set-cookie'])).toMatch(/^__Host-clipperwright-link=.*; Path=\/;.*; Secure/)
    expect(String(secure['set-cookie'])).not.toMatch(/Domain/i)
    expect(String(secure['strict-transport-security'])).toMatch(/^max-age=[1-9]\d{6,}/)
    // a cookie of that name without the prefix could be anybody's
    const { id } = await named.people.add({ name: 'Ada', role: 'lead', at: OPENED })
    await named.people.signIn(id, 'key-of-a-device-of-hers', OPENED)
    const page = (cookie: string) =>
      request(named.app)
        .get('/people')
        .set('X-Forwarded-Proto', 'https')
        .set('Cookie', `${cookie}=key-of-a-device-of-hers`)
    await page('clipperwright').expect(303)
    await page('__Host-clipperwright').expect(200)
  })
})

describe('a role', () => {
  it('of a barber works on tools; figures, people, records and ends are a lead’s', async () => {
    const lead = await comeIn('Ada', 'lead')
    const barber = await comeIn('Ben', 'barber')
    const learner = await comeIn('Cleo', 'learner')
    const begun = await form('/cases', { kind: 'bench-motor', tool: 'Chair 2' }, barber).expect(303)
    const home = String(begun.headers['location']).replace('/complaint', '')
    for (const [path, fields] of [
      ['/shop', { seen: 0 }],
      ['/people', { name: 'Eve', role: 'lead' }],
      [`${home}/finish`, { seen: 0 }],
      [`${home}/remove/`, {}],
      ['/shop/backups', {}],
      ['/practice/classes', { name: 'Evening' }],
    ] as const) {
      expect((await form(path, fields, barber)).status, path).toBe(403)
      expect((await form(path, fields, learner)).status, path).toBe(403)
    }
    expect((await form('/cases', { kind: 'bench-motor', tool: '' }, learner)).status).toBe(403)
    await request(bench.app).get('/shop/export.json').set('Cookie', barber).expect(403)
    await request(bench.app).get('/practice').set('Cookie', learner).expect(200)
    expect((await form('/people', { name: 'Dee', role: 'barber' }, lead).expect(200)).text).toMatch(
      /\/welcome\/[\w-]{32}/,
    )
    const api = await request(bench.app)
      .post('/api/shop')
      .set('Cookie', barber)
      .send({ figures: { minute: 1 } })
    expect(api.status).toBe(403)
  })
  it('is told by the address however it is written', () => {
    for (const path of ['/shop', '/SHOP', '/shop/', '/Shop//', '/api/shop', '/api/practice/classes/abcd/set'])
      expect(mayAsk('barber', 'POST', path), path).toBe(false)
    expect(mayAsk('lead', 'POST', '/shop')).toBe(true)
  })
  it('of a learner has their own practice, by name or because they put it down, and nobody else’s', async () => {
    const [cleo, lead] = [await comeIn('Cleo', 'learner'), await comeIn('Ada', 'lead')]
    const { register } = bench
    const ofClass = (await register.addClass({ name: 'Evenings', at: OPENED })).id
    const [own, other] = [
      await register.addLearner({ name: 'CLEO', class: ofClass, at: OPENED }),
      await register.addLearner({ name: 'Dee', class: ofClass, at: OPENED }),
    ]
    const tool = { kind: 'bench-motor', level: 'first', seed: 1, at: OPENED }
    const setting = { hideSuspects: false, hidePrices: false }
    const [hers, theirs, both] = [
      await register.begin({ ...tool, learner: own.id, setting }),
      await register.begin({ ...tool, learner: other.id, setting }),
      await register.begin({ ...tool, learner: other.id, setting: { ...setting, with: own.id } }),
    ]
    const get = async (path: string, cookie: string) =>
      (await request(bench.app).get(path).set('Cookie', cookie)).status
    const pagesOf = (learner: string, exercise: string) => [
      `/practice/people/${learner}`,
      `/practice/people/${learner}/record`,
      `/practice/people/${learner}/skills/`,
      `/PRACTICE/people/%${learner.charCodeAt(0).toString(16)}${learner.slice(1)}`,
      `/api/practice/learners/${learner}`,
      `/practice/exercises/${exercise}`,
      `/practice/exercises/${exercise}/debrief`,
      `/api/practice/exercises/${exercise}`,
    ]
    for (const path of pagesOf(other.id, theirs.id)) {
      expect(await get(path, cleo), path).toBe(403)
      expect(await get(path, lead), path).not.toBe(403)
    }
    for (const path of pagesOf(own.id, hers.id)) expect(await get(path, cleo), path).not.toBe(403)
    expect(await get(`/practice/exercises/${both.id}`, cleo)).not.toBe(403)
    const begin = async (learner: string) =>
      (await form('/practice/exercises', { learner, level: 'first' }, cleo)).status
    expect(await begin(other.id)).toBe(403)
    expect(await begin(own.id)).not.toBe(403)
    await form(`/practice/exercises/${theirs.id}/moves`, { move: 'x', seen: 0 }, cleo).expect(403)
    await request(bench.app).post('/api/practice/exercises').set('Cookie', cleo).send({}).expect(404)
    const put = await form('/practice/people', { name: 'Clo', class: ofClass }, cleo).expect(303)
    expect(await get(String(put.headers['location']), cleo)).toBe(200)
    expect(await get(String(put.headers['location']), await comeIn('Eve', 'learner'))).toBe(403)
  })
  it('of the last lead cannot be given up', async () => {
    const lead = await comeIn('Ada', 'lead')
    const { id } = (await bench.people.byName('Ada'))!.person
    await form(`/people/${id}`, { name: 'Ada', role: 'barber' }, lead).expect(422)
    await form(`/people/${id}/remove`, {}, lead).expect(422)
    expect((await bench.people.person(id)).role).toBe('lead')
  })
})

it('a skill is signed by who is signed in, whatever name is sent, and the class’s page says by whom', async () => {
  const lead = await comeIn('Ada', 'lead')
  const { register } = bench
  const ofClass = (await register.addClass({ name: 'Evenings', at: OPENED })).id
  const { id } = await register.addLearner({ name: 'Cleo', class: ofClass, at: OPENED })
  const setting = { hideSuspects: false, hidePrices: false }
  await register.begin({ kind: 'bench-motor', level: 'first', seed: 1, learner: id, at: OPENED, setting })
  const sheet = `/practice/classes/${ofClass}/people/${id}/skills`
  const { text } = await request(bench.app).get(sheet).set('Cookie', lead).expect(200)
  expect(text).not.toContain('name="by"')
  const sign = /value="(dangers-first[^"]*)"/.exec(text)![1]
  await form(sheet, { sign, by: 'M. Öz' }, lead).expect(303)
  expect((await register.signedOff(id)).map(({ by }) => by)).toEqual(['Ada'])
  await form(sheet, { strike: sign }, lead).expect(303)
  const page = await request(bench.app).get(`/practice/classes/${ofClass}`).set('Cookie', lead).expect(200)
  expect(page.text).toMatch(/Ada: a signature of Cleo struck out.*Ada: skills of Cleo signed/s)
  const mistaken = await form('/practice/classes', { name: 'Old hands, late' }, lead).expect(303)
  await form(`${mistaken.headers['location']}/remove`, {}, lead).expect(303)
  const list = await request(bench.app).get('/practice/classes').set('Cookie', lead).expect(200)
  expect(list.text).toContain('Ada: “Old hands, late” removed')
})

it('what is said of a case is somebody’s, and nobody’s once they are removed', async () => {
  const lead = await comeIn('Ada', 'lead')
  const barber = await comeIn('Ben', 'barber')
  const { id } = (await bench.people.byName('Ben'))!.person
  const begun = await form('/cases', { kind: 'bench-motor', tool: 'Chair 2' }, barber).expect(303)
  await form(String(begun.headers['location']), { seen: 0, q: 'runs hot' }, barber).expect(303)
  const said = async () => {
    const { text } = await request(bench.app).get('/shop/export.json').set('Cookie', lead).buffer(true)
    const all = JSON.parse(text) as Record<string, Record<string, unknown>[]>
    expect(all['person']!.every((row) => !('passphrase' in row))).toBe(true)
    return all['case_event']!.map(({ by_person: by }) => by)
  }
  expect(await said()).toEqual([id])
  const twice = await bench.people.add({ name: 'Benn', role: 'barber', at: OPENED })
  await form(`/people/${id}/merge`, { into: twice.id }, barber).expect(403)
  await form(`/people/${id}/merge`, { into: twice.id }, lead).expect(303)
  expect(await said()).toEqual([twice.id])
  await form(`/people/${twice.id}/remove`, {}, lead).expect(303)
  expect(await said()).toEqual([null])
})

// RFC 7914 §12, the third of its test vectors, is what node:crypto is built on; here: that it is kept so and salted
it('a passphrase is kept as a salted scrypt, and told right from wrong', async () => {
  const [one, two] = [await kept(passphrase), await kept(passphrase)]
  expect(one).toMatch(/^scrypt 32768 8 3 /)
  expect(one).not.toBe(two)
  expect(one).not.toContain('comb')
  expect(await isRight(passphrase, one)).toBe(true)
  expect(await isRight(`${passphrase} `, one)).toBe(false)
  expect(await isRight(passphrase, null)).toBe(false)
})
