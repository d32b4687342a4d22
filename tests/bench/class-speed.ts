/**
 * A class of ten at one server of its own process: each makes a move every two seconds for a minute and opens the
 * page after it, then all ten end within three seconds. Prints how long a move and a page take, how long until all
 * ten debriefs are there, and the processor time of the server. Run: node server/run.mjs tests/bench/class-speed.ts
 */
import { spawn } from 'node:child_process'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { cpus, loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { prepare } from '../../server/diagnosis/prepare.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import type { PracticeMove } from '../../shared/practice.js'
import { makeMove } from '../../server/practice/moves.js'
import { keyOf } from '../../server/pages/practice/move-key.js'
import { careful, exerciseOf } from '../practice/bench.js'

const port = Number(process.env['PORT'] ?? 4567)
const base = `http://127.0.0.1:${port}`
const people = 10
const every = 2000
const lasting = 60_000

const seed = 20260302
const set = {
  level: 'sweeping-the-floor',
  kind: 'universal-motor',
  seed: String(seed),
  'cause-1': 'dull-blade',
}
const setting = { hideSuspects: false, hidePrices: false, causes: ['dull-blade'] }

/** Each learner's moves, worked out before the clock runs; repairs left out, so that nobody is done early. */
async function movesOf(number: number): Promise<PracticeMove[]> {
  const prepared = await ready
  const desk = await layOut(prepared, exerciseOf({ kind: set.kind, level: set.level, seed, setting }))
  let now = startOf(desk)
  const moves: PracticeMove[] = []
  const most = lasting / every
  for (let turn = 0; moves.length < most && turn < 400; turn++) {
    const move = await careful(number, 1000)(desk, now, turn)
    if (move.type === 'tried' || move.type === 'ended' || move.type === 'disinfected') continue
    const done = await makeMove(desk, now, move)
    if (done.refused !== undefined || done.after.over !== undefined) continue
    moves.push(move)
    now = done.after
  }
  return moves
}
const ready = prepare(loadKnowledge())

const post = async (path: string, fields: Record<string, string>): Promise<string> => {
  const response = await fetch(`${base}${path}`, {
    method: 'POST',
    body: new URLSearchParams(fields),
    redirect: 'manual',
  })
  const text = await response.text()
  if (response.status !== 303) throw new Error(`${path}: ${response.status} ${text.slice(0, 300)}`)
  return response.headers.get('location')!.split('#')[0]!
}

const rank = (times: readonly number[], share: number): string => {
  const inOrder = [...times].sort((a, b) => a - b)
  return `${Math.round(inOrder[Math.min(inOrder.length - 1, Math.floor(share * inOrder.length))]!)} ms`
}

/** Processor seconds of a process so far: user and system time of Linux's /proc, in ticks of a hundredth. */
function cpuSeconds(pid: number): number {
  const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]!.split(' ')
  return (Number(fields[11]) + Number(fields[12])) / 100
}

const all = await Promise.all(Array.from({ length: people }, (_, k) => movesOf(k + 1)))
console.log(`moves each: ${all.map((moves) => moves.length).join(' ')}`)

const folder = mkdtempSync(join(tmpdir(), 'clipperwright-class-'))
const env = { ...process.env, PORT: String(port), DATA_DIR: folder, NODE_ENV: 'production' }
const server = spawn(process.execPath, ['server/run.mjs', 'server/start.ts'], {
  env,
  stdio: ['ignore', 'ignore', 'inherit'],
})
try {
  for (let k = 0; k < 120; k++) {
    const up = await fetch(`${base}/practice`).then(
      ({ status }) => status < 500,
      () => false,
    )
    if (up) break
    await wait(500)
  }
  const home = await post('/practice/classes', { name: 'First years' })
  for (let k = 0; k < people; k++) await post(`${home}/people`, { add: `Learner ${k}` })
  await post(`${home}/set`, { ...set, do: 'set' })
  const page = await (await fetch(`${base}${home}`)).text()
  const learners = [...page.matchAll(/name="learner" value="([^"]+)"/g)].map((match) => match[1]!)
  const setId = /id="set-([a-z0-9-]+)"/.exec(page)![1]!
  const cpuAt = cpuSeconds(server.pid!)
  const moveTimes: number[] = []
  const pageTimes: number[] = []
  const addresses = await Promise.all(
    learners.map((learner) => post('/practice/exercises', { learner, set: setId })),
  )
  const began = performance.now()
  await Promise.all(
    addresses.map(async (address, k) => {
      for (const [n, move] of all[k]!.entries()) {
        if (move.type === 'spread') continue
        await wait(Math.max(0, began + n * every + (k * every) / people - performance.now()))
        const sent = performance.now()
        const to = await post(`${address}/moves`, { seen: String(n), move: keyOf(move) })
        const answered = performance.now()
        await (await fetch(`${base}${to}`)).text()
        moveTimes.push(answered - sent)
        pageTimes.push(performance.now() - answered)
      }
    }),
  )
  const cpuMoves = cpuSeconds(server.pid!) - cpuAt
  const ending = performance.now()
  const waits = await Promise.all(
    addresses.map(async (address, k) => {
      await wait(k * 300)
      await post(`${address}/moves`, { seen: String(all[k]!.length), move: 'ended/set-aside' })
      const over = performance.now()
      for (;;) {
        const response = await fetch(`${base}${address}/debrief`)
        await response.text()
        if (response.status !== 200) throw new Error(`debrief: ${response.status}`)
        if (response.headers.get('refresh') === null) break
        await wait(500)
      }
      return performance.now() - over
    }),
  )
  const total = performance.now() - ending
  console.log(
    `${cpus()[0]!.model}, ${cpus().length} cores, load ${loadavg()
      .map((it) => it.toFixed(1))
      .join(' ')}`,
  )
  console.log(`a move: median ${rank(moveTimes, 0.5)}, p99 ${rank(moveTimes, 0.99)} (${moveTimes.length})`)
  console.log(`the page after it: median ${rank(pageTimes, 0.5)}, p99 ${rank(pageTimes, 0.99)}`)
  console.log(
    `all ten debriefs: ${Math.round(total)} ms after the first ended; one waits ${rank(waits, 0.5)}, at most ${rank(waits, 1)}`,
  )
  const cpuEnd = cpuSeconds(server.pid!) - cpuAt - cpuMoves
  console.log(
    `processor time of the server: ${cpuMoves.toFixed(1)} s in that minute, ${cpuEnd.toFixed(1)} s for the debriefs`,
  )
} finally {
  server.kill()
  rmSync(folder, { recursive: true, force: true })
}
