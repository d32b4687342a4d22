/**
 * Processor time of the thread that serves, for each page of the demo that links lead to (four of each sort at most), the
 * first time and again: what takes long is to be made on the second thread, or once. Linux only, because it reads what the
 * system has counted for that thread alone. Run: node server/run.mjs tests/bench/serving-speed.ts
 */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { readFileSync } from 'node:fs'
import { loadavg } from 'node:os'
import { createInterface } from 'node:readline'
import { setTimeout as wait } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'

const port = Number(process.env['PORT'] ?? 4570)
const home = `http://127.0.0.1:${port}`
const starts = [
  '/',
  '/cases',
  '/tools',
  '/practice',
  '/lab',
  '/rulebook',
  '/rulebook/proof',
  '/shop',
  '/care',
  '/parts',
]
const mostPages = 260
const mostAlike = 4

const server = spawn(process.execPath, ['server/run.mjs', 'server/demo/start-demo.ts'], {
  cwd: fileURLToPath(new URL('../../', import.meta.url)),
  env: { ...process.env, PORT: String(port), HOST: '127.0.0.1', WATCH_RULES: 'no' },
  stdio: ['ignore', 'pipe', 'inherit'],
})
/** Milliseconds; the first thread of a process has its number. */
const spent = (): number =>
  Number(readFileSync(`/proc/${server.pid}/task/${server.pid}/schedstat`, 'utf8').split(' ')[0]) / 1e6
/** Pages that differ by an id alone. */
const sortOf = (path: string): string =>
  path
    .split('?')[0]!
    .replace(/\/[a-z0-9]{6,}(?=\/|$)/g, '/…')
    .replace(/(rulebook\/\w+)\/[\w-]+/, '$1/…')

async function goRound(): Promise<{ path: string; took: number }[]> {
  const waiting = [...starts]
  const seen = new Set<string>()
  const alike = new Map<string, number>()
  const pages: { path: string; took: number }[] = []
  for (let path; (path = waiting.shift()) !== undefined && pages.length < mostPages;) {
    const sort = sortOf(path)
    if (seen.has(path) || alike.get(sort) === mostAlike) continue
    seen.add(path)
    alike.set(sort, (alike.get(sort) ?? 0) + 1)
    const before = spent()
    const res = await fetch(home + path)
    const text = await res.text()
    await wait(5)
    pages.push({ path, took: spent() - before })
    if (!(res.headers.get('content-type') ?? '').includes('html')) continue
    for (const [, href] of text.replaceAll('&amp;', '&').matchAll(/href="(\/(?!assets)[^"#]*)/g))
      waiting.push(href!)
  }
  return pages.sort((a, b) => b.took - a.took)
}

try {
  for await (const line of createInterface(server.stdout)) if (line.startsWith('Stop it')) break
  // until the second thread has prepared its rulebook
  await wait(5000)
  for (const round of ['the first time', 'again']) {
    const pages = await goRound()
    const over = pages.filter(({ took }) => took > 50).length
    console.log(`${round}: ${pages.length} pages, ${over} over 50 ms`)
    for (const { path, took } of pages.slice(0, 10)) console.log(`${took.toFixed(0).padStart(6)} ms  ${path}`)
  }
  console.log(`load ${loadavg()[0]!.toFixed(1)}`)
} finally {
  server.kill('SIGTERM')
  await once(server, 'exit')
}
