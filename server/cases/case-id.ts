import { randomBytes } from 'node:crypto'

/** Crockford's base 32 without look-alikes (no i, l, o, u), small letters: easy to read out across a room. */
const LETTERS = '0123456789abcdefghjkmnpqrstvwxyz'

/** A new case id: 8 letters of base 32, 40 bits that nobody can guess. */
export function newCaseId(): string {
  // 256 is a multiple of 32, so that every letter is equally likely.
  return [...randomBytes(8)].map((byte) => LETTERS[byte % LETTERS.length]).join('')
}
