/** The laws of the store in a file of its own, which is what a shop has unless it says otherwise. */
import { describe, expect, it } from 'vitest'
import { Stopping } from '../../server/errors.js'
import { counting } from '../register/open-register.js'
import { caseLaws } from './case-laws.js'
import { inAFile } from './grounds.js'
import { registerLaws } from './register-laws.js'
import { shopLaws } from './shop-laws.js'

describe('in a file: cases', () => caseLaws(inAFile))
describe('in a file: the register', () => registerLaws(inAFile))
describe('in a file: tools, care, shelf, people', () => shopLaws(inAFile))

it('in a file: what is asked for once it is closed is told that the program is being stopped', async () => {
  const ground = await inAFile()
  const stores = await ground.open(counting())
  await stores.close()
  await expect(stores.cases.count()).rejects.toThrow(Stopping)
  await expect(stores.exports.all()).rejects.toThrow(Stopping)
  await ground.end()
})
