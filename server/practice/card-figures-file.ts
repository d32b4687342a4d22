/** The figures of the cards as they lie in the practice folder, written by `npm run cards`. */
import { existsSync, readFileSync } from 'node:fs'
import { CardFigures } from '../../shared/card-figures.js'

export const cardFiguresFile = new URL('./card-figures.json', import.meta.url)

/**
 * @returns null where nothing was measured yet
 * @throws Error where the file is not what `npm run cards` writes
 */
export function readCardFigures(file: URL = cardFiguresFile): CardFigures | null {
  if (!existsSync(file)) return null
  let found: unknown
  try {
    found = JSON.parse(readFileSync(file, 'utf8'))
  } catch {
    // what is no JSON at all is of no shape either
  }
  const read = CardFigures.safeParse(found)
  if (read.success) return read.data
  const [first] = read.error.issues
  throw new Error(
    `server/practice/card-figures.json: ${[first!.path.join('.'), first!.message].filter(Boolean).join(': ')}; ` +
      'run npm run cards, which writes it again',
  )
}
