/**
 * Somebody at the bench who knows what is wrong with the tool and answers truly, through a real page. How a
 * button is pressed (thumb, mouse or keys) is up to the hand.
 */
import type { Locator, Page } from 'playwright-core'
import type { Knowledge } from '../../shared/knowledge.js'

export interface Hand {
  /** press a button or follow a link */
  press(target: Locator): Promise<void>
  /** choose a radio button or tick a box */
  choose(input: Locator): Promise<void>
  type(field: Locator, text: string): Promise<void>
}

export const thumb: Hand = {
  press: (target) => target.tap(),
  choose: (input) => input.locator('xpath=ancestor::label').tap(),
  async type(field, text) {
    await field.tap()
    await field.fill(text)
  },
}

export const mouse: Hand = {
  press: (target) => target.click(),
  choose: (input) => input.locator('xpath=ancestor::label').click(),
  type: (field, text) => field.fill(text),
}

/** What is so with the tool: every other question is answered with no, readings cannot be told. */
export interface Truth {
  readonly yes: readonly string[]
  /** the cause; a fix that cures it cures the tool */
  readonly cause: string
}

export class Barber {
  constructor(
    readonly page: Page,
    private readonly hand: Hand,
    private readonly knowledge: Knowledge,
  ) {}

  /** The first heading of the page that is open. */
  async heading(): Promise<string> {
    return (await this.page.locator('h1').first().innerText()).replaceAll(/\s+/g, ' ')
  }

  /** From the front page to the danger screen. */
  async begin(complaint: readonly string[], tool = 'Chair 2'): Promise<string> {
    const { page } = this
    const kind = this.knowledge.kinds.find(({ id }) => id === 'universal-motor')!
    await page.goto('/')
    await this.go(page.locator(`a[href="/new?on=${kind.runsOn}"]`))
    await this.go(page.locator(`button[name="kind"][value="${kind.id}"]`))
    const home = new URL(page.url()).pathname.replace('/complaint', '')
    if (tool !== '') await this.name(home, tool)
    await this.tell(complaint)
    return home
  }

  /** On the page of complaints: one by its button, several or a rare one from the list. */
  async tell(complaint: readonly string[]): Promise<void> {
    const { page, hand } = this
    const [only = ''] = complaint
    const button = page.locator(`button[name="say"][value="${only}"]`)
    if (complaint.length <= 1 && (await button.count()) > 0) await this.go(button)
    else {
      await hand.press(page.locator('[data-fold="all-lines"] > summary'))
      for (const question of complaint) await hand.choose(page.locator(`#q-${question}`))
      await this.go(page.locator('[data-fold="all-lines"] button'))
    }
  }

  /** Give the tool a name, and go back to what it does. */
  private async name(home: string, tool: string): Promise<void> {
    await this.page.goto(`${home}/tool`)
    await this.hand.type(this.page.locator('#tool'), tool)
    await this.go(this.page.locator('.thumb button'))
  }

  /** Press the button or link of this name, and wait for the page that it leads to. */
  async press(name: string | RegExp): Promise<void> {
    const button = this.page.getByRole('button', { name })
    const target = (await button.count()) > 0 ? button : this.page.getByRole('link', { name })
    await this.go(target)
  }

  /** Press the first of what a selector finds, and wait for the page that it leads to. */
  pressAt(selector: string): Promise<void> {
    return this.go(this.page.locator(selector))
  }

  /** Answer the danger screen: the first sign that is there by its tap, else none of them, or each "not sure". */
  async lookForDanger(signs: readonly string[] = [], rest: 'no' | 'cant-tell' = 'no'): Promise<void> {
    const { page, hand } = this
    const asked = () => page.locator('.sign-yes')
    for (const sign of signs) {
      const yes = page.locator(`.sign-yes[value="${sign}"]`)
      const together = page.locator('.signs-together:not([open])', { has: yes }).locator('> summary')
      if ((await together.count()) > 0) await hand.press(together)
      await this.go(yes)
    }
    if (signs.length > 0) return
    if (rest === 'no') return this.go(page.locator('button[name="rest"]'))
    for (let most = await asked().count(); most > 0 && (await asked().count()) > 0; most--) {
      const together = page.locator('.signs > li:first-child > .signs-together:not([open]) > summary')
      if ((await together.count()) > 0) await hand.press(together)
      await hand.press(page.locator('.sign-how > summary').first())
      await this.go(page.locator('button[name="unsure"]').first())
    }
  }

