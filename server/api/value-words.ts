/** What is wrong with a value, in words that say what to send instead. zod's own texts are for programmers. */
import type { z } from 'zod'

const kinds: Readonly<Record<string, string>> = {
  string: 'a text',
  number: 'a number that fits',
  int: 'a whole number',
  boolean: 'true or false',
  array: 'a list',
  object: 'an object',
  record: 'an object',
}

/** Given to zod for one parse; a message written beside the schema goes before it. */
export const valueWords: z.core.$ZodErrorMap = (issue) => {
  switch (issue.code) {
    case 'invalid_type': {
      const wanted = kinds[issue.expected] ?? issue.expected
      return issue.input === undefined ? `is missing; give ${wanted}` : `must be ${wanted}`
    }
    case 'invalid_value':
      return `must be ${listed(issue.values.map((value) => JSON.stringify(value)))}`
    case 'invalid_union': {
      const each = issue.errors.flat().map(({ message }) => message.replace(/^must be /, ''))
      return each.length > 0 ? `must be ${listed([...new Set(each)])}` : undefined
    }
    case 'too_small':
      return `must ${limit(issue.origin, 'least', issue.minimum)}`
    case 'too_big':
      return `must ${limit(issue.origin, 'most', issue.maximum)}`
    default:
      return undefined
  }
}

function limit(origin: string, which: 'least' | 'most', bound: number | bigint): string {
  if (origin === 'string') return `have at ${which} ${bound} characters`
  if (origin === 'array') return `have at ${which} ${bound} items`
  return `be at ${which} ${bound}`
}

function listed(words: readonly string[]): string {
  const last = words.at(-1) ?? ''
  return words.length > 1 ? `${words.slice(0, -1).join(', ')} or ${last}` : last
}
