/** A hand that has only a keyboard. Nothing is focused by a script: whatever is pressed was reached by Tab. */
import type { Locator, Page } from 'playwright-core'
import type { Hand } from './barber.js'

/** More than any page of the product holds. */
const mostStops = 160

/** Tab onward until the target has the focus; a radio group is one stop, its choices are reached by arrows. */
async function reach(page: Page, target: Locator): Promise<void> {
  const group = await target.evaluate((element): string | null => {
    element.setAttribute('data-wanted', '')
    return element.getAttribute('type') === 'radio' ? element.getAttribute('name') : null
  })
  for (let stop = 0; stop < mostStops; stop++) {
    const { there, name } = await page.evaluate<{ there: boolean; name: string | undefined }>(
      `({ there: document.activeElement.hasAttribute('data-wanted'), name: document.activeElement.name })`,
    )
    if (there) return target.evaluate((element) => element.removeAttribute('data-wanted'))
    await page.keyboard.press(group !== null && name === group ? 'ArrowDown' : 'Tab')
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
