/** Every kind of page, reached as a user reaches it, against WCAG 2.2; print, weight, and a quiet console. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { signInPage, welcomePage } from '../../server/pages/people/door-pages.js'
import { otherShopPage } from '../../server/pages/people/other-shop-page.js'
import { peoplePage } from '../../server/pages/people/people-page.js'
import { pageNames } from '../../server/pages/render.js'
import type { Person } from '../../shared/person.js'
import { OPENED } from '../api/bench.js'
import { Barber, mouse } from './barber.js'
import type { Bench } from './browser.js'
import { desk, openBench } from './browser.js'
import { holdPages } from './inspected-pages.js'
import type { Inspection } from './inspection.js'
import { inspect, openAll } from './inspection.js'
import { showMade } from './made-page.js'

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

const look = async (name: string) => void inspected.set(name, await inspect(page, name.includes(',')))
const lookAt = async (address: string, name: string) => {
  await page.goto(address)
  await look(name)
}
async function print(name: string): Promise<void> {
  const pdf = await page.pdf({ format: 'A4' })
  sheets.set(name, pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0)
}

async function walkThroughAll(): Promise<void> {
  await lookAt('/identify', 'identify/identify')
  await lookAt('/new?on=cord', 'case/new')
  await lookAt('/new', 'case/new, every kind')
  const home = await barber.begin(['hot-near-head'], 'Chair 2, black one')
  await look('case/danger')
  await barber.lookForDanger()
  await look('case/step')
  for (const way of ['complaint', 'answers', 'why', 'tool', 'finish'])
    await lookAt(`${home}/${way}`, `case/${way}`)
  await lookAt(`${home}/slip`, 'decision/handover')
  await lookAt(`${home}/complaint?q=stopps+and+starts`, 'case/complaint, heard')
  await lookAt(`${home}/complaint?q=xyzzy`, 'case/complaint, not understood')
  await lookAt(`${home}/answers/hot-near-head`, 'case/change')
  await lookAt(`${home}/worth`, 'decision/worth')
  await page.evaluate(openAll)
  await look('decision/worth, all open')
  await page.locator('#carriage').fill('ten')
  await barber.pressAt('form:has(#carriage) .acts button.go')
  await look('decision/worth, with a mistake')
  await conflict(home)

  await page.goto(home)
  await barber.toTheFix(['hot-near-head', 'squeals'])
  await look('case/fix')
  await print('fix')
  await lookAt(`${home}?at=1`, 'case/fix, the work')
  await lookAt(`${home}?at=99`, 'case/fix, the outcome')
  await page.goto(home)
  await barber.tryFix('none of them', 'better')
  await look('case/now')
  await barber.still()
  await barber.toTheEnding()
  await look('case/ending')
  await page.goto(`${home}/slip`)
  await barber.pressAt('form.thumb button[name="disinfected"][value="yes"]')
  await print('slip')
  await page.goto(`${home}/finish`)
  await barber.pressAt('button[name="state"][value="boxed-for-service"]')
  await look('case/finished')
  await papers(home)

  await page.goto(await bench.begun(['hot-near-head']))
  await barber.workOn({ yes: ['hot-near-head', 'squeals'], cause: 'dry-bearing' })
  await look('case/cured')

  const stopped = await barber.begin([], '')
  await barber.lookForDanger(['tooth-missing'])
  await look('case/stop, milder')
  await page.goto(`${stopped}/danger`)
  await barber.lookForDanger(['tingle-or-shock'])
  await look('case/stop')
  await barber.pressAt('a[href$="/mistake"]')
  await look('case/mistake')
  await page.goto(`${stopped}/stops/tooth-missing/lift`)
  await look('case/clear')

  await shopPages()

  open = await bench.begun(['cuts-in-and-out'])
  await lookAt('/', 'case/start')
  await lookAt('/shop', 'shop/shop')
  await lookAt('/no-such-page', 'layout/problem')
  await lookAt('/rulebook', 'rulebook/list')
  await lookAt('/rulebook/sources', 'rulebook/entry, sources')
  await lookAt('/rulebook/limits', 'rulebook/entry, limits')
  await lookAt('/rulebook/causes/worn-brushes', 'rulebook/entry')
  await lookAt('/rulebook/fixes/new-brush-pair', 'rulebook/entry, fix')
  await lookAt('/rulebook/proof', 'rulebook/proof')
  await lookAt('/rulebook/proof/universal-motor', 'rulebook/proof, of a kind')
  await lookAt(
    '/lab?q-cuts-in-and-out=yes&s.cuts-in-and-out.worn-brushes=40&open=finding:cuts-in-and-out',
    'lab/lab',
  )
}

/** The limit of the quote, the return, and the list of one that is set aside for good. */
async function papers(home: string): Promise<void> {
  await page.goto(`${home}/slip`)
  await page.locator('details:has(#limit) > summary').click()
  await page.locator('#limit').fill('a lot')
  await barber.press('Write it on the slip')
  await look('decision/handover, with a mistake')
  await page.goto(home)
  await barber.pressAt('.thumb a[href$="/return"]')
  await look('decision/return')
  await barber.press('Keep it on the case')
  await look('decision/return, with mistakes')
  await page.locator('#fee').fill('48.50')
  await page.locator('#carriage').fill('9')
  await page.locator('input[name="mended"][value="no"]').check()
  await page.locator('input[name="state"][value="set-aside"]').check()
  await barber.press('Keep it on the case')
  await look('case/finished, back from the service')
  await barber.pressAt('.acts a[href$="/retire"]')
  await look('decision/retire')
}

