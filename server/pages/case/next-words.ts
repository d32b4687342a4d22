import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { aboutMoneyIn } from '../layout/money.js'
import { listWords, minutes } from '../layout/words.js'

/** One figure with its name, in the line at the foot of a sheet. */
export interface Fact {
  readonly term: string
  readonly words: string
}

/** Why this step is the next one. */
export interface Reason {
  /** what it tells apart or cures, in one sentence */
  readonly separates: string
  /** what was said that speaks for what a fix is meant for; empty for a look */
  readonly said: string
  /** what it is expected to save, in one sentence; empty when that is nothing */
  readonly saves: string
  readonly exact: string
  /** when to give up: what follows if this tells or cures nothing, and how long it is worth; empty when that is far off */
  readonly giveUp: string
  /** where the three ways out are compared */
  readonly worth: string
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
    said: next.step === 'fix' ? saidFor(on) : '',
    saves: savesWords(on),
    giveUp: giveUpWords(on),
    worth: `/cases/${on.bench.id}/worth`,
    exact: next.exact
      ? 'Few suspects are left, so every way from here was worked through.'
      : 'The ways from here were weighed by what they cost and what they are likely to show.',
  }
}

function separatesWords(step: string, count: number): string {
  if (step === 'fix' || step === 'nothing-found') return 'It is meant for'
  return count === 1 ? 'It settles whether it is' : 'It tells apart'
}

/** So many signs convince; the page of suspects has them all. */
const mostSigns = 3

/** "Bright or long sparks at the vents; it cuts in and out: that speaks for worn carbon brushes." */
function saidFor({ knowledge, assessment: { causes, next, findings } }: OnBench): string {
  const { questions, questionOf } = lookupOf(knowledge)
  const meant = causes.find(({ id }) => next.separates.includes(id))
  const signs = [...(meant?.for ?? [])]
    .filter(({ finding }) => findings.get(finding) === 'yes')
    .sort((a, b) => b.decibans - a.decibans)
    .slice(0, mostSigns)
    .flatMap(({ finding }) => questions.get(questionOf.get(finding) ?? '')?.question.statement ?? [])
  return meant && signs.length > 0 ? `${signs.join('; ')}: that speaks for ${meant.name.toLowerCase()}.` : ''
}

function savesWords(on: OnBench): string {
  const { saves } = on.assessment.next
  const { rate } = on.shop
  if (saves < 0.05) return ''
  const worth =
    rate > 0 && saves / rate >= 1.5
      ? `, as much as ${minutes(saves / rate).replace('about ', '')} of bench time`
      : ''
  return `It should leave you ${aboutMoneyIn(saves, on.currency)} better off than ending here${worth}.`
}

/** Longer than this at one step nobody stays anyway, in minutes. */
const longStay = 90

/** "If this does not do it, sending in is cheaper (about €60). It is worth about 25 minutes at most." */
function giveUpWords({ assessment: { next }, shop, currency }: OnBench): string {
  const words: string[] = []
  if (next.after !== null) {
    const then = { fix: 'this does not do it', 'nothing-found': 'it does it again' }[String(next.step)]
    const [way, cost] = next.after === 'send-in' ? ['sending in', shop.sendIn] : ['a new one', shop.replace]
    words.push(`If ${then ?? 'nothing here is so'}, ${way} is cheaper (${aboutMoneyIn(cost, currency)}).`)
  }
  if (next.worthMinutes !== null && next.worthMinutes < longStay)
    words.push(`Do not spend more than ${minutes(next.worthMinutes)} on it: then ending here is cheaper.`)
  return words.join(' ')
}
