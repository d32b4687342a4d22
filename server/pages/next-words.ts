import { lookupOf } from './lookup.js'
import type { OnBench } from './on-bench.js'
import { aboutMoney, listWords, minutes } from './words.js'

/** One figure with its name, in the line at the foot of a sheet. */
export interface Fact {
  readonly term: string
  readonly words: string
}

/** Why this step is the next one. */
export interface Reason {
  /** what it tells apart or cures, in one sentence */
  readonly separates: string
  /** what it is expected to save, in one sentence; empty when that is nothing */
  readonly saves: string
  readonly exact: string
}

/** At most so many names in a sentence, or nobody reads it. */
const mostNames = 4

/** Why the next step is worth its minutes, in words that name the causes it tells apart. */
export function reasonFor(on: OnBench): Reason {
  const { next } = on.assessment
  const { causes } = lookupOf(on.knowledge)
  const names = next.separates.flatMap((id) => causes.get(id)?.name.toLowerCase() ?? [])
  const named = names.slice(0, mostNames)
  const more = names.length - named.length
  const list = more > 0 ? `${named.join(', ')} and ${more} more` : listWords(named)
  return {
    separates: names.length === 0 ? '' : `${separatesWords(next.step, names.length)} ${list}.`,
    saves: savesWords(on),
    exact: next.exact
      ? 'Few suspects are left, so every way from here was worked through.'
      : 'The ways from here were weighed by what they cost and what they are likely to show.',
  }
}

function separatesWords(step: string, count: number): string {
  if (step === 'fix' || step === 'nothing-found') return 'It is meant for'
  return count === 1 ? 'It settles whether it is' : 'It tells apart'
}

function savesWords(on: OnBench): string {
  const { saves } = on.assessment.next
  const { rate } = on.shop
  if (saves < 0.05) return ''
  const worth =
    rate > 0 && saves / rate >= 1.5
      ? `, as much as ${minutes(saves / rate).replace('about ', '')} of bench time`
      : ''
  return `It should leave you ${aboutMoney(saves)} better off than ending here${worth}.`
}