  /** One look, whatever its form. A reading needs an instrument, which this barber has not. */
  async answer(yes: readonly string[], rest: 'no' | 'cant-tell' = 'no'): Promise<void> {
    const { page, hand } = this
    const asked = (await page.locator('input[name="asked"]').inputValue()).split(',')
    const only = asked.length === 1 ? asked[0]! : ''
    const single = page.locator(
      `.thumb button[name="q-${only}"][value="${yes.includes(only) ? 'yes' : rest}"]`,
    )
    if ((await single.count()) > 0) return this.go(single)
    // beside Listen, what is told without it is folded
    const byEar = page.locator('details[data-by-ear]:not([open]) > summary')
    if ((await byEar.count()) > 0) await hand.press(byEar)
    for (const question of asked.filter((id) => yes.includes(id)))
      await hand.choose(page.locator(`input[type="checkbox"][name="q-${question}"]`))
    const button = (value: string) => page.locator(`.thumb button[name="rest"][value="${value}"]`)
    return this.go((await button(rest).count()) > 0 ? button(rest) : button('cant-tell'))
  }

  /** Go on, truly answering and trying what is advised, until there is nothing left to do. */
  async workOn(truth: Truth, most = 60): Promise<void> {
    for (let screen = 0; screen < most; screen++) if (!(await this.oneScreen(truth))) return
    throw new Error(`no end after ${most} screens: ${await this.heading()}`)
  }

  /** Go on, answering no and trying in vain, until an ending is offered. */
  async toTheEnding(most = 60): Promise<void> {
    const offered = this.page.locator('.thumb button[formaction]')
    for (let screen = 0; screen < most && (await offered.count()) === 0; screen++)
      if (!(await this.oneScreen({ yes: [], cause: 'none of them' }))) return
  }

  /** Go on to the first screen of a fix. */
  async toTheFix(yes: readonly string[], most = 20): Promise<void> {
    for (let screen = 0; screen < most && !(await this.atFix()); screen++) {
      if (!(await this.lookFurther())) await this.answer(yes)
    }
  }

  /** Is this the first screen of a fix, which says what it takes? */
  async atFix(): Promise<boolean> {
    return (await this.page.locator('a.answer[href$="?at=1"]').count()) > 0
  }

  /** Where an ending is offered and not forced, go on looking. @returns whether one could */
  async lookFurther(): Promise<boolean> {
    const further = this.page.locator('.thumb button[formaction]')
    if ((await further.count()) === 0) return false
    await this.go(further)
    return true
  }

  /** One screen on. @returns false at an end */
  private async oneScreen(truth: Truth): Promise<boolean> {
    const { page } = this
    if ((await page.locator('input[name="asked"]').count()) > 0) await this.answer(truth.yes)
    else if (await this.atFix()) await this.tryFix(truth.cause)
    else if ((await page.locator('form[action$="/now"]').count()) > 0) await this.still()
    else return this.lookFurther()
    return true
  }

  /** Through the work, screen by screen, and then truly whether that cured it. */
  async tryFix(cause: string, otherwise: 'no' | 'better' = 'no'): Promise<void> {
    const { page } = this
    const outcome = page.locator('input[name="fix"]')
    while ((await outcome.count()) === 0) await this.go(page.locator('.thumb > a.answer'))
    const id = await outcome.inputValue()
    const cures = this.knowledge.fixes.find((fix) => fix.id === id)?.cures[cause] ?? 0
    await this.go(page.locator(`.thumb button[value="${cures > 0.5 ? 'cured' : otherwise}"]`))
  }

  /** After a fix in vain: nothing is other than before. */
  still(): Promise<void> {
    return this.go(this.page.locator('.thumb button[value="same"]'))
  }

  private async go(target: Locator): Promise<void> {
    await Promise.all([this.page.waitForEvent('load'), this.hand.press(target.first())])
  }
}
