import { expect, it } from 'vitest'
import { attack } from './attack.js'

// the long run is `npm run hostile`: 100 000 of them
it('answers five hundred hostile requests over all routes without a fault, a stack or an echo', async () => {
  const { faults, requests, routes, statuses } = await attack(500)
  expect(faults).toEqual([])
  expect(requests).toBe(500)
  expect(routes).toBeGreaterThan(60)
  // it got past the first look in some, too
  expect((statuses['2xx'] ?? 0) + (statuses['3xx'] ?? 0)).toBeGreaterThan(50)
})
