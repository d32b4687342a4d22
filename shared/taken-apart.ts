/** Which work takes the tool apart. */
import type { Setup } from './knowledge.js'
import { setupsNeeded } from './setups-needed.js'

/**
 * By one of the set-ups that the work needs, or by one that these need.
 *
 * @param setups  those of a rulebook of one kind
 * @param wanted  ids; unknown ones count for nothing
 */
export const takesApart = (setups: readonly Setup[], wanted: readonly string[]): boolean =>
  setupsNeeded(setups, wanted).some(({ opensBody, opensCase }) => opensBody || opensCase === true)
