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
    for (const line of now) expect(straight(await words())).toContain(straight(line))
    await page.reload()
    expect(await barber.heading()).toBe(name)
    await page.goto('/')
    await barber.press(/Chair 2/)
    expect(await barber.heading()).toBe(name)

    await barber.press('That was a mistake')
    expect(straight(await barber.heading())).toBe(checkQuestion)
    await barber.press('No: leave it as it is')
    expect(await barber.heading()).toBe(name)
    await barber.press('That was a mistake')
    await barber.press('Yes, certainly: take it back')
    expect(await barber.heading()).toBe('Is it safe to go on?')
    // What was said to the other signs stands; only the slip is asked again.
    expect(await page.locator('input[name="q-case-cracked"][value="no"]').isChecked()).toBe(true)
    expect(await page.locator('input[name="q-tingle-or-shock"]:checked').count()).toBe(0)
    await barber.lookForDanger()
    expect(await page.locator('input[name="asked"], input[name="fix"]').count()).toBeGreaterThan(0)
    expect(new URL(page.url()).pathname).toBe(home)
  })

  it('is lifted only by somebody with a name, by the act that it names', async () => {
    await barber.begin([])
    await barber.lookForDanger(['smoke-or-burning-smell'])
    await page.getByText('This was done: lift it').tap()
    expect(await words()).toContain(stop('smoke-or-burning-smell').lift)
    await barber.press('It was done: go on')
    expect(await page.title()).toMatch(/^Error: /)
    // The summary of what is wrong has the focus, and leads to the field.
    expect(await page.evaluate('document.activeElement.className')).toBe('wrong')
    await page.locator('.wrong a').tap()
    expect(await page.evaluate('document.activeElement.id')).toBe('by')
    await page.locator('#by').fill('The test bench in town')
    await barber.press('It was done: go on')
    expect(await barber.heading()).not.toBe(stop('smoke-or-burning-smell').name)
  })

  it('off the client goes on without power, and is told of on every screen until it is lifted', async () => {
    await barber.begin(['slows-down'])
    await barber.lookForDanger(['tooth-missing'])
    expect(await barber.heading()).toBe(stop('tooth-missing').name)
    await barber.press('Done: go on with the plug out')
    const runs = new Set(bench.knowledge.steps.filter(({ power }) => power).map(({ id }) => id))
    for (let screen = 0; screen < 4; screen++) {
      const step = page.locator('input[name="step"]')
      if ((await step.count()) === 0) break
      expect(runs.has(await step.inputValue())).toBe(false)
      expect(await words()).toContain('Off the client: Missing tooth.')
      await barber.answer([])
    }
    expect(await words()).toContain('Off the client: Missing tooth.')
  })
})

describe('going back', () => {
  it('by the back button shows the question that is open now, and the way back leads to what was said last', async () => {
    const home = await begun(['cuts-in-and-out'])
    await barber.answer([])
    const open = await barber.heading()
    await page.goBack()
    // The browser's button cannot put a stale question before the thumb: the case's address shows how it stands.
    expect(new URL(page.url()).pathname).toBe(home)
    expect(await barber.heading()).toBe(open)
    await page.goto(home)
    expect(await barber.heading()).toBe(open)
    await barber.press(/^Back/)
    expect(new URL(page.url()).hash).toBe('#last')
    const last = page.locator('#last')
    expect(await last.count()).toBe(1)
    await page
      .locator('.said')
      .last()
      .getByRole('link', { name: /^Change/ })
      .first()
      .tap()
    await page.waitForURL(/answers\/[a-z-]+$/)
    const question = new URL(page.url()).pathname.split('/').at(-1)!
    await page.locator('.thumb button[value="yes"]').tap()
    await page.waitForURL(/answers$/)
    await page.goto(`${home}/answers/${question}`)
    expect(await words()).toContain('You said: Yes')
  })

  it('changes an answer, takes it back, and the suspects follow', async () => {
    const home = await begun(['cuts-in-and-out'])
    const suspects = () => page.locator('.suspect-list').innerText()
    const before = await suspects()
    await page.goto(`${home}/answers/cord-flex-changes-it`)
    await page.locator('.thumb button[value="yes"]').tap()
    await page.waitForURL(/answers$/)
    expect(await words()).toContain('Bending the cord')
    await page.goto(home)
    const bent = await suspects()
    expect(bent).not.toBe(before)
    expect(bent.indexOf('Cord broken inside')).toBe(0)

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
    expect(await other.heading()).toBe('This case has moved on')
    await other.press('Look at the case first')
    expect(await words(second)).toBe(await words())
    await second.close()
  })

  it('two tools on the bench do not mix', async () => {
    const first = await begun(['hot-near-head'], 'Chair 5, red')
    const second = await begun(['cuts-in-and-out'], 'Chair 6, grey')
    expect(second).not.toBe(first)
    await page.goto(first)
    expect(await page.locator('.tag').innerText()).toContain('Chair 5, red')
    await barber.answer([])
    await page.goto(second)
    expect(await page.locator('.tag').innerText()).toContain('Chair 6, grey')
    expect(await page.locator('.tag').innerText()).not.toContain('hot')
    await page.goto(`${second}/answers`)
    const ofSecond = await page.locator('h2').allInnerTexts()
    await page.goto(`${first}/answers`)
    expect((await page.locator('h2').allInnerTexts()).length).toBe(ofSecond.length + 1)
    await page.goto('/')
    expect(await words()).toContain('Chair 5, red')
    expect(await words()).toContain('Chair 6, grey')
  })
})
