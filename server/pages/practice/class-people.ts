/** Names of classes and people as forms give them, and what was done with them. */
import type { Problem } from '../../forms/answer-form.js'

const longestName = 80
/** Something that can be seen: neither space nor control sign. */
const visible = /[^\p{Z}\p{C}]/u

/** @returns what is wrong with a name, for the field that holds it */
export function nameProblem(field: string, name: string): Problem | null {
  if (!visible.test(name)) return { field, message: 'Write a name' }
  if (name.length > longestName)
    return { field, message: `Make the name shorter: ${longestName} letters fit` }
  return null
}

const notices = new Map([
  ['added', 'Added. On their own phone they choose their name.'],
  ['renamed', 'Kept.'],
  ['moved', 'Moved to the other class, with all they have done.'],
  ['set-removed', 'Removed.'],
  ['set', 'Set. It stands first on everybody’s own page.'],
])

/** What a page says after something was done, from the address; null for anything else. */
export const noticeOf = (done: unknown): string | null =>
  typeof done === 'string' ? (notices.get(done) ?? null) : null
