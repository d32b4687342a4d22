/** Two faults of one tool, where the rulebook knows that one leads to the other. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Chain, Knowledge } from '../../shared/knowledge.js'

/** @returns undefined unless these are just two causes and a chain of the kind joins them */
export const chainOf = (knowledge: Knowledge, kind: string, causes: readonly string[]): Chain | undefined =>
  causes.length === 2
    ? bookOf(knowledge, kind).chains.find(
        ({ first, then }) => causes.includes(first) && causes.includes(then),
      )
    : undefined
