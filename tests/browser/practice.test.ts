/** A whole exercise alone with a phone, and one by keys alone: from choosing who practises to the debrief. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { keyOf } from '../../server/pages/practice/move-key.js'
import { plansMove } from '../../server/practice/model-player.js'
import { playedOf } from '../../server/remembered/played.js'
import type { Hand } from './barber.js'
import { thumb } from './barber.js'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { faultsOf, sound } from './inspection.js'
import { keysOf } from './keys.js'
import { glancingRulebook } from '../the-rulebook.js'

let bench: Bench

beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench.close())

const names = {
  safe: 'Make it safe',
  ask: 'Ask',
  look: 'Look and feel',
  test: 'Test and measure',
  mend: 'Fix',
  end: 'End it',
}

/** From the door to the bench: says who it is, and takes the first level. @returns the exercise's address */
async function sitDown(page: Page, hand: Hand, name: string): Promise<string> {
  await page.goto('/practice')
  await hand.type(page.locator('#name'), name)
  await hand.press(page.getByRole('button', { name: 'That is me' }))
  await page.waitForURL(/people/)
  await hand.press(page.getByRole('button', { name: 'Practise', exact: true }))
  await page.waitForURL(/exercises/)
  return new URL(page.url()).pathname
}

/** The drawer in which somebody finds a move. */
async function drawerOf(page: Page, home: string, move: Parameters<typeof keyOf>[0]): Promise<string> {
  for (const [group, name] of Object.entries(names)) {
    const listed = await page.request.get(`${home}/moves?in=${group}`)
    if ((await listed.text()).includes(`value="${keyOf(move)}"`)) return name
  }
  throw new Error(`no drawer holds ${keyOf(move)}`)
}

/** The plan's move, found in the drawers of the bench and made there; points first where they are asked for. */
async function makePlansMove(page: Page, hand: Hand, home: string): Promise<void> {
  const exercise = await bench.register.exercise(home.split('/').at(-1)!)
  // as the server remembers it, with what the plan made of it
  const played = await playedOf(await glancingRulebook(), exercise, {})
  const move = await plansMove(played.desk, played.now)
  if (move.type === 'spread') throw new Error('the plan spreads no points')
  const button = page.locator(`.move > button[value="${keyOf(move)}"]`).first()
  await hand.press(
    page.locator('.way-on', { has: page.getByText(await drawerOf(page, home, move), { exact: true }) }),
  )
  await page.waitForURL(/moves/)
  const fold = page.locator('details.fold:not([open])', { has: button })
  if ((await fold.count()) > 0) await hand.press(fold.locator('summary').first())
  await hand.press(button)
  await page.waitForURL((url) => !url.pathname.endsWith('/moves'))
  if (page.url().includes('/points')) await putPoints(page, hand)
}

/** Points on the first suspect. */
async function putPoints(page: Page, hand: Hand): Promise<void> {
  await page.locator('.suspect-pick select').first().selectOption({ index: 1 })
  await page.locator('.suspect-pick input[value="likely"]').first().check()
  await hand.press(page.getByRole('button', { name: 'Put them down' }))
  await page.waitForURL((url) => !url.pathname.endsWith('/points'))
}

async function playToTheEnd(page: Page, hand: Hand, home: string): Promise<void> {
  for (let turn = 0; turn < 40 && !page.url().endsWith('/debrief'); turn++) {
    await makePlansMove(page, hand, home)
    if (!page.url().endsWith('/debrief')) expect(await page.locator('#last').isVisible()).toBe(true)
  }
  expect(new URL(page.url()).pathname).toBe(`${home}/debrief`)
  await page.waitForFunction('document.querySelector("h1") && !document.title.includes("wait")')
}

describe('a whole exercise', () => {
  it('goes by thumb, on a phone, what the last move told in sight each time', async () => {
    const page = await bench.open(phone)
    const home = await sitDown(page, thumb, 'Tess')
    await makePlansMove(page, thumb, home)
    const told = await page.locator('#last').boundingBox()
    expect(told!.y).toBeGreaterThanOrEqual(0)
    expect(told!.y).toBeLessThan(740 / 2)
    // going back and pressing once more makes nothing twice
    const { moves } = await bench.register.exercise(home.split('/').at(-1)!)
    const [made] = moves
    if (moves.length !== 1 || made!.type === 'spread')
      throw new Error('the first move of the plan is one move')
    await page.goBack()
    await thumb.press(page.locator(`.move > button[value="${keyOf(made!)}"]`).first())
    await page.waitForURL(new RegExp(`${home}#last`))
    expect((await bench.register.exercise(home.split('/').at(-1)!)).moves).toHaveLength(1)
    await playToTheEnd(page, thumb, home)
    await page.close()
  })

  it('goes by keys alone, at a desk: two moves, the end, the points, the debrief', async () => {
    const page = await bench.open(desk)
    const keys = keysOf(page)
    const home = await sitDown(page, keys, 'Kim')
    for (let turn = 0; turn < 2; turn++) await makePlansMove(page, keys, home)
    await keys.press(page.locator('.way-on', { has: page.getByText(names.end, { exact: true }) }))
    await page.waitForURL(/moves/)
    await keys.press(page.locator('.move > button[value="ended/send-in"]').first())
    await page.waitForURL(/points/)
    await putPoints(page, keys)
    await page.waitForURL(`**${home}/debrief`)
    await page.close()
  })

  it('goes on without scripts', async () => {
    const page = await bench.open({ ...phone, javaScriptEnabled: false })
    const home = await sitDown(page, thumb, 'Noa')
    await thumb.press(page.locator('.way-on', { hasText: 'Make it safe' }))
    await thumb.press(page.locator('.move > button').first())
    await page.waitForURL(new RegExp(`${home}#last`))
    await page.close()
  })
})

it('the bench after moves, and points that are to be put right, keep to WCAG 2.2 AA and to 320 px', async () => {
  const page = await bench.open(phone)
  const home = await sitDown(page, thumb, 'Ada')
  await makePlansMove(page, thumb, home)
  await makePlansMove(page, thumb, home)
  await page.goto(home)
  expect(await faultsOf(page)).toEqual(sound)
  // a suspect that is none, with the summary of what is wrong
  await page.goto(`${home}/points`)
  await page.evaluate(
    'document.querySelector(".suspect-pick select").add(new Option("no such", "no-such", true, true))',
  )
  await thumb.press(page.getByRole('button', { name: 'Put them down' }))
  await page.waitForSelector('.wrong')
  expect(await faultsOf(page)).toEqual(sound)
  await page.close()
})

it('the browser’s console stayed quiet', () => {
  expect(bench.complaints).toEqual([])
})
