/**
 * `npm run hostile -- [requests]`: malformed, oversized, deep, injected and out of order, over every route that the
 * OpenAPI document and the forms of the pages name.
 */
import { once } from 'node:events'
import type { AddressInfo } from 'node:net'
import { fileURLToPath } from 'node:url'
import { benchWith, OPENED } from '../api/bench.js'
import { operations } from '../api/documented.js'
import { generator } from '../study/random-rulebook.js'

export interface Attacked {
  requests: number
  /** by hundreds: `4xx` */
  statuses: Record<string, number>
  routes: number
  slowestMs: number
  /** most processor time that went by while one was answered, that of its neighbours included */
  dearestMs: number
  /** what should not be, each with the request that brought it about */
  faults: string[]
}

/** Marked, so that it is found again where it is echoed. */
const nasty = [
  '<script>zq(1)</script>',
  '"><img src=x onerror=zq(1)>',
  "' or 1=1 --",
  '{{7*7}}<%= 7*7 %>',
  '../../../../etc/passwd',
  '%2e%2e%2f',
  '\u0000',
  '\u202Ezq',
  '__proto__',
  'constructor',
  '-1',
  '1e999',
  'NaN',
  '',
  'x'.repeat(5000),
  '\uFFFE',
  '𝒵'.repeat(200),
] as const

interface Target {
  readonly method: 'GET' | 'POST'
  readonly path: string
  readonly json: boolean
  readonly fields: readonly string[]
}

export async function attack(requests: number, seed = 7): Promise<Attacked> {
  const bench = await benchWith()
  const server = bench.app.listen(0, '127.0.0.1')
  await once(server, 'listening')
  const home = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const random = generator(seed)
  const one = <Thing>(list: readonly Thing[]): Thing => list[Math.floor(random() * list.length)]!
  const found: Attacked = { requests: 0, statuses: {}, routes: 0, slowestMs: 0, dearestMs: 0, faults: [] }
  try {
    const { id } = await bench.cases.begin({ kind: 'bench-motor', tool: 'Chair 2', at: OPENED })
    const targets = [...(await formsFrom(home, ['/', `/cases/${id}`])), ...apiTargets(id)]
    found.routes = new Set(targets.map(({ method, path }) => `${method} ${path.split('?')[0]}`)).size
    while (found.requests < requests)
      await Promise.all(
        Array.from({ length: Math.min(8, requests - found.requests) }, () =>
          send(targets[found.requests % targets.length]!),
        ),
      )
  } finally {
    server.close()
    server.closeAllConnections()
    await bench.close()
  }
  return found

  async function send({ method, path, json, fields }: Target): Promise<void> {
    found.requests++
    const value = () => one(nasty)
    const names = [...fields, 'seen', '__proto__', value()]
    const sent = Array.from(
      { length: 1 + Math.floor(random() * 6) },
      () => [one(names), value()] as [string, string],
    )
    const odd = random()
    const at = odd < 0.15 ? path.replace(/[^/]+$/, encodeURIComponent(value())) : path
    const query = method === 'GET' ? `?${new URLSearchParams(sent).toString()}` : ''
    const body =
      method === 'GET'
        ? undefined
        : odd > 0.95
          ? '{"a":['.repeat(3000)
          : odd > 0.9
            ? value()
            : json
              ? JSON.stringify(Object.fromEntries(sent.map(([k, v]) => [k, odd > 0.6 ? { [v]: [v] } : v])))
              : new URLSearchParams(sent).toString()
    const type = odd > 0.98 ? 'text/plain' : json ? 'application/json' : 'application/x-www-form-urlencoded'
    const begun = performance.now()
    const cpu = process.cpuUsage()
    const res = await fetch(home + at + query, {
      method,
      redirect: 'manual',
      ...(body !== undefined && { body, headers: { 'content-type': type } }),
    })
    const text = await res.text()
    found.slowestMs = Math.max(found.slowestMs, performance.now() - begun)
    const { user, system } = process.cpuUsage(cpu)
    found.dearestMs = Math.max(found.dearestMs, Math.round((user + system) / 1000))
    const hundreds = `${Math.floor(res.status / 100)}xx`
    found.statuses[hundreds] = (found.statuses[hundreds] ?? 0) + 1
    const told = `${method} ${at.slice(0, 120)} ${String(body ?? query).slice(0, 160)} → ${res.status}`
    if (res.status >= 500) found.faults.push(`a fault of ours: ${told}`)
    if (/\bat \S+ \(|node_modules|file:\/\/|\.[tj]s:\d+:\d+/.test(text))
      found.faults.push(`a stack or a path: ${told}`)
    if ((res.headers.get('content-type') ?? '').includes('html') && /<script>zq|<img src=x/.test(text))
      found.faults.push(`an echo as it came: ${told}`)
  }
}

const apiTargets = (id: string): Target[] =>
  operations.map(({ method, path }) => ({
    method: method.toUpperCase() as Target['method'],
    path: `/api${path.replace('{id}', id)}`,
    json: true,
    fields: [
      'kind',
      'answers',
      'tool',
      'fix',
      'outcome',
      'questions',
      'stop',
      'by',
      'count',
      'figures',
      'forget',
      'find',
      'skip',
    ],
  }))

/** The forms and addresses of every page that links lead to, some hundred pages deep at most. */
async function formsFrom(home: string, starts: readonly string[]): Promise<Target[]> {
  const targets = new Map<string, Target>()
  const waiting = [...starts]
  const seen = new Set<string>()
  while (waiting.length > 0 && seen.size < 120) {
    const path = waiting.shift()!
    if (seen.has(path)) continue
    seen.add(path)
    const res = await fetch(home + path)
    const html = await res.text()
    if (!(res.headers.get('content-type') ?? '').includes('html')) continue
    targets.set(`GET ${path}`, {
      method: 'GET',
      path: path.split('?')[0]!,
      json: false,
      fields: ['q', 'find', 'at', 'kind', 'page'],
    })
    const inner = html.replaceAll('&amp;', '&')
    for (const [, href] of inner.matchAll(/href="(\/(?!assets)[^"#]*)/g)) waiting.push(href!)
    const fields = [...inner.matchAll(/name="([\w-]+)"/g)].map(([, name]) => name!)
    for (const [, action] of inner.matchAll(/(?:form)?action="(\/[^"]*)"/g))
      targets.set(`POST ${action!}`, { method: 'POST', path: action!, json: false, fields })
  }
  return [...targets.values()]
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const before = process.memoryUsage().rss
  const { faults, ...counts } = await attack(Number(process.argv[2] ?? 100_000))
  const megabytes = (bytes: number) => Math.round(bytes / 2 ** 20)
  console.log(counts, `${megabytes(before)} MB before, ${megabytes(process.memoryUsage().rss)} MB after`)
  console.log(faults.length === 0 ? 'no fault' : faults.slice(0, 20).join('\n'))
  process.exitCode = faults.length === 0 ? 0 : 1
}
