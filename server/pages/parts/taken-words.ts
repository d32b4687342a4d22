import type { Part } from '../../../shared/part.js'
import type { OnBench } from '../../bench/on-bench.js'
import { listWords } from '../layout/words.js'
import { countWords } from './part-words.js'

/** What a closed case took from the shelf, and where the shelf had none. */
export function takenWords({
  taken,
  shelf,
}: Pick<OnBench, 'taken' | 'shelf'>): { batch: string; words: string } | null {
  const [first] = taken
  if (!first) return null
  const named = taken.flatMap((move) => {
    const part = shelf.find(({ id }) => id === move.partId)
    return part ? [{ part, move }] : []
  })
  const had = named.filter(({ move }) => move.change < 0).map(({ part }) => part.name)
  const none = named
    .filter(({ part, move }) => -move.change < part.details.perUse)
    .map(({ part }) => part.name)
  const words = [
    ...(had.length > 0 ? [`Taken from the shelf: ${listWords(had)}.`] : []),
    ...(none.length > 0 ? [`The shelf had too little: ${listWords(none)}. Count it.`] : []),
  ]
  return { batch: first.batch, words: words.join(' ') }
}

/** "pair of brushes: 2 (drawer 3)". */
export const onShelfWords = ({ name, stock, details: { shelf } }: Part): string =>
  `${name}: ${stock === 0 ? 'none' : countWords(stock)}${shelf === undefined ? '' : ` (${shelf})`}`
