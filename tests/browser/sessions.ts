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
  const context = (await forgetful(alike.pop())) ?? (await browser.newContext(options))
  context.setDefaultTimeout(giveUp / 4)
  const page = await context.newPage()
  page.once('close', () => alike.push(context))
  return page
}

/** The product keeps nothing in a browser but cookies. */
async function forgetful(context: BrowserContext | undefined): Promise<BrowserContext | undefined> {
  await context?.clearCookies()
  await context?.unrouteAll()
  return context
}
