/** The shelf as a shop uses it: fixes and care take from it, once, with undo, and never more than is there in silence. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import request from 'supertest'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { onShelfWords } from '../../server/pages/parts/taken-words.js'
import { shelfForFix } from '../../server/parts/take.js'
import { Visitor } from '../pages/visitor.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
let visitor: Visitor
const brushes = { is: 'pair of brushes with springs', pieces: '1', supplierDays: '7' }

beforeEach(async () => {
  bench = await benchWith({ knowledge })
  visitor = new Visitor(bench.app)
  await bench.tools.add([{ name: 'A', kind: 'universal-motor', place: 'in-use', details: {} }], OPENED)
})
afterEach(() => bench.close())

const stockOf = async (name: string) => (await bench.parts.list()).find((part) => part.name === name)?.stock

async function closed(): Promise<string> {
  const { id } = await bench.cases.begin({ kind: 'universal-motor', tool: 'A', at: OPENED })
  await bench.cases.append(id, { type: 'tried', fix: 'new-brush-pair', outcome: 'cured' }, OPENED)
  const seen = await request(bench.app).get(`/api/cases/${id}`)
  expect(seen.status).toBe(200)
  await visitor.open(`/cases/${id}/finish`)
  await visitor.send(`/cases/${id}/finish`, { state: 'set-aside', cause: 'worn-brushes' })
  return id
}

describe('closing a case', () => {
  it('takes what its fixes took, says so, and puts it back at one tap', async () => {
    await visitor.post('/parts', { ...brushes, name: 'Brushes', stock: '3', shelf: 'drawer 3' })
    const id = await closed()
    expect(await stockOf('Brushes')).toBe(2)
    expect(visitor.words).toContain('Taken from the shelf: Brushes')
    await visitor.post('/parts/undo', { batch: `case-${id}`, back: `/cases/${id}` })
    expect(await stockOf('Brushes')).toBe(3)
  })

  it('of which the shelf has none says so, and goes no lower', async () => {
    await visitor.post('/parts', { ...brushes, name: 'Brushes', stock: '0' })
    await closed()
    expect(await stockOf('Brushes')).toBe(0)
    expect(visitor.words).toContain('The shelf had too little: Brushes')
  })
})

describe('care', () => {
  it('takes drops from a bottle, and gives them back with undo', async () => {
    await visitor.post('/parts', {
      name: 'Oil',
      care: 'monthly-ball-oiler',
      pieces: '200',
      supplierDays: '7',
      stock: '1',
    })
    const [tool] = await bench.tools.list()
    await visitor.post('/care/done', { task: 'monthly-ball-oiler', tool: tool!.id, batch: 'abcd1234' })
    expect(await stockOf('Oil')).toBe(0.995)
    await visitor.post('/care/done', { task: 'monthly-ball-oiler', tool: tool!.id, batch: 'abcd1234' })
    expect(await stockOf('Oil')).toBe(0.995)
    await visitor.post('/care/undo', { batch: 'abcd1234-monthly-ball-oiler' })
    expect(await stockOf('Oil')).toBe(1)
  })
})

describe('the shelf', () => {
  it('loses nothing of a form that is wrong', async () => {
    await visitor.post('/parts', { ...brushes, name: '', stock: 'some', price: '4.50' })
    expect(visitor.status).toBe(422)
    expect(visitor.html).toContain('value="4.50"')
    expect(await bench.parts.list()).toEqual([])
  })

  it('names the field in each error', async () => {
    await visitor.post('/parts', { ...brushes, name: 'Brushes', stock: 'x', supplierDays: 'x', pieces: 'x' })
    const said = [...visitor.html.matchAll(/<a href="#(stock|supplierDays|pieces)">([^<]+)</g)]
    expect(said.map(([, field]) => field).sort()).toEqual(['pieces', 'stock', 'supplierDays'])
    expect(new Set(said.map(([, , words]) => words!.split(':')[0])).size).toBe(3)
  })

  it('takes a part off only from a fold, not by the tap beside Back', async () => {
    await visitor.post('/parts', { ...brushes, name: 'Brushes', stock: '1' })
    const [part] = await bench.parts.list()
    await visitor.open(`/parts/${part!.id}`)
    expect(visitor.html).toMatch(/<details class="more"><summary>[^<]+<\/summary>\s*<form[^>]*\/remove"/)
    await visitor.post(`/parts/${part!.id}/remove`, {})
    expect(await bench.parts.list()).toEqual([])
  })

  it('keeps one at least of what care takes, and buys it when it has run out', async () => {
    const oil = { care: 'after-every-client', pieces: '2000', supplierDays: '7' }
    await visitor.post('/parts', { ...oil, name: 'Oil', stock: '0' })
    await visitor.open('/parts/shopping')
    expect(visitor.words).toContain('1 × Oil')
    const [part] = await bench.parts.list()
    await visitor.post(`/parts/${part!.id}`, { ...oil, name: 'Oil', stock: '2.999' })
    await visitor.open('/parts')
    expect(visitor.words).toContain('3 there, keep 1')
  })

  it('has a shopping list, as page and as table', async () => {
    await visitor.post('/parts', { ...brushes, name: 'Brushes, =1+1', stock: '0', price: '4.50' })
    await visitor.open('/parts/shopping')
    expect(visitor.words).toContain('× Brushes')
    const { text } = await request(bench.app).get('/parts/shopping.csv')
    expect(text).toContain('"Brushes, =1+1",1,0,1,7,4.50,EUR')
  })

  it('counts anew by hand', async () => {
    await visitor.post('/parts', { ...brushes, name: 'Brushes', stock: '1' })
    const [part] = await bench.parts.list()
    await visitor.post(`/parts/${part!.id}`, { ...brushes, name: 'Brushes', stock: '5' })
    expect(await stockOf('Brushes')).toBe(5)
    await visitor.open(`/parts/${part!.id}`)
    expect(visitor.words).toContain('5 there')
  })
})

it('a fix says what of it lies on the shelf', async () => {
  await visitor.post('/parts', { ...brushes, name: 'Brushes', stock: '3', shelf: 'drawer 3' })
  const [part] = await bench.parts.list()
  const fix = knowledge.fixes.find(({ id }) => id === 'new-brush-pair')!
  expect(shelfForFix(fix, [part!]).map(onShelfWords)).toEqual(['Brushes: 3 (drawer 3)'])
})
