import { expect, it } from 'vitest'
import { killTimes } from './kills.js'

// the long run is `npm run kills`: 200 of them, with its figures in README
it('loses nothing that was confirmed, and leaves nothing half, over a few blows under mixed load', async () => {
  const moments = [0.1, 0.5, 0.9]
  const found = await killTimes(3, () => moments.shift() ?? 0.5)
  expect(found).toMatchObject({ kills: 3, lost: 0, torn: 0, damaged: 0 })
  expect(found.confirmed).toBeGreaterThan(60)
})
