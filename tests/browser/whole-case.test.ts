/** A whole case from the front page to a tool that runs again: by thumb, by keys, and without scripts. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { Barber, mouse, thumb } from './barber.js'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { keysOf } from './keys.js'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench.close())

// Common practice, no source: heat in the hand near the head is a sealed drive bearing that has run dry: overdue
// for oil, it whines, slow until warm; and its oil goes in at the spring-loaded ball on the side.
const dry = {
  yes: ['hot-near-head', 'oil-overdue', 'whine-at-nose', 'squeals', 'came-on-slowly', 'slow-until-warm'],
  cause: 'dry-bearing',
}

async function toRunningAgain(barber: Barber): Promise<void> {
  await throughTheCase(barber, await barber.begin(['hot-near-head'], 'Chair 4'))
}

/** From the danger signs to the end. @param named does somebody say what it was? */
async function throughTheCase(barber: Barber, home: string, named = false): Promise<void> {
  const { page } = barber
  expect(await page.locator('.sign-yes').count()).toBeGreaterThan(0)
  await barber.lookForDanger()
  expect(await page.locator('input[name="asked"]').count()).toBe(1)
  expect(await page.locator('.so-far').innerText()).toContain('in 100')
  await barber.workOn(dry)
  if (named) await page.locator(`label:has(input[name="cause"][value="${dry.cause}"])`).tap()
  await barber.pressAt('button[name="disinfected"][value="yes"]')
  expect(new URL(page.url()).pathname).toBe(home)
  expect(await page.locator('.line .state-running-again').count()).toBe(1)
  await barber.pressAt('.thumb a[href="/"]')
  expect(await page.locator('.rack .state-running-again').count()).toBeGreaterThan(0)
  expect(bench.complaints).toEqual([])
}

describe('a whole case', () => {
  it('by thumb at 360 px, in a day of a shop: a list of tools, their care, a case, its minutes, the log', async () => {
    const page = await bench.open(phone)
    const barber = new Barber(page, thumb, bench.knowledge)
    const words = () => page.locator('main').innerText()

    await page.goto('/tools/import')
    await page.locator('form details > summary').tap()
    const rows = Array.from(
      { length: 12 },
      (_, k) => `Chair ${k + 1},universal-motor,in-use,${'AB'[k % 2]},9`,
    )
    await page
      .locator('#text')
      .fill(['name,kind,place,usedBy,clientsADay', ...rows, 'Chair 13,no kind,,,'].join('\n'))
    await barber.press('Look at it')
    expect(await words()).toMatch(/12 rows are good, 1 not/)
    await barber.pressAt('.thumb button')
    expect(await page.locator('main a.tool-line').count()).toBe(12)

    bench.wait(24 * 60)
    await page.goto('/')
    await barber.pressAt('.care-line')
    const jobs = async () => Number(/^(\d+) jobs?/.exec(await page.locator('.lead').innerText())?.[1] ?? 0)
    const due = await jobs()
    expect(due).toBeGreaterThanOrEqual(12)
    await barber.pressAt('.care-tick')
    expect(await jobs()).toBe(due - 12)
    await barber.pressAt('.care-notice button')
    expect(await jobs()).toBe(due)
    await barber.pressAt('.care-tick')

    await page.goto('/')
    await barber.press('Chair 4')
    const home = new URL(page.url()).pathname.replace('/complaint', '')
    await barber.tell(['hot-near-head'])
    await throughTheCase(barber, home, true)

    await page.goto(home)
    await barber.pressAt('.took button >> nth=2')
    expect(await words()).toMatch(/It took about/)
    await page.goto('/care/disinfected')
    await page.locator('label.tick:has([name="tool"])').first().tap()
    for (const [field, text] of Object.entries({ who: 'Ana', product: 'Blade wash', contact: '10' }))
      await page.locator(`#${field}`).fill(text)
    await barber.press('Log it')
    expect(await words()).toContain('1 job logged')
    // oil in the bearing is the month's oil
    await page.goto('/care/log')
    expect(await words()).toContain('with a fix')

    // next month the tool has a past, and what it was counts
    bench.wait(35 * 24 * 60)
    await page.goto('/')
    await barber.press('Chair 4')
    expect(await words()).toContain(bench.knowledge.causes.find(({ id }) => id === dry.cause)!.name)
    await page.goto('/learned')
    expect(await words()).toMatch(/1 case/)
    await page.close()
  })

  it('by keys alone', async () => {
    const page = await bench.open(desk)
    await toRunningAgain(new Barber(page, keysOf(page), bench.knowledge))
    await page.close()
  })

  it('without scripts', async () => {
    const page = await bench.open({ ...phone, javaScriptEnabled: false })
    await toRunningAgain(new Barber(page, mouse, bench.knowledge))
    await page.close()
  })
})

