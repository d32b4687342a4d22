/** The real process: what it prints, how it ends. */
import type { ChildProcess } from 'node:child_process'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { createServer } from 'node:net'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, afterEach, beforeAll, expect, it, vi } from 'vitest'
import { KnowledgeError } from '../../server/errors.js'
import { configFrom } from '../../server/wiring/config.js'
import { runUntilStopped, serve } from '../../server/wiring/serve.js'
import { goodFiles } from '../reload/watched-bench.js'
import { writtenRules } from '../rulebook/tiny-rulebook.js'
import { runner } from '../runner.js'

const server = (name: string) => fileURLToPath(new URL(`../../server/${name}`, import.meta.url))
let folder: string
/** a small rulebook, where it is no matter which */
let rules: string
const started: ChildProcess[] = []
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'start-test-'))
  rules = writtenRules(goodFiles())
})
afterEach(() => {
  for (const child of started.splice(0)) child.kill('SIGKILL')
})
afterAll(() => [folder, rules].forEach((it) => rmSync(it, { recursive: true })))

function run(script: string, env: Record<string, string>) {
  const child = spawn(process.execPath, [runner, server(script)], {
    env: { PATH: process.env['PATH'], PORT: '0', DATA_DIR: join(folder, 'data'), WATCH_RULES: 'no', ...env },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  started.push(child)
  let [out, err] = ['', '']
  child.stderr.on('data', (text: Buffer) => (err += text.toString()))
  const address = new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (text: Buffer) => {
      out += text.toString()
      const found = /http:\/\/\S+:\d+/.exec(out)?.[0]
      if (found && out.includes('Ctrl+C')) resolve(found)
    })
    child.once('exit', () => reject(new Error(`it ended: ${out}${err}`)))
  })
  address.catch(() => {}) // a start that is meant to fail has no address
  const ended = once(child, 'exit').then(([code]) => code as number | null)
  return { child, address, ended, out: () => out, err: () => err }
}

it('starts with nothing to configure but a free port, answers, and closes cleanly when told to stop', async () => {
  const { child, address, ended, err } = run('start.ts', {})
  const home = await address
  expect(home).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/)
  const begun = await fetch(`${home}/api/cases`, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ kind: 'universal-motor', tool: 'Chair 2' }),
  })
  expect(begun.status).toBe(201)
  const { id } = (await begun.json()) as { id: string }
  child.kill('SIGTERM')
  expect(await ended).toBe(0)
  expect(err()).toBe('')

  const again = await serve(configFrom({ ...small(), DATA_DIR: join(folder, 'data') }))
  const listed = await fetch(`${again.addresses[0]}/api/cases`)
  expect(await listed.json()).toMatchObject({ cases: [{ id, tool: 'Chair 2' }] })
  await again.close()
})

/** Settings of a start that takes no time: to prepare the whole rulebook takes seconds. */
const small = () => ({ PORT: '0', RULES_DIR: rules, WATCH_RULES: 'no' })

