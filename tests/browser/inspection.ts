/** What a page that stands in the browser is held to, in light and dark, on small and wide screens. */
import type { RunOptions } from 'axe-core'
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import type { BrowserContext, Page } from 'playwright-core'

export interface Inspection {
  /** violations of WCAG 2.2 A and AA and of axe's good practice, with where and what */
  readonly violations: readonly string[]
  /** widths at which something stands out at the side */
  readonly tooWide: readonly number[]
  /** things to press that are lower or narrower than they must be, with their sizes */
  readonly tooSmall: readonly string[]
  readonly title: string
  readonly headings: number
  readonly language: string
}

/** The inspector's script. A bench serves it at this address, so that the browser reads and compiles it but once. */
export const inspector = {
  path: '/inspector.js',
  source: readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8'),
}

/** The levels that the product claims, by the names that axe gives them. */
const levels = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice']

/** What can differ between screens and colour schemes; the rest is the same document. */
const ofLayout = ['color-contrast', 'target-size', 'scrollable-region-focusable']

/** Each width and each scheme once: colours do not depend on the width, nor where things stand on the colours. */
const looks = {
  desk: { width: 1280, height: 900, colorScheme: 'dark', rules: ofLayout },
  phone: { width: 360, height: 740, colorScheme: 'light', rules: null },
} as const

/** Least widths to fit without scrolling sideways: WCAG 2.2, 1.4.10 (320 CSS px), and small phones of today. */
const leastWidths = [360, 320]

export const openAll =
  'document.querySelectorAll("details:not([open])").forEach((fold) => { fold.open = true })'

/**
 * Least height of what a thumb presses, in CSS px: 44, the enhanced target size of WCAG 2.2, 2.5.5. Everything
 * else has at least 24 (2.5.8), which axe measures.
 */
const pressed =
  '.go, .go-second, .answer, .pick, .tick, .plain, .more > summary, .ways a, .small-ways a, .way-on, .move-do, .suspect-row select'
const leastPressed = 44

const plateStands = (position: string): string =>
  `document.querySelectorAll('.thumb').forEach((plate) => { plate.style.position = '${position}' })`

const tables = new WeakMap<BrowserContext, Promise<Page>>()

/**
 * A page of the same server, under the same policies, where copies are looked at one after the other: an inspector that
 * begins anew on every page takes twice as long.
 */
async function tableOf(context: BrowserContext): Promise<Page> {
  const table = await context.newPage()
  await table.goto('/no-such-page')
  await table.addScriptTag({ url: inspector.path })
  return table
}

/** Puts a copy of the page on the table, with its styles and pictures. */
async function laidOut(page: Page): Promise<Page> {
  const context = page.context()
  const under = tables.get(context) ?? tableOf(context)
  tables.set(context, under)
  const table = await under
  const source = await page.evaluate<string>('document.documentElement.outerHTML')
  await table.evaluate(`(async (source) => {
    const copy = document.adoptNode(new DOMParser().parseFromString('<!doctype html>' + source, 'text/html').documentElement)
    const come = [...copy.querySelectorAll('link[rel="stylesheet"], img:not([loading="lazy"])')].map((part) =>
      new Promise((done) => { part.onload = part.onerror = done }))
    document.documentElement.replaceWith(copy)
    await Promise.all(come)
  })(${JSON.stringify(source)})`)
  return table
}

/**
 * Looks at a copy of a page, as it stands.
 *
 * @param again the same view in another state: its colours and sizes on a dark desk were looked at already
 */
export async function inspect(page: Page, again = false): Promise<Inspection> {
  const table = await laidOut(page)
  // what lies behind the plate of answers comes out from under it by scrolling
  await table.evaluate(plateStands('static'))
  const violations: string[] = []
  for (const look of again ? [looks.phone] : [looks.desk, looks.phone]) {
    const { width, height, colorScheme, rules } = look
    await table.setViewportSize({ width, height })
    await table.emulateMedia({ colorScheme })
    const runOnly: RunOptions['runOnly'] = rules
      ? { type: 'rule', values: rules }
      : { type: 'tag', values: levels }
    const found = await table.evaluate<readonly string[]>(
      `axe.run(document, ${JSON.stringify({ runOnly, resultTypes: ['violations'], preload: false })})
        .then(({ violations }) => violations.map(({ id, nodes }) =>
          id + ': ' + nodes.map(({ html }) => html.slice(0, 120)).join(' | ')))`,
    )
    violations.push(...found.map((violation) => `${width} ${colorScheme} ${violation}`))
  }
  await table.evaluate(plateStands(''))
  // Folded parts are part of the page too.
  await table.evaluate(openAll)
  const tooWide: number[] = []
  for (const width of leastWidths) {
    await table.setViewportSize({ width, height: 740 })
    if (await table.evaluate<boolean>('document.documentElement.scrollWidth > innerWidth'))
      tooWide.push(width)
  }
  const seen = await table.evaluate<Pick<Inspection, 'tooSmall' | 'title' | 'headings' | 'language'>>(
    `({
      tooSmall: [...document.querySelectorAll(${JSON.stringify(pressed)})]
        .map((thing) => ({ thing, box: thing.getBoundingClientRect() }))
        .filter(({ box }) => box.height > 0 && (box.height < ${leastPressed} - 0.5 || box.width < 24))
        .map(({ thing, box }) => thing.className + ' ' + thing.textContent.trim().slice(0, 30) + ' ' + box.width + 'x' + box.height),
      title: document.title,
      headings: document.querySelectorAll('h1').length,
      language: document.documentElement.lang,
    })`,
  )
  return { violations, tooWide, ...seen }
}

/** What is wrong with a page, to be compared with `sound`. */
export const faultsOf = async (page: Page) => {
  const { violations, tooWide, tooSmall, headings } = await inspect(page)
  return { violations, tooWide, tooSmall, headings }
}
export const sound = { violations: [], tooWide: [], tooSmall: [], headings: 1 }
