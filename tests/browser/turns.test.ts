/** What people do besides going straight on: stops, going back, changing, reloading, two tabs, two tools. */
import type { Page } from 'playwright-core'
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest'
import { Barber, mouse, thumb } from './barber.js'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'

let bench: Bench
let page: Page
let barber: Barber
beforeAll(async () => {
  bench = await openBench()
  page = await bench.open(phone)
  barber = new Barber(page, thumb, bench.knowledge)
})
afterAll(() => bench.close())
afterEach(() => expect(bench.complaints.splice(0)).toEqual([]))

const words = (at: Page = page): Promise<string> => at.locator('main').innerText()
const stop = (id: string) => bench.knowledge.stops.find((each) => each.id === id)!
/** A curled apostrophe on a page is the straight one of the rulebook. */
const straight = (text: string) => text.replaceAll('’', "'")

async function begun(complaint: readonly string[], tool?: string): Promise<string> {
  const home = await bench.begun(complaint, tool)
  await page.goto(home)
  return home
}

describe('a stop', () => {
  it('that sets aside ends the work over reloads, and a slip of the finger is taken back after one question', async () => {
    const home = await barber.begin(['slows-down'])
    await barber.lookForDanger(['tingle-or-shock'])
    const { name, now, checkQuestion } = stop('tingle-or-shock')
    expect(await barber.heading()).toBe(name)
    // The first lines in full, the rest behind a fold.
    expect(straight(await words())).toContain(straight(now[0]!))
    const all = (await page.locator('.stop-now li').allTextContents()).map(straight)
    expect(all).toEqual(now.map(straight))
    await page.reload()
    expect(await barber.heading()).toBe(name)
    await page.goto('/')
    await barber.press(/Chair 2/)
    expect(await barber.heading()).toBe(name)

    await barber.pressAt('a[href$="/mistake"]')
    expect(straight(await words())).toContain(straight(checkQuestion))
    await barber.pressAt('.acts a')
    expect(await barber.heading()).toBe(name)
    await barber.pressAt('a[href$="/mistake"]')
    await barber.pressAt('.acts button')
    // Only what was not said yet is asked again.
    expect(await page.locator('.sign-yes[value="tingle-or-shock"]').count()).toBe(1)
    await barber.lookForDanger()
    expect(await page.locator('input[name="asked"]').count()).toBe(1)
    expect(new URL(page.url()).pathname).toBe(home)
  })

  it('is lifted only by somebody with a name, by the act that it names', async () => {
    await barber.begin([])
    await barber.lookForDanger(['smoke-or-burning-smell'])
    await barber.pressAt('a[href$="/lift"]')
    expect(straight(await words())).toContain(straight(stop('smoke-or-burning-smell').lift))
    await barber.pressAt('form[action$="/lift"] button')
    expect(await page.title()).toMatch(/^Error: /)
    // The summary of what is wrong has the focus, and leads to the field.
    expect(await page.evaluate('document.activeElement.className')).toBe('wrong')
    await page.locator('.wrong a').tap()
    expect(await page.evaluate('document.activeElement.id')).toBe('by')
    await page.locator('#by').fill('The test bench in town')
    await barber.pressAt('form[action$="/lift"] button')
    expect(await barber.heading()).not.toBe(stop('smoke-or-burning-smell').name)
  })

  it('off the client goes on without power, and is told of on every screen until it is lifted', async () => {
    await barber.begin(['slows-down'])
    await barber.lookForDanger(['tooth-missing'])
    expect(await barber.heading()).toBe(stop('tooth-missing').name)
    await barber.pressAt('.thumb a')
    await barber.lookForDanger()
    const runs = new Set(bench.knowledge.steps.filter(({ power }) => power).map(({ id }) => id))
    for (let screen = 0; screen < 4; screen++) {
      const step = page.locator('input[name="step"]')
      if ((await step.count()) === 0) break
      expect(runs.has(await step.inputValue())).toBe(false)
      expect(await words()).toContain(stop('tooth-missing').name)
      await barber.answer([])
    }
    expect(await words()).toContain(stop('tooth-missing').name)
  })
})

