import { randomBytes } from 'node:crypto'

/** Crockford's base 32 without look-alikes (no i, l, o, u), small letters: easy to read out across a room. */
const LETTERS = '0123456789abcdefghjkmnpqrstvwxyz'

/** What a case id looks like; checked before the store is asked. */
export const CASE_ID = /^[0-9a-hjkmnp-tv-z]{8}$/

/** A new case id: 8 letters of base 32, 40 bits that nobody can guess. */
export function newCaseId(): string {
  // 256 is a multiple of 32, so that every letter is equally likely.
  return [...randomBytes(8)].map((byte) => LETTERS[byte % LETTERS.length]).join('')
}
