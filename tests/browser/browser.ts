/** A real browser against the real server. The server is the caller's own; the browser is one for all files of a worker. */
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'
import type { Knowledge } from '../../shared/knowledge.js'
import type { CaseStore } from '../../server/cases/case-store.js'
import type { ToolBook } from '../../server/tools/tool-book.js'
import type { Register } from '../../server/register/register.js'
import { benchWith } from '../api/bench.js'
import { knowledge } from '../the-rulebook.js'
import { theBrowser } from './chromium.js'
import { counter } from './counter.js'
import { session } from './sessions.js'
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
  readonly tools: ToolBook
  readonly register: Register
  /** Moves the clock of the server on. */
  wait(minutes: number): void
  /** What the browser's console complained of so far, in any page opened here. */
  readonly complaints: string[]
  /** A page in a session of its own, which knows nothing of others. Closed with the bench, or before by whoever opened it. */
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
  const [{ app, cases, tools, register, wait: later }, browser] = await Promise.all([
    benchWith({ knowledge: options.rulebook ?? knowledge, ...(options.far && { far: options.far }) }),
    options.browser ?? theBrowser(),
  ])
  const base = await counter.open(app)
  const complaints: string[] = []
  const pages: Page[] = []
  const watch = (page: Page) => {
    pages.push(page)
    return watched(page, complaints)
  }
  return {
    base,
    knowledge,
    cases,
    tools,
    register,
    complaints,
    wait: later,
    tab: async (context) => watch(await context.newPage()),
    begun: (complaint, tool = 'Chair 2', kind = 'universal-motor') =>
      begunAt(base, complaint, { tool, kind }),
    open: async (options = phone) => watch(await session(browser, { baseURL: base, ...options })),
    close: async () => {
      await Promise.all(pages.map((page) => page.close()))
      counter.close()
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
