/**
 * Requests a second for the question page of a case that was assessed before, against a bare Express + EJS
 * page of the same size: same process, same client, rounds taken in turn.
 */
import { fork } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import type { Server } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import ejs from 'ejs'
import type { Express } from 'express'
import express from 'express'
import { createApp } from '../../server/wiring/app.js'
import { openHabits } from '../../server/care/shop-habits.js'
import type { Assessments } from '../../server/remembered/assessments.js'
import { rememberAssessments } from '../../server/remembered/assessments.js'
import type { CaseStore } from '../../server/cases/case-store.js'
import { assess } from '../../server/diagnosis/assess.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { settingsFrom } from '../../server/decision/shop-settings.js'
import { RulebookHolder, rulebookInUse } from '../../server/rulebook/live-rulebook.js'
import { openStores } from '../../server/store/stores.js'
import { Figures, usualRecord } from '../../shared/figures.js'
import type { Round } from './load-client.js'

/** What one server did in all its rounds. */
export interface PageSpeed {
  readonly name: string
  readonly perSecond: number
  /** processor time of the server process for one page, in microseconds */
  readonly cpuMicros: number
  readonly bytes: number
}

const connections = 8
const rounds = 6

/** @returns bare page, question page with the memo, and without it, in this order */
export async function pageSpeeds(
  prepared: Prepared,
  kind: string,
): Promise<readonly [PageSpeed, PageSpeed, PageSpeed]> {
  const folder = mkdtempSync(join(tmpdir(), 'clipperwright-bench-'))
  const client = fork(fileURLToPath(new URL('load-client.ts', import.meta.url)))
  const stores = await openStores({
    file: join(folder, 'cases.db'),
    newId: () => 'bench',
    newKey: () => 'bench',
  })
  const { cases, register, tools, care, parts, written } = stores
  const habits = await openHabits(care, 'Europe/London')
  const shop = settingsFrom(Figures.parse({}), usualRecord.currency, false)
  const assessed = (situation: Parameters<Assessments['of']>[0]) => assess(prepared, situation, shop)
  const inUse = await rulebookInUse(prepared.knowledge, new Date())
  const appWith = (assessments: Assessments): Express =>
    createApp({
      rulebook: new RulebookHolder({ ...inUse, assessments }),
      cases,
      shop: {
        record: usualRecord,
        version: 0,
        fresh: () => Promise.resolve(),
        keep: () => Promise.resolve(),
      },
      register,
      tools,
      care,
      parts,
      written,
      habits,
      newSeed: () => 1,
      now: () => new Date(),
      production: true,
    })
  const servers: Server[] = []
  const open = async (app: Express): Promise<number> => {
    const server = app.listen(0, '127.0.0.1')
    servers.push(server)
    await once(server, 'listening')
    return (server.address() as AddressInfo).port
  }
  try {
    const path = await tellCase(cases, prepared, kind)
    const remembered = await open(appWith(rememberAssessments(assessed)))
    const forgotten = await open(appWith({ of: assessed }))
    const html = await (await fetch(`http://127.0.0.1:${remembered}${path}`)).text()
    if (!html.includes('name="asked"')) throw new Error(`${path} shows no question`)
    const bare = await open(bareApp(folder, html.length))
    const [one, two, three] = await inTurn(client, [
      { name: 'bare page', port: bare, path: '/', requests: 1500 },
      { name: 'question page', port: remembered, path, requests: 1000 },
      { name: 'without the memo', port: forgotten, path, requests: 24 },
    ])
    return [one!, two!, three!]
  } finally {
    client.kill()
    for (const server of servers) {
      server.close()
      server.closeAllConnections()
    }
    await stores.close()
    rmSync(folder, { recursive: true, force: true })
  }
}

interface Contender {
  readonly name: string
  readonly port: number
  readonly path: string
  readonly requests: number
}

async function inTurn(
  client: ReturnType<typeof fork>,
  contenders: readonly Contender[],
): Promise<PageSpeed[]> {
  const sums = contenders.map(() => ({ seconds: 0, micros: 0, requests: 0 }))
  // Round 0 warms up and is not counted.
  for (let round = 0; round <= rounds; round++) {
    for (const [k, { port, path, requests }] of contenders.entries()) {
      const cpu = process.cpuUsage()
      const begun = performance.now()
      client.send({ port, path, requests, connections } satisfies Round)
      const [answer] = (await once(client, 'message')) as [{ done: boolean; why?: string }]
      if (!answer.done) throw new Error(answer.why)
      const spent = process.cpuUsage(cpu)
      if (round === 0) continue
      const sum = sums[k]!
      sum.seconds += (performance.now() - begun) / 1000
      sum.micros += spent.user + spent.system
      sum.requests += requests
    }
  }
  return Promise.all(
    contenders.map(async ({ name, port, path }, k) => {
      const { seconds, micros, requests } = sums[k]!
      const bytes = (await (await fetch(`http://127.0.0.1:${port}${path}`)).arrayBuffer()).byteLength
      return { name, perSecond: requests / seconds, cpuMicros: micros / requests, bytes }
    }),
  )
}

/** A case with a complaint, no danger, and two answers more. @returns the address of its page */
async function tellCase(cases: CaseStore, { knowledge }: Prepared, kind: string): Promise<string> {
  const at = '2026-03-02T09:00:00.000Z'
  const { id } = await cases.begin({ kind, tool: 'Chair 2, black one', at })
  const danger = knowledge.steps.find((step) => step.form === 'danger' && step.kinds.includes(kind))
  const noDanger = (danger?.questions ?? []).map((question) => [question.id, 'no'] as const)
  await cases.append(
    id,
    [
      { type: 'answered', step: 'complaint', when: 'now', answers: { 'cuts-in-and-out': 'yes' } },
      { type: 'answered', step: danger?.id ?? 'danger', when: 'now', answers: Object.fromEntries(noDanger) },
      { type: 'answered', step: 'complaint', when: 'now', answers: { 'hot-near-head': 'no' } },
      { type: 'answered', step: 'complaint', when: 'now', answers: { 'slows-down': 'yes' } },
    ],
    at,
  )
  return `/cases/${id}`
}

/** One view without includes, views kept in memory: as little as Express and EJS can do for so many letters. */
function bareApp(folder: string, size: number): Express {
  const line = '<p class="line">Plain text of a page that says nothing, to be as long as the other.</p>\n'
  const head = '<!doctype html>\n<title><%= page.title %></title>\n'
  writeFileSync(
    join(folder, 'bare.ejs'),
    head + line.repeat(Math.ceil(size / line.length)).slice(0, size - 60),
  )
  const app = express()
  app.disable('x-powered-by')
  app.enable('view cache')
  app.engine('ejs', (path: string, data: object, done: (error: unknown, html?: string) => void) => {
    ejs.renderFile(path, data, { cache: true }).then((html) => done(null, html), done)
  })
  app.set('view engine', 'ejs')
  app.set('views', folder)
  app.get('/', (_req, res) => res.render('bare', { page: { title: 'Bare' } }))
  return app
}
