import { expect, it, vi } from 'vitest'
import type { Played } from '../../server/practice/played.js'
import { thinkAhead } from '../../server/remembered/exercises.js'

it('a failure while thinking ahead is written to the log, and the line goes on', async () => {
  const log = vi.fn()
  const broken = { desk: null, done: [{ before: null, refused: undefined, slips: [] }] } as unknown as Played
  await thinkAhead(broken, log)
  expect(log).toHaveBeenCalledExactlyOnceWith(expect.any(TypeError))
  await thinkAhead(broken, log)
  expect(log).toHaveBeenCalledTimes(2)
})
