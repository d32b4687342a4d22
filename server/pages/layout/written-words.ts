/** Who wrote what, a line each. */
import type { Written } from '../../../shared/person.js'
import { instantWords } from './words.js'

/** Lines of a history that a page shows. */
export const mostWritten = 20

/** @param other words for what is done to this sort of thing alone, by the first word of what was done */
/** Who it was, where they are known no more. */
export const removedPerson = 'somebody'

export const writtenLines = (
  written: readonly Written[],
  other: Readonly<Record<string, (rest: string) => string>> = {},
): readonly string[] =>
  written.map(({ at, did, by }) => {
    const [, first = '', rest = ''] = /^(\S*) ?(.*)$/s.exec(did) ?? []
    return `${instantWords(at)}, ${by ?? removedPerson}: ${other[first]?.(rest) ?? did}`
  })
