/**
 * Sessions of the browser (its contexts), lent again with all forgotten once their page is closed: a new one is a process
 * of its own, which reads and compiles everything anew.
 */
import type { Browser, BrowserContext, BrowserContextOptions, Page } from 'playwright-core'
import { giveUp } from '../give-up.js'

/** By browser and options: sessions that nobody uses. */
const idle = new WeakMap<Browser, Map<string, BrowserContext[]>>()

/** A page in a session that knows nothing. The session is free again once the page is closed. */
export async function session(browser: Browser, options: BrowserContextOptions): Promise<Page> {
  const known = idle.get(browser) ?? new Map<string, BrowserContext[]>()
  idle.set(browser, known)
  const key = JSON.stringify(options)
  const alike = known.get(key) ?? []
  known.set(key, alike)
  const used = alike.pop()
  const context = used ?? (await browser.newContext(options))
  context.setDefaultTimeout(giveUp / 4)
  const page = await context.newPage()
  if (used) await forget(page, options.baseURL!)
  page.once('close', () => alike.push(context))
  return page
}

/** What a session knows of an address: cookies, what scripts keep, answers put in by a test. */
async function forget(page: Page, origin: string): Promise<void> {
  const context = page.context()
  const devtools = await context.newCDPSession(page)
  await devtools.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' })
  await devtools.detach()
  await context.unrouteAll()
}