/** The shop's tools, care, shelf, people and file: the first case made the first tool. */
async function shopPages(): Promise<void> {
  await lookAt('/tools', 'tools/tools')
  const tool = await page
    .locator('main a[href^="/tools/"]:not([href$="/new"]):not([href$="/import"]):not([href$="/labels"])')
    .first()
    .getAttribute('href')
  await lookAt(`${tool}`, 'tools/tool')
  await lookAt(`${tool}/edit`, 'tools/edit')
  for (const [address, name] of [
    ['/tools/new', 'tools/new'],
    ['/tools/import', 'tools/import'],
    ['/tools/labels', 'tools/labels'],
    ['/care', 'care/round'],
    ['/care/log', 'care/log'],
    ['/care/habits', 'care/habits'],
    ['/care/disinfected', 'care/disinfection'],
    ['/care/disinfected/sheet', 'care/sheet'],
    ['/care/left', 'care/left'],
    ['/parts', 'parts/shelf'],
    ['/parts/new', 'parts/part'],
    ['/parts/shopping', 'parts/shopping'],
    ['/learned', 'learning/learned'],
    ['/people', 'people/people'],
    ['/cases', 'case/cases'],
    ['/shop/backups', 'shop/backup'],
  ] as const)
    await lookAt(address, name)
  await lookAtPeople()
}

/** What stands only where a network may come in, or several shops are. */
async function lookAtPeople(): Promise<void> {
  const ada: Person = { id: 'ada1', name: 'Ada', role: 'lead', since: OPENED }
  const people = [ada, { ...ada, id: 'ada2', name: 'Ada of the front chair' }]
  const told = { plainHttp: true, severalShops: true }
  const made: readonly (readonly [name: string, model: object])[] = [
    ['people/door', signInPage('/', told)],
    ['people/door, welcome', welcomePage(null, told)],
    ['people/people, with names', peoplePage(ada, people, { severalShops: true })],
    ['people/other-shop', otherShopPage([{ id: 'north', name: 'North' }])],
    [
      'people/other-shop, with a mistake',
      otherShopPage([], { name: 'Est', message: 'No shop has this name.' }),
    ],
  ]
  for (const [name, model] of made) {
    await showMade(page, name.split(',')[0]!, model)
    await look(name)
  }
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
  await look('case/conflict')
}

holdPages(
  inspected,
  // those of practice are in practice-pages.test.ts
  pageNames.filter((name) => !name.startsWith('practice/')),
  () => bench,
)

it('names the case in the title, and says there that something is to be put right', () => {
  expect(inspected.get('case/step')?.title).toContain('Chair 2, black one')
  for (const name of ['decision/handover, with a mistake', 'decision/worth, with a mistake'])
    expect(inspected.get(name)?.title).toMatch(/^Error: /)
})

it.each(['slip', 'fix'])('the %s prints on one sheet of A4', (name) => {
  expect(sheets.get(name)).toBe(1)
})

it('prints the slip without the ways and buttons of the screen', async () => {
  await page.goto(`${open}/slip`)
  await page.emulateMedia({ media: 'print' })
  for (const left of ['.line', 'form.acts', '.foot'])
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
  await planted.context().route('**/planted.css', (route) =>
    route.fulfill({
      contentType: 'text/css',
      body: `.pale { color: #aaa; background: #fff } .wide { width: 340px } .low { height: 30px }
        @media (prefers-color-scheme: dark) { .night { color: #333; background: #222 } }`,
    }),
  )
  await planted.setContent(`<!doctype html><html lang="en"><title>Planted</title><link rel="stylesheet" href="/planted.css">
    <main><h1>Planted</h1><p class="pale">pale</p><div class="wide">wide</div>
    <button class="go low">low</button><img src="data:,"><p class="night">dark in the dark</p></main></html>`)
  const found = await inspect(planted)
  const violations = found.violations.join('\n')
  expect(violations).toMatch(/360 light color-contrast: .*pale/)
  expect(violations).toMatch(/1280 dark color-contrast: .*dark in the dark/)
  expect(violations).not.toMatch(/light color-contrast: .*dark in the dark/)
  expect(violations).toContain('image-alt')
  expect(found.tooWide).toEqual([320])
  expect(found.tooSmall).toEqual([expect.stringContaining('low')])
})
