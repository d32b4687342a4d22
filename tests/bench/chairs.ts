/**
 * `npm run chairs -- [requests]`: answers a second of one process and of four over one PostgreSQL database, the memory of
 * each, and how long a light page takes while cards are compiled. A measurement, never a test: it says what this machine
 * did beside whatever else it had to do.
 */
import { fork, spawn } from 'node:child_process'
import type { ChildProcess } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { availableParallelism, loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { newCaseId } from '../../server/cases/case-id.js'
import { putDemoCases } from '../../server/demo/demo-cases.js'
import { putDemoShop } from '../../server/demo/demo-shop.js'
import { openShopDatabase } from '../../server/store/shop-database.js'
import { noPostgres, startPostgres } from '../store/postgres-server.js'
import { knowledge } from '../the-rulebook.js'
import type { Round } from './load-client.js'

const connections = 4

interface Chair {
  readonly process: ChildProcess
  readonly port: number
}

async function sitDown(url: string, port: number): Promise<Chair> {
  const its = spawn(process.execPath, ['server/run.mjs', 'server/start.ts'], {
    cwd: fileURLToPath(new URL('../../', import.meta.url)),
    env: {
      ...process.env,
      DATABASE_URL: url,
      PORT: String(port),
      HOST: '127.0.0.1',
      DATA_DIR: join(tmpdir(), `chairs-${process.pid}`),
      KEEP_BACKUPS: '0',
      WATCH_RULES: 'no',
    },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  let open = false
  for await (const line of createInterface(its.stdout)) if ((open = line.startsWith('Stop it'))) break
  if (!open) throw new Error('a server did not start')
  return { process: its, port }
}

const standUp = async ({ process: its }: Chair): Promise<void> => {
  its.kill('SIGTERM')
  await once(its, 'exit')
}

const megabytes = ({ process: { pid } }: Chair): number =>
  Math.round(Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1] ?? 0) / 1024)

/** @returns answers a second over all chairs together */
async function answersASecond(chairs: readonly Chair[], path: string, requests: number): Promise<number> {
  const clients = chairs.map(() => fork(fileURLToPath(new URL('load-client.ts', import.meta.url))))
  const round = async (each: number): Promise<number> => {
    const begun = performance.now()
    await Promise.all(
      clients.map(async (client, k) => {
        client.send({ port: chairs[k]!.port, path, connections, requests: each } satisfies Round)
        const [{ done, why }] = (await once(client, 'message')) as [{ done: boolean; why?: string }]
        if (!done) throw new Error(why)
      }),
    )
    return (performance.now() - begun) / 1000
  }
  try {
    await round(20)
    return requests / (await round(Math.ceil(requests / chairs.length)))
  } finally {
    for (const client of clients) client.kill()
  }
}

/** Milliseconds that a light page took, asked for every 50 ms while `heavy` goes on; least first. */
async function lightMeanwhile(home: string, heavy: () => Promise<unknown>): Promise<number[]> {
  const took: number[] = []
  let going = true
  const work = heavy().finally(() => (going = false))
  while (going) {
    const begun = performance.now()
    await (await fetch(`${home}/tools`)).text()
    took.push(performance.now() - begun)
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
  await work
  return took.sort((a, b) => a - b)
}

async function measure(requests: number): Promise<void> {
  const server = await startPostgres()
  const url = await server.freshUrl()
  const database = await openShopDatabase(url)
  const ids = { newId: newCaseId, newKey: newCaseId }
  const stores = await database.open((await database.shops())[0]!.id, ids)
  await putDemoCases(stores.cases, knowledge, new Date())
  await putDemoShop(stores, knowledge, 'Europe/London', new Date())
  const [open] = await stores.cases.list({ open: true, said: true, most: 1 })
  await database.close()
  const rate = async (count: number): Promise<void> => {
    const chairs: Chair[] = []
    for (let k = 0; k < count; k++) chairs.push(await sitDown(url, 3400 + k))
    try {
      for (const [what, path] of [
        ['case', `/cases/${open!.id}`],
        ['tools', '/tools'],
      ] as const)
        console.log(
          `${count} process(es), page ${what}: ${(await answersASecond(chairs, path, requests)).toFixed(0)} answers a second`,
        )
      console.log(`memory of each: ${chairs.map(megabytes).join(', ')} MB`)
      if (count === 1) await latency(`http://127.0.0.1:${chairs[0]!.port}`)
    } finally {
      await Promise.all(chairs.map(standUp))
    }
  }
  try {
    await rate(1)
    await rate(4)
  } finally {
    await server.stop()
  }
  console.log(`${availableParallelism()} cores, load ${loadavg()[0]!.toFixed(1)}`)
}

async function latency(home: string): Promise<void> {
  const idle = await lightMeanwhile(home, () => new Promise((resolve) => setTimeout(resolve, 3000)))
  const kind = knowledge.kinds[0]!.id
  const questions = knowledge.steps
    .filter(({ form, kinds }) => form === 'ask' && kinds.includes(kind))
    .flatMap((step) => step.questions.map(({ id }) => id))
  const cards = await lightMeanwhile(home, async () => {
    for (const question of questions.slice(0, 6)) await fetch(`${home}/practice/cards/${kind}/${question}`)
  })
  for (const [when, took] of [
    ['alone', idle],
    ['while cards are compiled', cards],
  ] as const)
    console.log(
      `a light page ${when}: median ${took[Math.floor(took.length / 2)]!.toFixed(0)} ms, most ${took.at(-1)!.toFixed(0)} ms, of ${took.length}`,
    )
}

if (noPostgres === null) await measure(Number(process.argv[2] ?? 600))
else console.error(noPostgres)
