/** Every kind of page, reached as a user reaches it, against WCAG 2.2; print, weight, and a quiet console. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { pageNames } from '../../server/pages/render.js'
import { Barber, mouse } from './barber.js'
import type { Bench } from './browser.js'
import { desk, openBench } from './browser.js'
import { holdPages } from './inspected-pages.js'
import type { Inspection } from './inspection.js'
import { inspect } from './inspection.js'

let bench: Bench
let page: Page
let barber: Barber
const inspected = new Map<string, Inspection>()
/** sheets of A4 that a page takes when printed */
const sheets = new Map<string, number>()
/** address of a case on the bench with an open question */
let open = ''

beforeAll(async () => {
  bench = await openBench()
  page = await bench.open(desk)
  barber = new Barber(page, mouse, bench.knowledge)
  await walkThroughAll()
})
afterAll(() => bench.close())

const look = async (name: string) => void inspected.set(name, await inspect(page))
const lookAt = async (address: string, name: string) => {
  await page.goto(address)
  await look(name)
}
async function print(name: string): Promise<void> {
  const pdf = await page.pdf({ format: 'A4' })
  sheets.set(name, pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0)
}

async function walkThroughAll(): Promise<void> {
  await lookAt('/identify', 'identify')
  const home = await barber.begin(['hot-near-head'], 'Chair 2, black one')
  await look('danger')
  await barber.press('All looked at')
  await look('danger, with slips')
  await barber.lookForDanger()
  await look('step')
  for (const way of ['complaint', 'answers', 'why', 'slip', 'finish']) await lookAt(`${home}/${way}`, way)
  await lookAt(`${home}/complaint?q=stopps+and+starts`, 'complaint, searched')
  await lookAt(`${home}/answers/hot-near-head`, 'change')
  await lookAt(`${home}/worth`, 'worth')
  // the inspection has left every fold open
  await look('worth, all open')
  await page.locator('#carriage').fill('ten')
  await barber.press('Reckon anew')
  await look('worth, with slips')
  await conflict(home)

  await page.goto(home)
  const fix = page.locator('input[name="fix"]')
  for (let screen = 0; screen < 20 && (await fix.count()) === 0; screen++)
    await barber.answer(['hot-near-head', 'oil-ball-found'])
  await look('fix')
  await print('fix')
  await barber.tryFix('none of them')
  await look('now')
  await barber.press('That is how it is now')
  await barber.workOn({ yes: [], cause: 'none of them' })
  await look('ending')
  await page.goto(`${home}/slip`)
  await barber.press('It has been disinfected')
  await print('slip')
  await page.goto(`${home}/finish`)
  await page.locator('input[value="boxed-for-service"]').check()
  await barber.press('End it')
  await look('finished')
  await papers(home)

  await page.goto(await bench.begun(['hot-near-head']))
  await barber.workOn({ yes: ['hot-near-head', 'oil-ball-found'], cause: 'dry-bearing' })
  await look('cured')

  const stopped = await barber.begin([], '')
  await barber.lookForDanger(['tooth-missing'])
  await look('stop, milder')
  await barber.press('Done: go on with the plug out')
  await page.goto(`${stopped}/danger`)
  await barber.lookForDanger(['tingle-or-shock'])
  await look('stop')
  await barber.press('That was a mistake')
  await look('mistake')

  open = await bench.begun(['cuts-in-and-out'])
  await lookAt('/', 'start')
  await lookAt('/shop', 'shop')
  await lookAt('/no-such-page', 'problem')
  await lookAt('/rulebook', 'rulebook-list')
  await lookAt('/rulebook/sources', 'rulebook-entry, sources')
  await lookAt('/rulebook/limits', 'rulebook-entry, limits')
  await lookAt('/rulebook/causes/worn-brushes', 'rulebook-entry')
  await lookAt('/rulebook/fixes/new-brush-pair', 'rulebook-entry, fix')
  await lookAt('/rulebook/proof', 'proof')
  await lookAt('/rulebook/proof/universal-motor', 'proof, of a kind')
  await lookAt(
    '/lab?q-cuts-in-and-out=yes&s.cuts-in-and-out.worn-brushes=40&open=finding:cuts-in-and-out',
    'lab',
  )
}

