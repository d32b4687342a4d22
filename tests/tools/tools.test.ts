/** The shop's tools on pages: without lists, by three taps, from a list; and what a case knows of its tool. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import request from 'supertest'
import { usualRecord } from '../../shared/figures.js'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { figuresInForce } from '../../server/decision/figures-of.js'
import { figuresOfTool } from '../../server/tools/tool-life.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'
import { Visitor } from '../pages/visitor.js'

const kind = tinyRulebook.kinds[0]!.id
let bench: Bench
let visitor: Visitor

beforeEach(async () => {
  bench = await benchWith()
  visitor = new Visitor(bench.app)
})
afterEach(() => bench.close())

describe('without lists', () => {
  it('the first case puts its tool on the list, and the next one on it knows it', async () => {
    await visitor.post('/cases', { kind, tool: 'Chair 3' })
    await visitor.post('/cases', { kind, tool: 'chair 3 ' })
    const [tool, ...others] = await bench.tools.list()
    expect(others).toEqual([])
    expect(tool).toMatchObject({ name: 'Chair 3', kind, place: 'in-use' })
    expect(await bench.tools.casesOf(tool!.id)).toHaveLength(2)
  })

  it('a tool without a name gets one that is free', async () => {
    await visitor.post('/cases', { kind })
    await visitor.post('/cases', { kind })
    const names = (await bench.tools.list()).map(({ name }) => name)
    expect(new Set(names).size).toBe(2)
  })

  it('a case removed as begun by mistake takes the tool along that it had put there', async () => {
    await visitor.post('/cases', { kind })
    await visitor.post(`${visitor.at.replace('/complaint', '')}/remove`, {})
    expect(await bench.tools.list()).toEqual([])
  })

  it('a name given later is the tool’s; the name of another tool means that one', async () => {
    await visitor.post('/cases', { kind, tool: 'Chair 1' })
    await visitor.post('/cases', { kind })
    const home = visitor.at.replace('/complaint', '')
    await visitor.post(`${home}/tool`, { kind, tool: 'Chair 1' })
    const first = (await bench.tools.list()).find(({ name }) => name === 'Chair 1')!
    expect(await bench.tools.casesOf(first.id)).toHaveLength(2)
  })
})

async function added(): Promise<string> {
  await visitor.post('/tools', { kind })
  return visitor.at.split('?')[0]!
}

it('a tool, a part and the figures show who changed them, lately first', async () => {
  const tool = await added()
  await visitor.post(`${tool}/place`, { place: 'spare' })
  expect(visitor.words).toMatch(/Who changed it.*somebody: spare.*somebody: added/)
  const { id } = await bench.parts.add({
    name: 'Oil',
    details: { supplierDays: 7, is: [], perUse: 1, care: [] },
  })
  await bench.parts.move('m', [{ key: 'k', partId: id, change: 3, why: { for: 'bought' } }], OPENED)
  await visitor.open(`/parts/${id}`)
  expect(visitor.words).toMatch(/Who changed it.*3 put there.*added/)
  await visitor.open('/shop')
  expect(visitor.words).not.toContain('Who changed it')
  await bench.cases.keepShop(usualRecord, 0)
  await visitor.open('/shop')
  expect(visitor.words).toMatch(/Who changed it.*changed/)
})

describe('a tool', () => {
  it('is there after a tap on its picture, and “it acts up” opens a case on it, once', async () => {
    const tool = await added()
    expect(tool).toMatch(/^\/tools\/\w+$/)
    await visitor.post(`${tool}/case`, {})
    const at = visitor.at
    expect(at).toMatch(/^\/cases\/\w+\/complaint$/)
    await visitor.post(`${tool}/case`, {})
    expect(visitor.at.startsWith(at.replace('/complaint', ''))).toBe(true)
  })

  it('loses nothing of a form that is wrong, and keeps what is right', async () => {
    const tool = await added()
    await visitor.post(`${tool}/edit`, {
      name: 'Chair 9',
      kind,
      place: 'spare',
      watts: 'many',
      volts: '220-240',
    })
    expect(visitor.status).toBe(422)
    expect(visitor.field('volts') ?? visitor.html).toContain('220-240')
    await visitor.post(`${tool}/edit`, {
      name: 'Chair 9',
      kind,
      place: 'spare',
      watts: '12',
      volts: '220-240',
    })
    expect((await bench.tools.list())[0]).toMatchObject({
      name: 'Chair 9',
      place: 'spare',
      details: { watts: 12, volts: '220-240' },
    })
  })

  it('brings its warranty, price and age into a case on it, before the shop’s figures', async () => {
    const details = { warrantyUntil: '2027-01-01', price: 9900, bought: '2025-03-02' }
    const [tool] = await bench.tools.add([{ name: 'A', kind, place: 'in-use', details }], OPENED)
    const figures = figuresOfTool(tool!, OPENED.slice(0, 10))
    expect(figures).toEqual({ inWarranty: true, newPrice: 9900, age: 1 })
    expect(figuresInForce({ shop: { newPrice: 1 }, tool: figures }).from).toMatchObject({
      newPrice: 'tool',
      inWarranty: 'tool',
    })
    expect(figuresOfTool(tool!, '2027-01-02').inWarranty).toBe(false)
  })

  it('asks its name on the page that follows, and changes nothing else by it', async () => {
    const tool = await added()
    expect(visitor.html).toMatch(/name="name" value="\w+ 1"/)
    await visitor.post(`${tool}/edit`, { kind, name: 'Chair 1', watts: '12' })
    await visitor.post(`${tool}/edit`, { name: 'Chair 3' })
    expect((await bench.tools.list())[0]).toMatchObject({ name: 'Chair 3', details: { watts: 12 } })
    expect(visitor.html).not.toContain('name="name"')
  })

  it('tells a name that another tool has, unless that one is retired; one error for one too long', async () => {
    const first = await added()
    await visitor.post(`${first}/edit`, { name: 'Chair 3' })
    const second = await added()
    for (const name of ['chair 3', 'x'.repeat(81), '']) {
      await visitor.post(`${second}/edit`, { name })
      expect(visitor.status).toBe(422)
      expect(visitor.html.match(/href="#name"/g)).toHaveLength(1)
    }
    await visitor.post(`${first}/place`, { place: 'retired' })
    await visitor.post(`${second}/edit`, { name: 'chair 3' })
    expect(visitor.status).toBe(200)
  })

  it('says that it is away beside its open case too, and that care waits', async () => {
    const tool = await added()
    await visitor.post(`${tool}/case`, {})
    await visitor.open(tool)
    expect(visitor.html).not.toContain('id="care-waits"')
    await visitor.post(`${tool}/place`, { place: 'away' })
    expect(visitor.html).toMatch(/<b>Away for service<\/b>/)
    expect(visitor.html).toContain('id="care-waits"')
  })

  it('is nowhere for an address that names none', async () => {
    expect((await visitor.open('/tools/nothing')).status).toBe(404)
  })
})

describe('a list of tools', () => {
  const text = `name,kind\nChair 1,${kind}\nChair 2,nonsense\n`

  it('changes nothing before it is confirmed', async () => {
    const sent = await request(bench.app).post('/tools/import').field('text', text)
    expect(sent.status).toBe(422)
    expect(sent.text).toContain('Line 3, Chair 2')
    expect(await bench.tools.list()).toEqual([])
    await visitor.post('/tools/import/keep', { text })
    expect((await bench.tools.list()).map(({ name }) => name)).toEqual(['Chair 1'])
  })

  it('may come as a file', async () => {
    const sent = await request(bench.app).post('/tools/import').attach('file', Buffer.from(text), 'tools.csv')
    expect(sent.text).toContain('Line 3, Chair 2')
  })

  it('is refused in plain words where the file is too long', async () => {
    const sent = await request(bench.app)
      .post('/tools/import')
      .attach('file', Buffer.alloc(300_000, 'x'), 'tools.csv')
    expect(sent.status).toBe(413)
    expect(sent.text).not.toContain('MulterError')
  })
})
