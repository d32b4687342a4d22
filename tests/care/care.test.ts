/** Today's care, its log, and the calendar, as a shop uses them. The calendar is read back by another library. */
import ICAL from 'ical.js'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import request from 'supertest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { as } from '../../server/store/acting.js'
import { Visitor } from '../pages/visitor.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
let visitor: Visitor
const day = 24 * 60
const oil = 'monthly-ball-oiler'
let ids: string[]

beforeEach(async () => {
  bench = await benchWith({ knowledge })
  visitor = new Visitor(bench.app)
  const names = ['Chair 1', 'Chair 2', 'Spare']
  const tools = await bench.tools.add(
    names.map((name) => ({
      name,
      kind: 'universal-motor',
      place: name === 'Spare' ? 'spare' : 'in-use',
      details: {},
    })),
    '2026-03-02T08:00:00.000Z',
  )
  ids = tools.map(({ id }) => id)
  bench.wait(40 * day) // 11 April 2026, 10:00 in London
})
afterEach(() => bench.close())

const cardOf = (task: string) =>
  new RegExp(`name="task" value="${task}"[\\s\\S]*?</form>`).exec(visitor.html)?.[0] ?? ''

describe('the round', () => {
  it('has what is due with its tools, several done by one tap, and undone by another', async () => {
    await visitor.open('/care')
    expect(ids.map((id) => cardOf(oil).includes(id))).toEqual([true, true, true])
    // a spare is not brushed out every day
    expect(cardOf('daily-vents-and-switch')).not.toContain(ids[2])
    await visitor.post('/care/done', { task: oil, tool: ids, batch: 'abcd1234' })
    expect(cardOf(oil)).toBe('')
    expect(visitor.words).toMatch(/logged: [^.]*Chair 1/)
    await visitor.post('/care/undo', { batch: `abcd1234-${oil}` })
    expect(cardOf(oil)).not.toBe('')
    expect(await bench.care.history({ most: 9 })).toEqual([])
  })

  it('counts a second tap on the same form once', async () => {
    for (let tap = 0; tap < 2; tap++)
      await visitor.post('/care/done', { task: oil, tool: ids, batch: 'abcd1234' })
    expect(await bench.care.history({ most: 9 })).toHaveLength(3)
  })

  it('refuses care and tools that are not there, and logs nothing', async () => {
    expect((await visitor.post('/care/done', { task: 'polish', tool: ids })).status).toBe(422)
    expect((await visitor.post('/care/done', { task: oil, tool: 'nobody' })).status).toBe(404)
    // nothing ticked: the page stays, and says where to put it right
    expect((await visitor.post('/care/done', { task: oil })).status).toBe(422)
    expect(visitor.html).toMatch(new RegExp(`href="#care-${oil}"[\\s\\S]* id="care-${oil}"`))
    expect(cardOf(oil)).toMatch(/<details[^>]* open>/)
    expect(cardOf(oil)).not.toContain('checked')
    expect(await bench.care.history({ most: 9 })).toEqual([])
  })

  it('goes by an interval of the shop’s own, and leaves out what the shop leaves out', async () => {
    await visitor.open('/care/habits')
    const fields = Object.fromEntries(
      [...visitor.html.matchAll(/name="(every-[a-z-]+)" value="(\d+)"/g)].map(([, name, value]) => [
        name,
        value!,
      ]),
    )
    await visitor.post('/care/habits', { ...fields, zone: 'Europe/London', [`every-${oil}`]: '0' })
    await visitor.open('/care')
    expect(cardOf(oil)).toBe('')
    await visitor.post('/care/habits', { ...fields, zone: 'Nowhere/Land', [`every-${oil}`]: 'often' })
    expect(visitor.status).toBe(422)
    expect(visitor.html).toContain('value="often"')
  })

  it('leaves out a tool whose case is boxed for service', async () => {
    const at = '2026-04-01T08:00:00.000Z'
    const { id } = await bench.cases.begin({ kind: 'universal-motor', tool: 'Chair 2', at })
    await bench.tools.tie(id, ids[1]!)
    await bench.cases.append(id, { type: 'finished', state: 'boxed-for-service' }, at)
    await visitor.open('/care')
    expect(ids.map((tool) => cardOf(oil).includes(tool))).toEqual([true, false, true])
    // and the log of disinfection offers none that is not here
    await visitor.open('/care/disinfected')
    expect(ids.map((tool) => visitor.html.includes(`value="${tool}"`))).toEqual([true, false, true])
    await visitor.open(`/tools/${ids[1]}`)
    expect(visitor.html).not.toContain('action="/care/done"')
    expect(visitor.html).toContain('id="care-waits"')
    // back on the bench under a second case it is here again, though nobody told that the box came back
    const second = await bench.cases.begin({ kind: 'universal-motor', tool: 'Chair 2', at })
    await bench.tools.tie(second.id, ids[1]!)
    await visitor.open('/care')
    expect(cardOf(oil)).toContain(ids[1])
  })

  it('is one line of the front page', async () => {
    await visitor.open('/')
    expect(visitor.html).toMatch(/href="\/care"[^>]*>[^<]*\d+ jobs/)
  })
})