it('leads the first Tab past what stands on every page, and shows where the focus is', async () => {
  const page = await bench.open(desk)
  await page.goto('/new')
  await page.keyboard.press('Tab')
  expect(await page.evaluate('document.activeElement.textContent')).toBe('Straight to the work')
  await page.keyboard.press('Enter')
  expect(await page.evaluate('document.activeElement.id')).toBe('main')
  for (let stop = 0; stop < 5; stop++) {
    await page.keyboard.press('Tab')
    // Keyboard focus must show (WCAG 2.2, 2.4.7), on the thing itself or on its label.
    expect(
      await page.evaluate(
        'Math.max(...[document.activeElement, document.activeElement.closest("label")].filter(Boolean).map((e) => getComputedStyle(e).outlineStyle === "none" ? 0 : parseFloat(getComputedStyle(e).outlineWidth)))',
      ),
    ).toBeGreaterThanOrEqual(2)
  }
  await page.close()
})

it('takes a key for each button once the work is done, and leaves letters alone while somebody types', async () => {
  const page = await bench.open(desk)
  const barber = new Barber(page, mouse, bench.knowledge)
  const home = await bench.begun(['hot-near-head'])
  await page.goto(`${home}/complaint`)
  await page.locator('#q').fill('')
  await page.locator('#q').pressSequentially('yn c 3')
  expect(await page.locator('#q').inputValue()).toBe('yn c 3')

  await page.goto(home)
  await barber.toTheFix(dry.yes)
  const tried = await page.locator('h1').innerText()
  while ((await page.locator('input[name="fix"]').count()) === 0) await barber.pressAt('.thumb > a.answer')
  await Promise.all([page.waitForEvent('load'), page.keyboard.press('3')])
  await page.goto(`${home}/answers`)
  expect(await page.locator('main').innerText()).toMatch(new RegExp(`${tried}[^]{0,40}no change`, 'i'))
  await page.close()
})

it('takes y, n and c for yes, no and can’t tell where one question stands alone', async () => {
  const page = await bench.open(desk)
  const single = bench.knowledge.steps.filter(
    ({ form, questions }) => form !== 'danger' && questions.length === 1 && questions[0]!.kind === 'yes-no',
  )
  expect(single.length).toBeGreaterThan(0)
  // The first screen that the plan makes of one question alone, over complaints told one at a time.
  const button = page.locator('.thumb button[name^="q-"][value="cant-tell"]')
  const barber = new Barber(page, mouse, bench.knowledge)
  for (const complaint of ['wont-start', 'cuts-in-and-out', 'slows-down', 'hot-all-over']) {
    await page.goto(await bench.begun([complaint]))
    const asked = page.locator('input[name="asked"]')
    for (let screen = 0; screen < 8 && (await asked.count()) > 0 && (await button.count()) === 0; screen++)
      await barber.answer([])
    if ((await button.count()) > 0) break
  }
  expect(await button.count()).toBe(1)
  const question = (await button.getAttribute('name'))!.slice(2)
  const home = new URL(page.url()).pathname
  await Promise.all([page.waitForEvent('load'), page.keyboard.press('c')])
  await page.goto(`${home}/answers/${question}`)
  expect(await page.locator('main').innerText()).toContain('You said: Can’t tell')
  await page.close()
})