/** The limit of the quote, the return, and the list of one that is set aside for good. */
async function papers(home: string): Promise<void> {
  await page.goto(`${home}/slip`)
  await page.locator('#limit').fill('a lot')
  await barber.press('Write it on the slip')
  await look('slip, with a slip')
  await page.goto(home)
  await barber.press('It is back')
  await look('return')
  await barber.press('Keep it on the case')
  await look('return, with slips')
  await page.locator('#fee').fill('48.50')
  await page.locator('#carriage').fill('9')
  await page.locator('input[name="mended"][value="no"]').check()
  await page.locator('input[name="state"][value="set-aside"]').check()
  await barber.press('Keep it on the case')
  await look('finished, back from the service')
  await barber.press('Retire list')
  await look('retire')
}

/** The page for a form that was made before something else was said, in another tab. */
async function conflict(home: string): Promise<void> {
  await page.goto(`${home}/answers/hot-near-head`)
  const second = await bench.tab(page.context())
  await second.goto(`${home}/answers/hot-all-over`)
  await second.locator('.thumb button[value="no"]').click()
  await second.waitForURL(/answers$/)
  await second.close()
  await Promise.all([page.waitForEvent('load'), page.locator('.thumb button[value="yes"]').click()])
  await look('conflict')
}

holdPages(
  inspected,
  // those of practice are in practice-pages.test.ts
  pageNames.filter((name) => !name.startsWith('practice-')),
  () => bench,
)

it('names the case in the title, and says there that something is to be put right', () => {
  expect(inspected.get('step')?.title).toContain('Chair 2, black one')
  for (const name of ['danger, with slips', 'conflict', 'worth, with slips'])
    expect(inspected.get(name)?.title).toMatch(/^Error: /)
})

it.each(['slip', 'fix'])('the %s prints on one sheet of A4', (name) => {
  expect(sheets.get(name)).toBe(1)
})

it('prints the slip without the ways and buttons of the screen', async () => {
  await page.goto(`${open}/slip`)
  await page.emulateMedia({ media: 'print' })
  for (const left of ['.head nav', '.small-ways', 'form.acts', '.foot'])
    expect(await page.locator(left).first().isVisible()).toBe(false)
  expect(await page.locator('.slip').isVisible()).toBe(true)
  await page.emulateMedia({ media: 'screen' })
})

it('loads a question page light enough for a weak network in a back room', async () => {
  const sizes = new Map<string, number>()
  const counted: Promise<unknown>[] = []
  page.on('response', (response) => {
    const size = response.body().then((body) => sizes.set(new URL(response.url()).pathname, body.length))
    counted.push(size.catch(() => {}))
  })
  await page.goto(open)
  await Promise.all(counted)
  // Uncompressed; our own bound: about two seconds at 50 kB/s, the style sheet and script but once.
  expect(sizes.get(open)).toBeLessThan(45_000)
  expect([...sizes.values()].reduce((sum, size) => sum + size, 0)).toBeLessThan(110_000)
})

it('finds pale words, a wide box, a low button and a picture without words', async () => {
  const planted = await bench.open(desk)
  await planted.setContent(`<!doctype html><html lang="en"><title>Planted</title><main><h1>Planted</h1>
    <p style="color:#aaa;background:#fff">pale</p><div style="width:340px">wide</div>
    <button class="go" style="height:30px">low</button><img src="data:,">
    <style>@media (prefers-color-scheme: dark) { .night { color: #333; background: #222 } }</style>
    <p class="night">dark in the dark</p></main></html>`)
  const found = await inspect(planted)
  const violations = found.violations.join('\n')
  expect(violations).toMatch(/360 light color-contrast: .*pale/)
  expect(violations).toMatch(/360 dark color-contrast: .*dark in the dark/)
  expect(violations).not.toMatch(/light color-contrast: .*dark in the dark/)
  expect(violations).toContain('image-alt')
  expect(found.tooWide).toEqual([320])
  expect(found.tooSmall).toEqual([expect.stringContaining('low')])
})
