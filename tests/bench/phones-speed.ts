/**
 * Eight phones walk through cases, each with an address of its own and a second of thought before each answer, while
 * somebody else turns light pages; with a number, one more phone sends so many assessments at a time without end. Prints
 * what each waits for and the memory of the server. Run: node server/run.mjs tests/bench/phones-speed.ts [seconds] [at a time]
 */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { Agent, request } from 'node:http'
import { loadavg, tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import type { CaseView } from '../../shared/api.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { generator } from '../study/random-rulebook.js'
import { knowledge } from '../the-rulebook.js'

const port = Number(process.env['PORT'] ?? 4569)
const lasting = Number(process.argv[2] ?? 25) * 1000
const flood = Number(process.argv[3] ?? 0)
const phones = 8
const thought = 1000

type Answer = { readonly status: number; readonly text: string }
type Ask = (method: string, path: string, body?: unknown) => Promise<Answer>
const took: Record<string, number[]> = {}
let going = true

/** Somebody with an address of their own (all of 127.0.0.0/8 is this machine on Linux). */
function device(last: number): Ask {
  const agent = new Agent({ keepAlive: true, localAddress: `127.0.0.${last}` })
  return (method, path, body) =>
    new Promise((resolve, reject) => {
      const headers = body === undefined ? {} : { 'content-type': 'application/json' }
      const sent = request({ host: '127.0.0.1', port, path, method, agent, headers }, (res) => {
        let text = ''
        res.on('data', (more) => (text += String(more)))
        res.on('end', () => resolve({ status: res.statusCode ?? 0, text }))
      })
      sent.on('error', reject).end(body === undefined ? undefined : JSON.stringify(body))
    })
}

async function timed(what: string, work: Promise<Answer>): Promise<Answer> {
  const begun = performance.now()
  const answer = await work
  ;(took[what] ??= []).push(performance.now() - begun)
  return answer
}

/** One case after the other: no danger, every fourth answer a yes, no fix cures. */
async function walk(number: number): Promise<void> {
  const ask = device(number + 2)
  const random = generator(number + 1)
  const kind = knowledge.kinds[number % 2]!.id
  await wait((number * thought) / phones)
  while (going) {
    let view = JSON.parse((await ask('POST', '/api/cases', { kind, tool: 'Chair' })).text) as CaseView
    const say = async (path: string, body: unknown): Promise<boolean> => {
      const { status, text } = await timed('an answer', ask('POST', `/api/cases/${view.id}/${path}`, body))
      if (status === 200) view = JSON.parse(text) as CaseView
      return status === 200
    }
    let onward = await say('answers', { answers: {}, words: 'it runs badly', step: 'complaint' })
    for (let screens = 0; onward && going && screens < 12; screens++) {
      await timed('the page after it', ask('GET', `/cases/${view.id}`))
      await wait(thought * (0.7 + 0.6 * random()))
      const { step, id, questions } = view.assessment.next
      const danger = questions.every((question) => view.assessment.unsettled.includes(question))
      const answers = Object.fromEntries(
        questions.map((question) => [question, !danger && random() < 0.25 ? 'yes' : 'no']),
      )
      if (step === 'fix') onward = await say('cannot-do', { id, can: false })
      else if (step !== 'ask' && step !== 'check') onward = false
      // a reading is no yes or no
      else onward = (await say('answers', { answers })) || (await say('cannot-do', { id, can: false }))
    }
  }
}

async function turnLightPages(): Promise<void> {
  const ask = device(100)
  for (; going; await wait(40)) await timed('a light page', ask('GET', '/tools'))
}

async function floodIt(): Promise<void> {
  const ask = device(200)
  const kind = knowledge.kinds[0]!.id
  const dangers = bookOf(knowledge, kind).steps.filter(({ form }) => form === 'danger')
  const answers = Object.fromEntries(dangers.flatMap((step) => step.questions.map(({ id }) => [id, 'no'])))
  let sent = 0
  const one = async (): Promise<void> => {
    while (going) {
      const shop = { rate: 1 + sent++ / 1000 }
      const { status, text } = await timed('the flood', ask('POST', '/api/assess', { kind, answers, shop }))
      if (status !== 200) throw new Error(text)
    }
  }
  await Promise.all(Array.from({ length: flood }, one))
}

const folder = mkdtempSync(join(tmpdir(), 'clipperwright-phones-'))
const server = spawn(process.execPath, ['server/run.mjs', 'server/start.ts'], {
  cwd: fileURLToPath(new URL('../../', import.meta.url)),
  env: { ...process.env, PORT: String(port), HOST: '127.0.0.1', DATA_DIR: folder, KEEP_BACKUPS: '0' },
  stdio: ['ignore', 'pipe', 'inherit'],
})
const proc = (file: string): string => readFileSync(`/proc/${server.pid}/${file}`, 'utf8')
const megabytes = (): number => Math.round(Number(/VmRSS:\s+(\d+)/.exec(proc('status'))![1]) / 1024)
const cpuSeconds = (): number => {
  const fields = proc('stat').split(') ')[1]!.split(' ')
  return (Number(fields[11]) + Number(fields[12])) / 100
}
try {
  for await (const line of createInterface(server.stdout)) if (line.startsWith('Stop it')) break
  await wait(3000)
  const [memory, cpu] = [megabytes(), cpuSeconds()]
  setTimeout(() => (going = false), lasting)
  await Promise.all([...Array.from({ length: phones }, (_, k) => walk(k)), turnLightPages(), floodIt()])
  for (const [what, times] of Object.entries(took)) {
    const inOrder = times.sort((a, b) => a - b)
    const at = (share: number): string => inOrder[Math.floor(share * (times.length - 1))]!.toFixed(0)
    console.log(`${what}: median ${at(0.5)} ms, 99 in 100 ${at(0.99)}, most ${at(1)}, of ${times.length}`)
  }
  console.log(
    `memory ${memory} to ${megabytes()} MB, ${(cpuSeconds() - cpu).toFixed(1)} s of processor in ${lasting / 1000} s, load ${loadavg()[0]!.toFixed(1)}`,
  )
} finally {
  server.kill('SIGTERM')
  await once(server, 'exit')
  rmSync(folder, { recursive: true, force: true })
}
