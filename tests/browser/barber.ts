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

  async begin(complaint: readonly string[], tool = 'Chair 2'): Promise<string> {
    await this.page.goto('/')
    await this.hand.choose(this.page.locator('#kind-universal-motor'))
    await this.hand.type(this.page.locator('#tool'), tool)
    await this.press('Put it on the bench')
    for (const question of complaint) {
      const box = this.page.locator(`input[name="q-${question}"]`).first()
      const fold = this.page.locator('details:not([open])', { has: this.page.locator(`#q-${question}`) })
      if ((await fold.count()) > 0) await this.hand.press(fold.locator('summary').first())
      await this.hand.choose(box)
    }
    await this.press('That is what I notice')
    return new URL(this.page.url()).pathname
  }

  /** Press the button or link of this name, and wait for the page that it leads to. */
  async press(name: string | RegExp): Promise<void> {
    const button = this.page.getByRole('button', { name })
    const target = (await button.count()) > 0 ? button : this.page.getByRole('link', { name })
    await this.go(target)
  }

  /** Answer the danger screen: the signs named with yes, all others with `rest`. */
  async lookForDanger(signs: readonly string[] = [], rest: 'no' | 'cant-tell' = 'no'): Promise<void> {
    await this.eachOf(signs, rest)
    await this.press('All looked at')
  }

  /** One step, whatever its form. */
  async answer(yes: readonly string[], rest: 'no' | 'cant-tell' = 'no'): Promise<void> {
    const asked = (await this.page.locator('input[name="asked"]').inputValue()).split(',')
    const { page, hand } = this
    const single = page.locator(
      `.thumb button[name^="q-"][value="${yes.includes(asked[0] ?? '') ? 'yes' : rest}"]`,
    )
    if ((await single.count()) > 0) return this.go(single)
    const onward = page.locator('.thumb .go')
    if ((await onward.count()) > 0) {
      await this.eachOf(yes, rest)
      return this.go(onward)
    }
    for (const question of asked.filter((id) => yes.includes(id))) {
      const tick = page.locator(`input[type="checkbox"][name="q-${question}"][value="yes"]`)
      if ((await tick.count()) > 0) await hand.choose(tick)
    }
    // A reading needs an instrument, which this barber has not.
    const readings = await page.locator('.measure input').count()
    const cannot = page.locator('.thumb button[name="cant-tell-rest"]')
    if (rest === 'cant-tell' || (readings > 0 && asked.length === readings)) return this.go(cannot)
    for (const unread of await page.locator('.choice input[type="checkbox"][value="cant-tell"]').all())
      await hand.choose(unread)
    return this.go(page.locator('.thumb button:not([name="cant-tell-rest"])'))
  }

  /** Go on, truly answering and trying what is advised, until there is nothing left to do. */
  async workOn(truth: Truth, most = 40): Promise<void> {
    for (let screen = 0; screen < most; screen++) {
      const { page } = this
      if ((await page.locator('input[name="asked"]').count()) > 0) await this.answer(truth.yes)
      else if ((await page.locator('input[name="fix"]').count()) > 0) await this.tryFix(truth.cause)
      else if ((await this.heading()) === 'What does it do now?') await this.press('That is how it is now')
      else return
    }
    throw new Error(`no end after ${most} screens: ${await this.heading()}`)
  }

  /** Say truly whether the fix on the page cured it. */
  async tryFix(cause: string): Promise<void> {
    const id = await this.page.locator('input[name="fix"]').inputValue()
    const cures = this.knowledge.fixes.find((fix) => fix.id === id)?.cures[cause] ?? 0
    await this.go(this.page.locator(`.thumb button[value="${cures > 0.5 ? 'cured' : 'no'}"]`))
  }

  private async eachOf(yes: readonly string[], rest: 'no' | 'cant-tell'): Promise<void> {
    for (const row of await this.page.locator('fieldset.choice').all()) {
      const name = await row.locator('input[type="radio"]').first().getAttribute('name')
      const value = yes.includes(String(name).slice(2)) ? 'yes' : rest
      await this.hand.choose(row.locator(`input[value="${value}"]`))
    }
  }

  private async go(target: Locator): Promise<void> {
    await Promise.all([this.page.waitForEvent('load'), this.hand.press(target.first())])
  }
}