describe('the disinfection log', () => {
  const entry = () => ({ tool: ids[0]!, who: 'Ana', product: 'Blade wash', contact: '10', batch: 'ab12cd34' })

  it('takes who, which tool, product and contact time, and wants all of them', async () => {
    await visitor.post('/care/disinfected', { tool: ids[0]! })
    expect(visitor.status).toBe(422)
    await visitor.post('/care/disinfected', entry())
    const [logged] = await bench.care.history({ most: 9 })
    expect(logged).toMatchObject({
      task: 'after-every-client',
      who: 'Ana',
      day: '2026-04-11',
      details: { product: 'Blade wash', contactMinutes: 10 },
    })
  })

  const ticked = () =>
    [...visitor.html.matchAll(/name="(tool|all)" value="([^"]+)" checked/g)].map(([, , value]) => value)

  it('keeps what was ticked where something else is wrong', async () => {
    await visitor.post('/care/disinfected', { tool: [ids[0]!, ids[2]!] })
    expect(visitor.status).toBe(422)
    expect(ticked().sort()).toEqual([ids[0], ids[2]].sort())
    await visitor.post('/care/disinfected', { all: 'yes' })
    expect(visitor.html).not.toContain('href="#tools"')
    expect(ticked()).toEqual(['yes'])
  })

  it('takes one tick for all tools of the shop', async () => {
    await bench.tools.change(ids[1]!, { place: 'away' }, '2026-03-03T08:00:00.000Z')
    await visitor.post('/care/disinfected', { ...entry(), tool: ids[0]!, all: 'yes' })
    const logged = await bench.care.history({ most: 9 })
    expect(logged.map(({ toolId }) => toolId).sort()).toEqual([ids[0], ids[2]].sort())
  })

  it('shows days without an entry, and says so where one was written down later', async () => {
    await visitor.open('/care/disinfected')
    expect(visitor.words).toContain('14 days without an entry')
    await visitor.post('/care/disinfected', { ...entry(), day: '2026-04-09' })
    await visitor.open('/care/disinfected')
    expect(visitor.words).toContain('13 days without an entry')
    expect(visitor.words).toContain('written down 11 Apr 2026')
    const { text } = await request(bench.app).get('/care/disinfected.csv')
    expect(text).toMatch(/2026-04-09,2026-04-11T/)
  })

  it('takes no day that is still to come, and none that the calendar has not', async () => {
    for (const day of ['2026-04-12', '2026-02-30', '2026-00-10']) {
      await visitor.post('/care/disinfected', { ...entry(), day })
      expect(visitor.status).toBe(422)
    }
  })
})

