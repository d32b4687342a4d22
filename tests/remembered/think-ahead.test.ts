import { expect, it, vi } from 'vitest'
import type { Exercise } from '../../shared/practice.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { thinkAhead } from '../../server/remembered/exercises.js'

it('a failure while thinking ahead is written to the log, and the line goes on', async () => {
  const log = vi.fn()
  const doSum = vi.fn(() => Promise.reject(new TypeError('broken')))
  const think = () => thinkAhead({} as Prepared, { exercise: {} as Exercise }, {}, doSum, log)
  await think()
  expect(log).toHaveBeenCalledExactlyOnceWith(expect.any(TypeError))
  await think()
  expect([doSum, log].map((its) => its.mock.calls.length)).toEqual([2, 2])
})