it('lists every setting that it cannot use, and ends with code 1', async () => {
  const { code, err } = await startHere({ PORT: 'many', HOST: 'a b' })
  expect(code).toBe(1)
  expect(err).toMatch(/2 settings.*PORT="many".*HOST="a b"/s)
  expect(err).not.toMatch(/\bat \S+ \(/)
})

/** As `start.ts`, but within this process: to load the program anew for each takes seconds. */
async function startHere(
  env: Record<string, string>,
): Promise<{ code: typeof process.exitCode; err: string }> {
  const printed = vi.spyOn(console, 'error').mockImplementation(() => {})
  const before = process.exitCode
  const settings = { ...small(), DATA_DIR: join(folder, 'data'), ...env }
  await runUntilStopped(() => serve(configFrom(settings)))
  const told = { code: process.exitCode, err: printed.mock.calls.map(String).join('\n') }
  process.exitCode = before
  printed.mockRestore()
  return told
}

it('says in a sentence that the port is in use, and ends with code 1', async () => {
  const other = createServer().listen(0, '127.0.0.1')
  await once(other, 'listening')
  const { port } = other.address() as AddressInfo
  const { code, err } = await startHere({ PORT: String(port) })
  expect(code).toBe(1)
  expect(err).toMatch(new RegExp(`^Port ${port} on 127\\.0\\.0\\.1 is in use.*PORT=${port + 1}`))
  expect(err.split('\n')).toHaveLength(1)
  other.close()
})

it('says where it cannot keep the cases', async () => {
  const file = join(folder, 'in-the-way')
  writeFileSync(file, '')
  const { code, err } = await startHere({ DATA_DIR: file })
  expect(code).toBe(1)
  expect(err).toMatch(/in-the-way.*set DATA_DIR to a folder/)
  expect(err.split('\n')).toHaveLength(1)
})

it('says that the file of cases is damaged, and leaves it as it is', async () => {
  const dataDir = join(folder, 'damaged')
  mkdirSync(dataDir)
  const file = join(dataDir, 'cases.db')
  writeFileSync(file, 'a letter to the barber, saved under the wrong name '.repeat(40))
  const before = readFileSync(file)
  const { code, err } = await startHere({ DATA_DIR: dataDir })
  expect(code).toBe(1)
  expect(err).toMatch(/cases\.db is damaged, or no file of this program\. Move it/)
  expect(err.split('\n')).toHaveLength(1)
  expect(readFileSync(file).equals(before)).toBe(true)
})

it('tells the addresses for a phone when it is open to the network', async () => {
  const serving = await serve(configFrom({ ...small(), HOST: '0.0.0.0', DATA_DIR: join(folder, 'open') }))
  const [here, ...others] = serving.addresses
  expect(here).toMatch(/^http:\/\/127\.0\.0\.1:\d+$/)
  for (const address of others) {
    expect(address).toContain('(for a phone in the same network)')
    expect(address).not.toContain('127.0.0.1')
  }
  await serving.close()
})

it('shows the demo from a folder that is gone afterwards, and leaves the data folder alone', async () => {
  const dataDir = join(folder, 'untouched')
  const temporary = join(folder, 'tmp')
  mkdirSync(temporary)
  const { child, address, ended } = run('demo/start-demo.ts', { DATA_DIR: dataDir, TMPDIR: temporary })
  const { cases } = (await (await fetch(`${await address}/api/cases`)).json()) as { cases: unknown[] }
  expect(cases.length).toBeGreaterThanOrEqual(8)
  const ours = () => readdirSync(temporary).filter((name) => name.startsWith('clipperwright-demo-'))
  expect(ours()).toHaveLength(1)
  // Ctrl+C goes to every process of the terminal, and a runner passes it on once more.
  child.kill('SIGINT')
  child.kill('SIGTERM')
  expect(await ended).toBe(0)
  expect(ours()).toEqual([])
  expect(existsSync(dataDir)).toBe(false)
})

it('lists every mistake of the rulebook and ends with code 1', async () => {
  const printed = vi.spyOn(console, 'error').mockImplementation(() => {})
  const before = process.exitCode
  const problems = ['worn-brushes', 'dry-bearing'].map((id) => ({
    file: `rules/causes/${id}.json`,
    field: 'source',
    message: 'is missing',
    remedy: 'name a key of rules/sources.json',
  }))
  const swept = vi.fn()
  await runUntilStopped(() => Promise.reject(new KnowledgeError(problems)), swept)
  expect(process.exitCode).toBe(1)
  process.exitCode = before
  expect(printed).toHaveBeenCalledOnce()
  const [text] = printed.mock.calls[0] as [string]
  for (const { file } of problems) expect(text).toContain(`${file}: source: is missing; name a key`)
  expect(text).not.toMatch(/\bat \S+ \(/)
  expect(swept).toHaveBeenCalledOnce()
  printed.mockRestore()
})
