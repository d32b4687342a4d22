/** A real browser against the real server. The server is the caller's own; the browser is one for all files of a worker. */
import sparticuz from '@sparticuz/chromium'
import { mkdirSync, rmSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { chromium } from 'playwright-core'
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'
import type { Knowledge } from '../../shared/knowledge.js'
import type { CaseStore } from '../../server/cases/case-store.js'
import type { Register } from '../../server/register/register.js'
import { benchWith } from '../api/bench.js'
import { giveUp } from '../give-up.js'
import { knowledge } from '../the-rulebook.js'
import { inspector } from './inspection.js'
import type { Reach } from '../../server/diagnosis/plan/reach.js'

/** A phone held upright: 360 by 740 is what small phones of today show of a page. */
export const phone = {
  viewport: { width: 360, height: 740 },
  hasTouch: true,
  isMobile: true,
} as const satisfies BrowserContextOptions

export const desk = { viewport: { width: 1280, height: 900 } } as const satisfies BrowserContextOptions

export interface Bench {
  readonly base: string
  readonly knowledge: Knowledge
  readonly cases: CaseStore
  readonly register: Register
  /** Moves the clock of the server on. */
  wait(minutes: number): void
  /** What the browser's console complained of so far, in any page opened here. */
  readonly complaints: string[]
  open(options?: BrowserContextOptions): Promise<Page>
  /** A case past complaint and danger signs (all no), put there by forms without a browser. @returns its address */
  begun(complaint: readonly string[], tool?: string, kind?: string): Promise<string>
  /** One more page in the same browser session, as a second tab. */
  tab(context: BrowserContext): Promise<Page>
  close(): Promise<void>
}

/**
 * The application over the real rulebook, cases in memory, on a port of its own; and what the browser opens there.
 *
 * @param options.browser  one with flags of its own, closed by whoever launched it
 * @param options.rulebook another than the real one
 * @param options.far      how far its plans look, where that matters; one action unless told
 */
export async function openBench(
  options: { browser?: Browser; rulebook?: Knowledge; far?: Reach } = {},
): Promise<Bench> {
  const [{ app, cases, register, wait: later }, browser] = await Promise.all([
    benchWith({ knowledge: options.rulebook ?? knowledge, ...(options.far && { far: options.far }) }),
    options.browser ?? theBrowser(),
  ])
  const server = createServer((req, res) =>
    req.url === inspector.path
      ? res
          .setHeader('Content-Type', 'text/javascript')
          .setHeader('Cache-Control', 'max-age=3600')
          .end(inspector.source)
      : app(req, res),
  ).listen(0, '127.0.0.1')
  await new Promise((listening) => server.once('listening', listening))
  const base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  const complaints: string[] = []
  const contexts: BrowserContext[] = []
  const newContext = async (options: BrowserContextOptions) => {
    const context = await browser.newContext({ baseURL: base, ...options })
    context.setDefaultTimeout(giveUp / 4)
    contexts.push(context)
    return context
  }
  const tab = async (context: BrowserContext) => watched(await context.newPage(), complaints)
  return {
    base,
    knowledge,
    cases,
    register,
    complaints,
    wait: later,
    tab,
    begun: (complaint, tool = 'Chair 2', kind = 'universal-motor') =>
      begunAt(base, complaint, { tool, kind }),
    open: async (options = phone) => tab(await newContext(options)),
    close: async () => {
      await Promise.all(contexts.map((context) => context.close()))
      server.closeAllConnections()
      server.close()
    },
  }
}

async function begunAt(
  base: string,
  complaint: readonly string[],
  { tool, kind }: { tool: string; kind: string },
): Promise<string> {
  const send = async (address: string, fields: Record<string, string>): Promise<string> => {
    const body = new URLSearchParams(fields)
    const response = await fetch(`${base}${address}`, { method: 'POST', body, redirect: 'manual' })
    if (response.status !== 303) throw new Error(`${address}: ${response.status} ${await response.text()}`)
    return response.headers.get('location') ?? ''
  }
  const home = (await send('/cases', { kind, tool })).replace('/complaint', '')
  await send(`${home}/complaint`, {
    seen: '0',
    ...Object.fromEntries(complaint.map((id) => [`q-${id}`, 'yes'])),
  })
  await send(`${home}/danger`, { seen: '1', rest: 'no' })
  return home
}

/** Errors that a page writes to the console, and scripts that fail. A 4xx that a test provokes is no error. */
function watched(page: Page, complaints: string[]): Page {
  page.on('console', (message) => {
    if (message.type() !== 'error' && message.type() !== 'warning') return
    if (/status of (404|409|422)/.test(message.text())) return
    complaints.push(`${page.url()}: ${message.text()}`)
  })
  page.on('pageerror', (error) => complaints.push(`${page.url()}: ${error.message}`))
  return page
}

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  // drawing by the processor needs no process of its own
  '--in-process-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // one site and one process for it: every other costs time and guards nothing here
  '--no-zygote',
  '--renderer-process-limit=1',
  '--process-per-site',
  '--disable-site-isolation-trials',
  '--disable-lcd-text',
  // two cores have enough to do: what scripts leave is collected where they run, a fifth of the browser's work less
  '--js-flags=--single-threaded',
]

/** With next to no room for pictures next to nothing is drawn: where nobody looks, a fifth of the browser's work less. */
const unseen = '--force-gpu-mem-available-mb=1'

let launched: Promise<Browser> | undefined

/** Started by the first that asks, and gone with the worker: to start one takes longer than most of what it is for. */
const theBrowser = (): Promise<Browser> => (launched ??= launch([unseen]))

/** @param more flags beside the usual ones */
export async function launch(more: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: await unpacked(), args: [...flags, ...more], timeout: giveUp })
}

/**
 * Where the browser lies. The first who asks unpacks it, which takes seconds, and the package takes a file
 * that is half written for a whole one; so workers wait for each other here.
 */
async function unpacked(): Promise<string> {
  const lock = join(tmpdir(), 'clipperwright-browser-lock')
  for (;;) {
    try {
      mkdirSync(lock)
      break
    } catch {
      const since = statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Date.now()
      if (Date.now() - since > giveUp) rmSync(lock, { recursive: true, force: true })
      await wait(100)
    }
  }
  try {
    return await sparticuz.executablePath()
  } finally {
    rmSync(lock, { recursive: true, force: true })
  }
}
