/** However little is known, it ends; and what was said outlives the server. */
import type { ChildProcess } from 'node:child_process'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { Barber, mouse } from './barber.js'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'

let bench: Bench
const folder = mkdtempSync(join(tmpdir(), 'clipperwright-browser-'))
const running: ChildProcess[] = []
beforeAll(async () => {
  bench = await openBench()
})
afterAll(async () => {
  for (const child of running) child.kill('SIGKILL')
  await bench.close()
  rmSync(folder, { recursive: true, force: true })
})

/** `npm start` without npm: a process of its own, with a folder that outlives it. */
async function start(): Promise<{ readonly base: string; kill(): Promise<void> }> {
  const script = fileURLToPath(new URL('../../server/start.ts', import.meta.url))
  const child = spawn(process.execPath, ['--import', 'tsx', script], {
    env: { PATH: process.env['PATH'], PORT: '0', DATA_DIR: folder, WATCH_RULES: 'no' },
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  running.push(child)
  const ended = once(child, 'exit')
  let out = ''
  const base = await new Promise<string>((resolve, reject) => {
    child.stdout.on('data', (text: Buffer) => {
      const found = /http:\/\/\S+:\d+/.exec((out += text.toString()))
      if (found && out.includes('Ctrl+C')) resolve(found[0])
    })
    void ended.then(() => reject(new Error(`the server did not start: ${out}`)))
  })
  return { base, kill: () => (child.kill('SIGKILL'), ended.then(() => {})) }
}

it('"can’t tell" to everything comes to an end, and asks nothing twice', async () => {
  const page = await bench.open(phone)
  const barber = new Barber(page, mouse, bench.knowledge)
  await barber.begin([])
  await barber.lookForDanger([], 'cant-tell')
  const seen: string[] = []
  const most = 80
  let further = 3
  for (let screen = 0; screen < most; screen++) {
    if ((await page.locator('input[name="asked"]').count()) > 0) {
      seen.push(await page.locator('input[name="asked"]').inputValue())
      await barber.answer([], 'cant-tell')
    } else if (await barber.atFix()) {
      seen.push(await barber.heading())
      await barber.tryFix('none of them')
    } else if ((await page.locator('form[action$="/now"]').count()) > 0) await barber.still()
    else if (further-- === 0 || !(await barber.lookFurther())) break
  }
  expect(new Set(seen).size).toBe(seen.length)
  await barber.pressAt('.thumb button[name="state"]')
  expect(await page.locator('.line .state-boxed-for-service, .line .state-set-aside').count()).toBe(1)
  expect(bench.complaints).toEqual([])
  await page.context().close()
})

it('a server that is killed and started again on the same folder shows the case as it was', async () => {
  const first = await start()
  const page = await bench.open({ ...phone, baseURL: first.base })
  const barber = new Barber(page, mouse, bench.knowledge)
  const home = await barber.begin(['cuts-in-and-out'], 'Chair 9, chrome')
  await barber.lookForDanger()
  await barber.answer([])
  const shown = await page.locator('main').innerText()
  await first.kill()

  const second = await start()
  await page.goto(`${second.base}${home}`)
  expect(await page.locator('main').innerText()).toBe(shown)
  await page.goto(second.base)
  expect(await page.locator('main').innerText()).toContain('Chair 9, chrome')
  await second.kill()
  await page.context().close()
})
