/** What the proof's pages are made of: sections with tables, every cell a finished word. */
import type { Estimate } from '../../../shared/proof.js'
import type { Frame } from '../layout/frame.js'
import { money } from '../layout/words.js'

export interface ProofPage {
  readonly frame: Frame
  readonly eyebrow: { readonly href: string; readonly name: string }
  readonly heading: string
  readonly lead: string
  /** what has changed since the figures were taken; empty while they hold */
  readonly stale: readonly string[]
  readonly sections: readonly ProofSection[]
}

export interface ProofSection {
  readonly heading: string
  readonly texts: readonly string[]
  readonly table: ProofTable | null
  /** for a long table: shut until somebody opens it, under these words */
  readonly folded: string | null
  readonly items: readonly ProofItem[]
}

interface ProofItem {
  readonly name: string
  readonly href: string | null
  readonly note: string
}

interface ProofCell {
  readonly text: string
  readonly note: string
  /** figures stand under one another, words do not */
  readonly isFigure: boolean
}

interface ProofTable {
  readonly caption: string
  readonly head: readonly string[]
  readonly rows: readonly {
    readonly name: string
    readonly href: string | null
    readonly cells: readonly ProofCell[]
  }[]
}

/** A section with what is not given left empty. */
export function proofSection(heading: string, given: Partial<Omit<ProofSection, 'heading'>>): ProofSection {
  return { texts: [], table: null, folded: null, items: [], ...given, heading }
}

export const cell = (text: string, note = ''): ProofCell => ({ text, note, isFigure: true })
export const wordCell = (text: string): ProofCell => ({ text, note: '', isFigure: false })

/** "82 ±1": a share as a count of 100. The page says once that these are counts of 100. */
export function countCell(share: Estimate, note = '') {
  return cell(`${Math.round(100 * share.mean)} ±${atLeastOne(100 * share.se)}`, note)
}

/** The same held against a mark: rounded down, so that what is under the mark never reads as if it were on it. */
export function markCell(share: Estimate, note: string) {
  return cell(`${Math.floor(100 * share.mean + 1e-9)} ±${atLeastOne(100 * share.se)}`, note)
}

/** "4.9 ±0.3": a mean count, such as steps. */
export function meanCell({ mean, se }: Estimate) {
  return cell(`${mean.toFixed(1)} ±${Math.max(0.1, se).toFixed(1)}`)
}

/** "19 ±2": minutes, or money in whole units where cents would pretend too much. */
export function wholeCell({ mean, se }: Estimate) {
  return cell(`${mean < -0.5 ? '−' : ''}${Math.round(Math.abs(mean))} ±${atLeastOne(se)}`)
}

/** "27.50": money lost. */
export const moneyCell = (amount: number) => cell(money(amount))

/** A spread that rounds to nothing would look like certainty. */
const atLeastOne = (spread: number): number => Math.max(1, Math.round(spread))
