/** The laws of the store in a file of its own, which is what a shop has unless it says otherwise. */
import { describe } from 'vitest'
import { caseLaws } from './case-laws.js'
import { inAFile } from './grounds.js'
import { registerLaws } from './register-laws.js'
import { shopLaws } from './shop-laws.js'

describe('in a file: cases', () => caseLaws(inAFile))
describe('in a file: the register', () => registerLaws(inAFile))
describe('in a file: tools, care, shelf, people', () => shopLaws(inAFile))