describe('history', () => {
  it('pages, and leaves out nothing', async () => {
    for (let k = 0; k < 70; k++)
      await bench.care.log(`batch${k}`, [{ toolId: ids[k % 3]!, task: oil, day: '2026-04-01' }], {
        who: '',
        at: `2026-04-01T10:${String(k % 60).padStart(2, '0')}:00.000Z`,
      })
    let seen = 0
    for (let at: string | undefined = '/care/log'; at !== undefined;) {
      await visitor.open(at)
      seen += visitor.html.match(/<li class="tool-line"/g)?.length ?? 0
      at = /href="(\/care\/log\?[^"]+)"/.exec(visitor.html)?.[1]?.replaceAll('&amp;', '&')
    }
    expect(seen).toBe(70)
  })

  it('names who did it, and says somebody once they are removed', async () => {
    const { id } = await bench.people.add({ name: 'Ada', role: 'barber', at: '2026-03-02T09:00:00.000Z' })
    await bench.people.add({ name: 'Eve', role: 'lead', at: '2026-03-02T09:00:00.000Z' })
    const [first, second] = ids.map((toolId) => [{ toolId, task: oil, day: '2026-04-01' }])
    const said = { who: '', at: '2026-04-01T10:00:00.000Z' }
    await as(id, () => bench.care.log('b1', first!, said))
    await bench.care.log('b2', second!, said)
    const shown = async () => {
      await visitor.open('/care/log')
      const { text } = await request(bench.app).get('/care/log.csv')
      return ['Ada', 'somebody'].map((who) => [visitor.words, text].map((it) => it.split(who).length - 1))
    }
    const [once, never] = [
      [1, 1],
      [0, 0],
    ]
    expect(await shown()).toEqual([once, never])
    await bench.people.remove(id)
    expect(await shown()).toEqual([never, once])
  })
})

describe('the calendar', () => {
  const addressOf = async () => {
    await visitor.open('/care/habits')
    return /\/calendar\/[a-z0-9]+\.ics/.exec(visitor.html)?.[0] ?? ''
  }

  it('is at a secret address, and at no other once that was renewed', async () => {
    expect((await visitor.open('/calendar/null.ics')).status).toBe(404)
    await visitor.post('/care/calendar', {})
    const first = await addressOf()
    expect((await visitor.open(first)).status).toBe(200)
    await visitor.post('/care/calendar', {})
    expect(await addressOf()).not.toBe(first)
    expect((await visitor.open(first)).status).toBe(404)
  })

  it('is RFC 5545: all-day entries on the due days of the shop’s zone, each with a name of its own', async () => {
    await visitor.post('/care/calendar', {})
    const { text } = await request(bench.app).get(await addressOf())
    const events = new ICAL.Component(ICAL.parse(text)).getAllSubcomponents('vevent')
    const read = events.map((it) => new ICAL.Event(it))
    expect(new Set(read.map(({ uid }) => uid)).size).toBe(read.length)
    expect(events.every((it) => it.getFirstProperty('dtstamp'))).toBe(true)
    expect(
      read.every(
        ({ startDate, endDate }) =>
          startDate.isDate && endDate.subtractDate(startDate).toSeconds() === 86_400,
      ),
    ).toBe(true)
    const days = (task: string) =>
      read.filter(({ uid }) => uid.includes(task)).map(({ startDate }) => startDate.toString())
    expect(days(oil).slice(0, 4)).toEqual(['2026-04-11', '2026-05-01', '2026-06-01', '2026-07-01'])
    expect(days('twice-yearly-grease')).toEqual(['2026-10-25', '2027-03-28'])
  })

  it('may be one person’s', async () => {
    await bench.tools.change(ids[0]!, { details: { usedBy: 'Ana' } }, '2026-04-01T08:00:00.000Z')
    await visitor.post('/care/calendar', {})
    const { text } = await request(bench.app).get(`${await addressOf()}?for=ana`)
    expect(text).toContain('Chair 1')
    expect(text).not.toContain('Chair 2')
  })
})

it('a case on a tool that was not oiled for months says so, and its score has moved', async () => {
  await bench.care.log('x1', [{ toolId: ids[0]!, task: oil, day: '2026-03-02' }], {
    who: '',
    at: '2026-03-02T09:00:00.000Z',
  })
  bench.wait(90 * day)
  await visitor.post(`/tools/${ids[0]}/case`, {})
  expect(visitor.words).toMatch(/Not done for 4 months/)
  const id = visitor.at.split('/')[2]!
  const known = await request(bench.app).get(`/api/cases/${id}`)
  const unknown = await request(bench.app).post('/api/cases').send({ kind: 'universal-motor', tool: '' })
  const of = (body: unknown) =>
    /"id":"dry-bearing"[^}]*?"probability":([\d.e-]+)/.exec(JSON.stringify(body))?.[1]
  expect(Number(of(known.body))).toBeGreaterThan(1.5 * Number(of(unknown.body)))
})
