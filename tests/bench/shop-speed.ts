/** The pages of a shop with 50 tools and three years of care, some 200 000 entries, beside a bare page. One at a time. */
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import express from 'express'
import { openHabits } from '../../server/care/shop-habits.js'
import { plusDays } from '../../server/care/rhythm.js'
import { newCaseId } from '../../server/cases/case-id.js'
import { openShopFigures } from '../../server/cases/shop-figures.js'
import { rulebookInUse } from '../../server/rulebook/live-rulebook.js'
import { RulebookHolder } from '../../server/rulebook/live-rulebook.js'
import { openStores } from '../../server/store/stores.js'
import { createApp } from '../../server/wiring/app.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge } from '../../shared/knowledge.js'

interface ShopSpeed {
  readonly entries: number
  readonly pages: readonly { readonly name: string; readonly milliseconds: number }[]
}

const tools = 50
const days = 3 * 365
/** Entries a tool and day: a little care, and the disinfection of several clients. */
const aDay = 4
const asked = 25
const now = new Date('2026-03-02T09:00:00.000Z')

export async function shopSpeed(knowledge: Knowledge): Promise<ShopSpeed> {
  const folder = mkdtempSync(join(tmpdir(), 'clipperwright-bench-'))
  const stores = await openStores({ file: join(folder, 'cases.db'), newId: newCaseId, newKey: newCaseId })
  const { cases, register, tools: book, care, parts, written } = stores
  const kinds = knowledge.kinds.map(({ id }) => id)
  const start = new Date(now.getTime() - days * 86_400_000).toISOString()
  const made = await book.add(
    Array.from({ length: tools }, (_, k) => ({
      name: `Chair ${k + 1}`,
      kind: kinds[k % kinds.length]!,
      place: 'in-use' as const,
      details: { clientsADay: 10 },
    })),
    start,
  )
  let entries = 0
  for (let k = 0; k < days; k++) {
    const day = plusDays(start.slice(0, 10), k)
    const done = made.flatMap(({ id, kind }, t) => {
      const tasks = bookOf(knowledge, kind).care
      return Array.from({ length: aDay }, (_, n) => ({
        toolId: id,
        task: tasks[(k + t + n * 3) % tasks.length]!.id,
        day,
      }))
    })
    await care.log(`b${k}`, done, { who: 'Ana', at: `${day}T18:00:00.000Z` })
    entries += done.length
  }
  const app = express()
  app.get('/bare', (_req, res) => void res.send('<!doctype html><title>bare</title>'))
  app.use(
    createApp({
      rulebook: new RulebookHolder(await rulebookInUse(knowledge, now)),
      cases,
      shop: await openShopFigures(cases),
      register,
      tools: book,
      care,
      parts,
      written,
      habits: await openHabits(care, 'Europe/London'),
      now: () => now,
      newSeed: () => 1,
      production: true,
    }),
  )
  const server = app.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const pages: { name: string; milliseconds: number }[] = []
  for (const [name, path] of [
    ['a bare page', '/bare'],
    ['start page', '/'],
    ['today’s care', '/care'],
    ['a tool', `/tools/${made[7]!.id}`],
    ['what was done', '/care/log'],
    ['disinfection log', '/care/disinfected'],
  ] as const) {
    const times: number[] = []
    for (let k = 0; k < asked; k++) {
      const before = performance.now()
      const response = await fetch(`${base}${path}`)
      await response.text()
      if (response.status !== 200) throw new Error(`${path}: ${response.status}`)
      times.push(performance.now() - before)
    }
    pages.push({ name, milliseconds: times.sort((a, b) => a - b)[Math.floor(asked / 2)]! })
  }
  server.close()
  server.closeAllConnections()
  await stores.close()
  rmSync(folder, { recursive: true, force: true })
  return { entries, pages }
}
