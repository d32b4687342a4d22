/** What came back from the service, in words. */
import type { CameBack } from '../../../shared/case.js'
import type { Currency } from '../../../shared/figures.js'
import { daysAway } from '../../cases/outcome.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { moneyIn } from '../layout/money.js'
import type { OnBench } from '../../bench/on-bench.js'
import { days } from '../layout/words.js'

/** As it stands on the page of a finished case. */
export interface ReturnedView {
  readonly facts: readonly { readonly term: string; readonly words: string }[]
  readonly correct: string
  readonly stillAway: string
}

export function returnedView(on: OnBench, said: CameBack): ReturnedView {
  const { bench, currency } = on
  return {
    facts: [
      { term: 'Mended', words: said.mended ? 'yes' : 'no' },
      { term: 'They found', words: foundWords(on, said) },
      { term: 'Fee', words: minorWords(said.fee, currency) },
      { term: 'Carriage', words: minorWords(said.carriage, currency) },
      { term: 'Away', words: `${days(daysAway(said))}, ${dateWords(said.left)} to ${dateWords(said.back)}` },
    ],
    correct: `/cases/${bench.id}/return`,
    stillAway: `/cases/${bench.id}/still-away`,
  }
}

/** The same in one line: "mended, Worn brushes, €48 and carriage €9.50, 8 days away". */
export function returnedWords(on: OnBench, said: CameBack): string {
  const { fee, carriage, mended } = said
  const paid = `${minorWords(fee, on.currency)} and carriage ${minorWords(carriage, on.currency)}`
  const found = foundWords(on, said)
  return `${mended ? 'fixed' : 'not fixed'}, found: ${found}; ${paid}; ${days(daysAway(said))} away`
}

/** A sum in minor units. */
export const minorWords = (minor: number, currency: Currency): string =>
  moneyIn(minor / 10 ** currency.digits, currency)

function foundWords({ knowledge }: OnBench, { cause, found }: CameBack): string {
  const name = cause === undefined ? undefined : (lookupOf(knowledge).causes.get(cause)?.name ?? cause)
  if (name === undefined) return found ? `“${found}”` : 'nothing said'
  return found ? `${name}; “${found}”` : name
}

/** "2 Mar 2026", from a day of the calendar. */
const dateWords = (day: string): string =>
  new Date(`${day}T00:00:00Z`).toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    timeZone: 'UTC',
  })
