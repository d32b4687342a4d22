/** The shop's figures: read, refused with every problem at once, kept over a restart, and reckoned with. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import request from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { openCaseStore } from '../../server/cases/sqlite-case-store.js'
import { openShopFigures } from '../../server/cases/shop-figures.js'
import { loadKnowledge } from '../../server/knowledge/load.js'
import { ShopSettings } from '../../shared/situation.js'
import { benchWith } from '../api/bench.js'

const good = {
  skill: 'S3',
  canSafetyTest: 'yes',
  rate: '1,2',
  sendIn: '75',
  turnaroundDays: '10',
  dayWithout: '0',
  replace: '180',
}
const post = (app: Parameters<typeof request>[0], body: object) =>
  request(app).post('/shop').type('form').set('Sec-Fetch-Site', 'same-origin').send(body)

describe('the page of the shop’s figures', () => {
  it('shows what the plan reckons with', async () => {
    const { app } = await benchWith()
    const page = await request(app).get('/shop').expect(200)
    expect(page.text).toMatch(/name="sendIn" value="60"/)
    expect(page.text).toMatch(/value="S2" checked/)
  })

  it('keeps new ones, a comma for a point too, and the plan reckons with them', async () => {
    const { app } = await benchWith({ knowledge: loadKnowledge() })
    await post(app, good).expect(303).expect('Location', '/shop?kept=yes')
    const page = await request(app).get('/shop').expect(200)
    expect(page.text).toMatch(/name="rate" value="1.2"/)
    expect(page.text).toMatch(/value="S3" checked/)
    // Nothing is known and sending in is dearer: the expected cost can only rise with the fee.
    const dear = await benchWith({ knowledge: loadKnowledge() })
    await post(dear.app, { ...good, sendIn: '5000', replace: '9000' }).expect(303)
    const cost = async (bench: typeof dear) => {
      const { body } = await request(bench.app)
        .post('/api/assess')
        .send({ kind: 'universal-motor', answers: {} })
      return body.next.expectedCost as number
    }
    expect(await cost(dear)).toBeGreaterThan(await cost({ ...dear, app }))
  })

  it('refuses what makes no sense, says all of it, and loses nothing', async () => {
    const { app } = await benchWith()
    const page = await post(app, { ...good, rate: 'much', sendIn: '-4', skill: 'S9' }).expect(422)
    expect(page.text).toMatch(/<title>Error: /)
    expect(page.text).toContain('A minute at the bench: enter a number from 0 to 100')
    expect(page.text).toContain('A service: enter a number from 0 to 10000')
    expect(page.text).toContain('Choose who works at the bench')
    expect(page.text).toMatch(/name="rate" value="much"/)
    expect(page.text).toMatch(/name="replace" value="180"/)
    await request(app)
      .get('/shop')
      .expect(/name="sendIn" value="60"/)
  })
})

describe('the figures in the file', () => {
  let folder: string
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'clipperwright-shop-'))
  })
  afterAll(() => rmSync(folder, { recursive: true }))

  it('are there after a restart', async () => {
    const open = () => openCaseStore({ file: join(folder, 'cases.db'), newId: () => 'one' })
    const usual = ShopSettings.parse({})
    const first = await open()
    const figures = await openShopFigures(first, usual)
    expect(figures.now).toEqual(usual)
    await figures.keep({ ...usual, sendIn: 75 })
    await figures.keep({ ...usual, sendIn: 80 })
    await first.close()
    const second = await open()
    expect((await openShopFigures(second, usual)).now).toEqual({ ...usual, sendIn: 80 })
    await second.close()
  })
})
