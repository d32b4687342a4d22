/** The real process: it watches by itself, says what it did, and still ends when told to. */
import type { ChildProcess } from 'node:child_process'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import { afterEach, expect, it, vi } from 'vitest'
import { configFrom } from '../../server/wiring/config.js'
import { serve } from '../../server/wiring/serve.js'
import { giveUp } from '../give-up.js'
import { writtenRules } from '../rulebook/tiny-rulebook.js'
import { goodFiles } from './watched-bench.js'
import { runner } from '../runner.js'

const start = fileURLToPath(new URL('../../server/start.ts', import.meta.url))
let child: ChildProcess | undefined
const folders: string[] = []
afterEach(() => {
  child?.kill('SIGKILL')
  folders.splice(0).forEach((folder) => rmSync(folder, { recursive: true, force: true }))
})

function run() {
  const dir = writtenRules(goodFiles())
  const data = mkdtempSync(join(tmpdir(), 'reload-test-'))
  folders.push(dir, data)
  const process_ = spawn(process.execPath, [runner, start], {
    env: { PATH: process.env['PATH'], PORT: '0', DATA_DIR: data, RULES_DIR: dir },
    stdio: ['ignore', 'pipe', 'pipe'],
  })
  child = process_
  let out = ''
  process_.stdout.on('data', (text: Buffer) => (out += text.toString()))
  process_.stderr.on('data', (text: Buffer) => (out += text.toString()))
  const ended = once(process_, 'exit').then(([code]) => code as number | null)
  const says = async (words: RegExp) => {
    for (let waited = 0; !words.test(out); waited += 50) {
      if (waited > giveUp || process_.exitCode !== null) throw new Error(`it never said ${words}: ${out}`)
      await pause(50)
    }
  }
  return { dir, says, ended, stop: () => process_.kill('SIGTERM') }
}

it('takes a change over, keeps a mistake out, and closes cleanly', async () => {
  const { dir, says, ended, stop } = run()
  await says(/Ctrl\+C/)
  const path = join(dir, 'sources.json')
  // The folders may not all be watched yet when the address is out: it is written until it is seen.
  let times = 0
  const seen = says(/\d\d:\d\d rules\/ has changed and is taken over: sources\./)
  const writing = setInterval(
    () =>
      writeFileSync(path, JSON.stringify({ guess: { standing: 'estimate', title: `a guess ${++times}` } })),
    1500,
  )
  await seen
  clearInterval(writing)
  writeFileSync(path, '{')
  await says(
    /1 problem in rules\/:\n.*sources\.json: line 1, column 2: this is not valid JSON.*\n(.*\n)*The shop runs on/,
  )
  stop()
  expect(await ended).toBe(0)
})

it('does not look when it is told not to', async () => {
  const dir = writtenRules(goodFiles())
  const data = mkdtempSync(join(tmpdir(), 'reload-test-'))
  folders.push(dir, data)
  const said = vi.spyOn(console, 'log').mockImplementation(() => {})
  const settings = { PORT: '0', DATA_DIR: data, RULES_DIR: dir, WATCH_RULES: 'no' }
  const serving = await serve(configFrom(settings))
  writeFileSync(join(dir, 'sources.json'), '{')
  await pause(1500)
  await serving.close()
  expect(said).not.toHaveBeenCalled()
  said.mockRestore()
})
