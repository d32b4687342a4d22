/** One person, one phone: from the start page to the first fix or ending, with all that it took. */
import type { Locator, Page } from 'playwright-core'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Person } from './people.js'

interface Screen {
  readonly name: string
  /** words shown without unfolding */
  readonly words: number
  /** is the first thing to tap within the first 640 px, before any scrolling? */
  readonly inReach: boolean
  /** lines to tick, before any scrolling hidden under the buttons that say no to them */
  readonly hidden: number
}

export interface Walk {
  readonly id: string
  readonly taps: number
  readonly screens: readonly Screen[]
  /** screens between the danger signs and the end of the walk */
  readonly looks: number
  /** px scrolled to reach what was tapped */
  readonly scrolled: number
  readonly end: string
}

const reach = 640
/** Nobody goes on for longer; a walk that does is an error of the plan. */
const mostScreens = 60

/** @param page a phone of 360 by 740, on the start page */
export async function walk(page: Page, knowledge: Knowledge, person: Person): Promise<Walk> {
  const screens: Screen[] = []
  let taps = 0
  let scrolled = 0
  let looks = 0

  const see = async (name: string): Promise<void> => {
    screens.push({
      name,
      words: await wordsShown(page),
      inReach: await firstInReach(page),
      hidden: await hiddenLines(page),
    })
  }
  const tap = async (target: Locator, leads = true): Promise<void> => {
    taps++
    const before = await page.evaluate<number>('scrollY')
    await target.scrollIntoViewIfNeeded()
    scrolled += Math.abs((await page.evaluate<number>('scrollY')) - before)
    await (leads ? Promise.all([page.waitForEvent('domcontentloaded'), target.tap()]) : target.tap())
  }
  const done = (end: string): Walk => ({ id: person.id, taps, screens, looks, scrolled, end })

  await page.goto('/')
  await see('start')
  const kind = knowledge.kinds.find(({ id }) => id === person.kind)!
  await tap(page.locator(`a[href="/new?on=${kind.runsOn}"]`))
  await see('new')
  await tap(page.locator(`button[name=kind][value="${kind.id}"]`))

  await see('complaint')
  const statementOf = new Map(
    knowledge.steps.flatMap(({ questions }) =>
      questions.map(({ id, statement }) => [id, statement] as const),
    ),
  )
  const [only, ...others] = person.complaint
  const button = page.locator(`button[name=say][value="${only ?? ''}"]`)
  if (others.length === 0 && (await button.count()) > 0) await tap(button.first())
  else {
    await tap(page.locator('#q'), false)
    await page.locator('#q').fill(
      person.complaint
        .map((id) => statementOf.get(id) ?? id)
        .join('. ')
        .slice(0, 300),
    )
    await tap(page.getByRole('button', { name: 'Say it' }))
    await see('heard')
    for (const box of await page.locator('.ticks').first().locator('input[type=checkbox]').all()) {
      const meant = person.complaint.includes((await box.getAttribute('name'))!.replace(/^q-/, ''))
      if (meant !== (await box.isChecked())) await tap(box, false)
    }
    const right = page.getByRole('button', { name: 'Right, go on' })
    await tap((await right.count()) > 0 ? right : page.locator('button[name=say][value=""]'))
  }

  for (let turn = 0; turn < mostScreens; turn++) {
    const h1 = await page.locator('h1').first().innerText()
    if ((await page.locator('.stop').count()) > 0) {
      await see('stop')
      return done(`stop: ${h1}`)
    }
    if ((await page.locator('.signs').count()) > 0) {
      await see('danger')
      const signs = await page
        .locator('.sign-yes')
        .evaluateAll((all) => all.map((it) => it.getAttribute('value')!))
      const sign = signs.find((id) => person.answer(id) === 'yes')
      const yes = page.locator(`.sign-yes[value="${sign}"]`)
      const together = page.locator('.signs-together', { has: yes }).locator('> summary')
      if (sign && (await together.count()) > 0) await tap(together, false)
      await tap(sign ? yes : page.locator('button[name=rest][value=no]'))
    } else if ((await page.locator('input[name=asked]').count()) > 0) {
      looks++
      await see('look')
      await answer(page, person, tap)
    } else {
      await see('end')
      return done(`${(await page.locator('a.answer[href*="at=1"]').count()) > 0 ? 'fix' : 'ending'}: ${h1}`)
    }
  }
  throw new Error(`${person.id} did not come to an end`)
}

async function answer(
  page: Page,
  person: Person,
  tap: (target: Locator, leads?: boolean) => Promise<void>,
): Promise<void> {
  const asked = (await page.locator('input[name=asked]').inputValue()).split(',')
  const answers = new Map(asked.map((id) => [id, person.answer(id)]))
  const only = asked.length === 1 ? asked[0]! : null
  const told = only === null ? undefined : answers.get(only)
  const buttons = page.locator(`.thumb button[name="q-${only}"]`)
  if (only !== null && (await buttons.count()) > 0)
    return tap(page.locator(`.thumb button[name="q-${only}"][value="${told ?? 'cant-tell'}"]`))
  // beside Listen, what is told without it is folded
  const byEar = page.locator('details[data-by-ear]:not([open]) > summary')
  if ((await byEar.count()) > 0) await tap(byEar, false)
  for (const [id, value] of answers) {
    const field = page.locator(`#n-${id}`)
    if (typeof value === 'number' && (await field.count()) > 0) {
      await tap(field, false)
      await field.fill(String(value))
    } else if (value === 'yes') await tap(page.locator(`input[type=checkbox][name="q-${id}"]`), false)
  }
  if (only !== null && typeof told === 'number') return tap(page.getByRole('button', { name: 'Use it' }))
  const known = [...answers.values()].every((value) => value !== undefined && value !== 'cant-tell')
  await tap(page.locator(`button[name=rest][value="${known && only === null ? 'no' : 'cant-tell'}"]`))
}

/** Runs in the page: words in `main` that are shown, folded and hidden ones left out. */
const countWords = `(() => {
  const texts = document.createTreeWalker(document.querySelector('main'), NodeFilter.SHOW_TEXT)
  let words = 0
  for (let node = texts.nextNode(); node; node = texts.nextNode()) {
    const around = node.parentElement
    if (!around.checkVisibility({ contentVisibilityAuto: true }) || around.closest('.visually-hidden')) continue
    words += node.textContent.trim().split(/\\s+/).filter(Boolean).length
  }
  return words
})()`

/** Runs in the page: does something to tap lie whole in what is seen first? */
const lookForFirst = `[...document.querySelectorAll('main a.hang, main a.pick-picture, main button:not(.plain), main a.answer, main .tick, main #q')]
  .some((it) => {
    const { top, bottom, height } = it.getBoundingClientRect()
    return height > 0 && top >= 0 && bottom <= ${reach}
  })`

const wordsShown = (page: Page): Promise<number> => page.evaluate<number>(countWords)
const firstInReach = (page: Page): Promise<boolean> => page.evaluate<boolean>(lookForFirst)

/** Runs in the page: how many unfolded lines to tick or tap end under the plate of answers? */
const countHidden = `(() => {
  const plate = document.querySelector('form[data-answers] > .thumb, .signs ~ .thumb')
  return [...document.querySelectorAll('form[data-answers] .tick, .signs .sign-yes, .signs summary')]
    .filter((line) => line.checkVisibility() && line.getBoundingClientRect().bottom > plate.getBoundingClientRect().top + 1)
    .length
})()`
const hiddenLines = (page: Page): Promise<number> => page.evaluate<number>(countHidden)