describe('going back', () => {
  it('by the phone’s back button or the page’s takes back what was said last', async () => {
    const home = await begun(['cuts-in-and-out'])
    const first = await barber.heading()
    const tick = page.locator('form[data-answers] input[type="checkbox"]').first()
    await tick.check()
    await page.reload()
    expect(await tick.isChecked()).toBe(true)
    await tick.uncheck()
    await barber.answer([])
    await page.goBack()
    await page.getByRole('heading', { level: 1, name: first, exact: true }).waitFor()
    expect(new URL(page.url()).pathname).toBe(home)
    await barber.answer([])
    const open = await barber.heading()
    await page.reload()
    await page.goto(`${home}/why`)
    await page.goBack()
    // only what was said since that screen is taken back, and a reload says nothing
    expect(await barber.heading()).toBe(open)
    // Back on the page is one screen back: what was said last is not said any more.
    await barber.pressAt('.line-back')
    expect(new URL(page.url()).pathname).toBe(home)
    expect(await barber.heading()).toBe(first)
    await barber.pressAt('.line-back')
    expect(await page.locator('.sign-yes').count()).toBeGreaterThan(0)
    await barber.pressAt('.line-back')
    expect(new URL(page.url()).pathname).toBe(`${home}/complaint`)
    await barber.pressAt('.line-back')
    expect(new URL(page.url()).pathname).toBe(home)
  })

  it('from screen to screen of a fix says nothing', async () => {
    const home = await begun(['hot-near-head'])
    await barber.toTheFix(['oil-overdue', 'squeals', 'whine-at-nose'])
    const fix = await barber.heading()
    await barber.pressAt('.thumb > a.answer')
    await barber.pressAt('.thumb > a.answer')
    for (let screen = 0; screen < 2; screen++) await barber.pressAt('.line-back')
    expect(await barber.heading()).toBe(fix)
    expect(new URL(page.url()).pathname).toBe(home)
  })

  it('changes an answer, takes it back, and the suspects follow', async () => {
    const home = await begun(['cuts-in-and-out'])
    // beside the work where there is room, on a page of its own on a phone
    const suspects = () => page.locator('.suspect-list').textContent()
    const before = await suspects()
    await page.goto(`${home}/answers/cord-flex-changes-it`)
    await page.locator('.thumb button[value="yes"]').tap()
    await page.waitForURL(/answers$/)
    expect(await words()).toContain('Bending the cord')
    await page.goto(home)
    const bent = await suspects()
    expect(bent).not.toBe(before)
    expect(await page.locator('.suspect-name').first().textContent()).toBe('Cord broken inside')

    await page.goto(`${home}/answers`)
    await barber.press('Take back the answer to: Bending the cord makes it come and go')
    await page.goto(home)
    expect(await suspects()).toBe(before)
  })

  it('by reloading changes nothing, not even right after an answer', async () => {
    const home = await begun(['slows-down'])
    await barber.answer([])
    const shown = await words()
    await page.reload()
    expect(await words()).toBe(shown)
    await page.goto(`${home}/answers`)
    const said = await page.locator('h2').count()
    await page.reload()
    expect(await page.locator('h2').count()).toBe(said)
  })
})

describe('more than one at once', () => {
  it('a form in a second tab that has grown stale stores nothing until told to', async () => {
    const home = await begun(['cuts-in-and-out'])
    const second = await bench.tab(page.context())
    await second.goto(home)
    await barber.answer([])
    const other = new Barber(second, mouse, bench.knowledge)
    await other.answer([])
    expect(await second.locator('form[action$="/answers"] .go').count()).toBe(1)
    await other.pressAt('a.go-second')
    expect(await words(second)).toBe(await words())
    await second.close()
  })

  it('two tools on the bench do not mix', async () => {
    const first = await begun(['hot-near-head'], 'Chair 5, red')
    const second = await begun(['cuts-in-and-out'], 'Chair 6, grey')
    expect(second).not.toBe(first)
    await page.goto(first)
    expect(await page.locator('.line-tag').innerText()).toContain('Chair 5, red')
    await barber.answer([])
    await page.goto(second)
    expect(await page.locator('.line-tag').innerText()).toContain('Chair 6, grey')
    await page.goto(`${second}/answers`)
    const ofSecond = await page.locator('h2').allInnerTexts()
    await page.goto(`${first}/answers`)
    expect((await page.locator('h2').allInnerTexts()).length).toBe(ofSecond.length + 1)
    await page.goto('/')
    const tools = (await page.locator('.hang-tool').allTextContents()).join()
    expect(tools).toContain('Chair 5, red')
    expect(tools).toContain('Chair 6, grey')
  })
})
