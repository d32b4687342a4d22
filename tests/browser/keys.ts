/** A hand that has only a keyboard. Nothing is focused by a script: whatever is pressed was reached by Tab. */
import type { Locator, Page } from 'playwright-core'
import type { Hand } from './barber.js'

/** More than any page of the product holds. */
const mostStops = 160

const isFocused = (target: Locator): Promise<boolean> =>
  target.evaluate((element) => element.ownerDocument.activeElement === element)

/** Tab onward until the target has the focus; a radio group is one stop, its choices are reached by arrows. */
async function reach(page: Page, target: Locator): Promise<void> {
  const group = await target.evaluate((element): string | null =>
    element.getAttribute('type') === 'radio' ? element.getAttribute('name') : null,
  )
  for (let stop = 0; stop < mostStops; stop++) {
    if (await isFocused(target)) return
    const inGroup = group !== null && (await page.evaluate('document.activeElement.name')) === group
    await page.keyboard.press(inGroup ? 'ArrowDown' : 'Tab')
  }
  throw new Error('the keyboard does not reach it')
}

export function keysOf(page: Page): Hand {
  return {
    async press(target) {
      await reach(page, target)
      await page.keyboard.press('Enter')
    },
    async choose(input) {
      await reach(page, input)
      await page.keyboard.press('Space')
    },
    async type(field, text) {
      await reach(page, field)
      await page.keyboard.type(text)
    },
  }
}
