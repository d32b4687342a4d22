/** What would change the answer, as sentences: a figure with the value at which another way is better. */
import type { Currency } from '../../../shared/figures.js'
import type { Flip } from '../../decision/break-even.js'
import { conditionWords, turnedWords, wayWords } from './worth-words.js'

export interface FlipLine {
  /** where the figure can be changed */
  readonly href: string
  readonly words: string
  /** for programs and tests: the figure, the value in its own unit, and which way is best there */
  readonly figure: string
  readonly at: number
  readonly to: string
}

/** The fold of a figure, where the dial turns two of them together. */
const foldOf: Readonly<Record<string, string>> = { fee: 'feeLow', daysAway: 'daysAwayLow' }

export const flipLines = (flips: readonly Flip[], currency: Currency): readonly FlipLine[] =>
  flips.map(({ figure, now, at, to }) => ({
    href: `#figure-${foldOf[figure] ?? figure}`,
    words: `${wayWords[to].wins} if ${conditionWords(figure, turnedWords(figure, at, currency), at > now)}`,
    figure,
    at,
    to,
  }))
