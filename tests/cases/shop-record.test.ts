/** The shop's record in the file: kept over a restart, and made of the figures that an older program had kept. */
import SQLite from 'better-sqlite3'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { ShopRecord } from '../../shared/figures.js'
import { usualRecord } from '../../shared/figures.js'
import { openShopFigures } from '../../server/cases/shop-figures.js'
import { withSumsOfTheShop } from './older-file.js'
import { openCaseStore } from './open-case-store.js'

let folder: string
let file: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'shop-record-test-'))
  file = join(folder, 'cases.db')
})
afterEach(() => rmSync(folder, { recursive: true }))

const open = () => openCaseStore({ file, newId: () => 'one' })

/** A file as the program left it when a shop's figures were sums in major units. */
async function oldFile(figures: object | null): Promise<void> {
  const store = await open()
  await store.begin({ kind: 'bench-motor', tool: 'Chair 2', at: '2026-03-02T09:00:00.000Z' })
  await store.close()
  const sqlite = new SQLite(file)
  withSumsOfTheShop(sqlite)
  if (figures) sqlite.prepare('insert into shop values (1, ?)').run(JSON.stringify(figures))
  sqlite.close()
}

async function recordNow(): Promise<ShopRecord | null> {
  const store = await open()
  const record = (await store.shop())?.record ?? null
  expect((await store.list())[0]?.tool).toBe('Chair 2')
  await store.close()
  return record
}

describe('the figures of an older file', () => {
  it('become a record in cents of the euro; nothing is lost, and what was not told is not made up', async () => {
    await oldFile({
      rate: 1.15, // 114.99999999999999 in binary floating point
      sendIn: 62.5,
      turnaroundDays: 9.5,
      dayWithout: 12.34,
      replace: 175,
      skill: 'S3',
      canSafetyTest: true,
      inWarranty: false,
    })
    const record: ShopRecord = {
      currency: { code: 'EUR', digits: 2 },
      figures: {
        minute: 115,
        feeLow: 6250,
        feeHigh: 6250,
        carriage: 0,
        daysAwayLow: 9.5,
        daysAwayHigh: 9.5,
        dayWithout: 1234,
        newPrice: 17_500,
        skill: 'S3',
        canSafetyTest: true,
        inWarranty: false,
      },
    }
    expect(await recordNow()).toEqual(record)
    expect(await recordNow()).toEqual(record) // once, not at every start
  })
  it('keep what a later one of them told besides', async () => {
    await oldFile({ sendIn: 60, sendInVain: 25, serviceMends: 0.01, partDays: 3, partsToBeHad: false })
    expect((await recordNow())?.figures).toMatchObject({
      inspection: 2500,
      serviceMends: 0.05,
      partDays: 3,
      partsToBeHad: false,
    })
    await expect(recordNow()).resolves.not.toBeNull()
  })
  it('are none where nobody had set any', async () => {
    await oldFile(null)
    expect(await recordNow()).toBeNull()
  })
})

it('a record that was kept is there after a restart, and the usual one before', async () => {
  const record: ShopRecord = { currency: { code: 'KWD', digits: 3 }, figures: { minute: 250, age: null } }
  const first = await open()
  const shop = await openShopFigures(first)
  expect(shop.record).toEqual(usualRecord)
  await shop.keep({ ...record, figures: { minute: 1 } }, 0)
  await shop.keep(record, 1)
  expect(shop.record).toEqual(record)
  await first.close()
  const second = await open()
  expect((await openShopFigures(second)).record).toEqual(record)
  await second.close()
})
