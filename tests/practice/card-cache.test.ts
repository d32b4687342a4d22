/** Cards remembered: compiled once, a failure forgotten, and other work let through meanwhile. */
import { expect, it } from 'vitest'
import { cardOf } from '../../server/remembered/cards.js'
import { preparedRulebook } from '../the-rulebook.js'

it('a card asked for twice at a time is compiled once; of another rulebook it is another', async () => {
  const book = await preparedRulebook()
  const first = cardOf(book, 'magnetic-motor', 'louder-than-before')
  expect(cardOf(book, 'magnetic-motor', 'louder-than-before')).toBe(first)
  const other = cardOf({ ...book }, 'magnetic-motor', 'louder-than-before')
  expect(other).not.toBe(first)
  // the same tree each time
  expect((await other).root).toEqual((await first).root)
})

it('what failed is tried again', async () => {
  const book = await preparedRulebook()
  const failed = cardOf(book, 'magnetic-motor', 'no-such-thing')
  await expect(failed).rejects.toThrow(RangeError)
  const again = cardOf(book, 'magnetic-motor', 'no-such-thing')
  expect(again).not.toBe(failed)
  await expect(again).rejects.toThrow(RangeError)
})

it('others are let through while it is compiled, before each line', async () => {
  const book = await preparedRulebook()
  let through = 0
  let isDone = false
  const other = () => {
    through++
    if (!isDone) setImmediate(other)
  }
  setImmediate(other)
  const card = await cardOf(book, 'pivot-motor', 'louder-than-before')
  isDone = true
  expect(card.questions).toBeGreaterThan(5)
  expect(through).toBeGreaterThan(card.questions)
})
