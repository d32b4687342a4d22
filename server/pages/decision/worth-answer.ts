/** The answer in ten seconds: what to do, what it costs today, the chance that it runs, when; and one line why. */
import type { Act, Advice } from '../../decision/advice.js'
import type { CaseComparison } from '../../decision/case-comparison.js'
import type { Way } from '../../decision/options.js'
import type { Verdict } from '../../../shared/knowledge.js'
import type { OnBench } from '../../bench/on-bench.js'
import { countOf100, minutes } from '../layout/words.js'
import type { FlipLine } from './worth-flips.js'
import { flipLines } from './worth-flips.js'
import { about, dayWords, wayWords } from './worth-words.js'

export interface Answer {
  readonly act: Act
  readonly way: Way
  readonly title: string
  /** "Runs again: 78 of 100" */
  readonly facts: readonly { readonly term: string; readonly words: string }[]
  readonly why: string
  /** at most three, each held against the whole plan */
  readonly changes: readonly FlipLine[]
  /** said where no figure changes it */
  readonly firm: string
  /** on to doing it */
  readonly go: { readonly href: string; readonly words: string }
}

export function answerOf(
  { currency, bench, assessment }: OnBench,
  { advice, flips, firm }: CaseComparison,
): Answer {
  const { act, option, today } = advice
  return {
    act,
    way: option.way,
    title: titleOf(advice),
    facts: factsOf(advice, about(today, currency)),
    why: whyOf(advice, (minor) => about(minor, currency)),
    changes: flipLines(flips, currency),
    go: goOf(advice, `/cases/${bench.id}`, assessment.stops[0]?.id),
    firm: firm ? 'No single figure changes this.' : '',
  }
}

function titleOf({ act, minutes: atMost }: Advice): string {
  switch (act) {
    case 'fix':
      return 'Fix it here'
    case 'look':
      return atMost === null ? 'Look first' : `Look first, ${minutes(atMost).replace('about', 'at most')}`
    case 'send':
      return 'Send it in'
    case 'buy':
      return 'Buy new'
    case 'ask':
      return 'Ask the seller first'
    case 'safe-first':
      return 'Make it safe first'
  }
}

/** Where it is done: the next step, the stop that names the act, the slip that goes with it, or the tool retired. */
function goOf({ act }: Advice, home: string, stop: string | undefined): Answer['go'] {
  switch (act) {
    case 'fix':
    case 'look':
      return { href: home, words: 'Go on here' }
    case 'safe-first':
      return stop
        ? { href: `${home}/stops/${stop}`, words: 'What to do' }
        : { href: home, words: 'Go on here' }
    case 'send':
    case 'ask':
      return { href: `${home}/slip`, words: 'Handover slip' }
    case 'buy':
      return { href: `${home}/retire`, words: 'Retire the old one' }
  }
}

function factsOf({ act, option }: Advice, today: string): Answer['facts'] {
  const fact = (term: string, words: string) => ({ term, words })
  const runs = `${countOf100(option.works)} of 100`
  switch (act) {
    case 'fix':
      return [fact('Costs', today), fact('Runs again', runs), fact('When', dayWords(option.days))]
    case 'send':
      return [fact('Costs', today), fact('Comes back fixed', runs), fact('When', dayWords(option.days))]
    case 'buy':
      return [fact('Costs', today), fact('Here', dayWords(option.days))]
    case 'look':
      return [fact('Fixed here', runs), fact('A fix costs', today)]
    case 'ask':
      return [fact('Costs', 'nothing'), fact('Then', 'as they say')]
    case 'safe-first':
      return [fact('Then', `${wayWords[option.way].order.toLowerCase()}, ${today}`)]
  }
}

function whyOf({ act, option, next, clear, rule }: Advice, money: (minor: number) => string): string {
  if (rule) return rule.because
  if (next === null) return `No other way is open${act === 'look' ? ' yet' : ''}.`
  const other = wayWords[next.way].doing
  if (!clear) return `${capital(other)} comes to nearly the same: either is right.`
  return `Over the years ${other} would cost ${money(next.cost - option.cost)} more.`
}

const capital = (words: string): string => `${words.charAt(0).toUpperCase()}${words.slice(1)}`

/** What a rule closes, and what it speaks for. */
export function doesWords({ bars, speaksFor, first }: Verdict): string {
  if (first) return 'One short act, and every way is open again.'
  const closes = bars.map((way) => wayWords[way].doing).join(' and ')
  const speaks = speaksFor ? `speaks for ${wayWords[speaksFor].doing}` : ''
  if (closes === '') return `It closes nothing, and ${speaks}.`
  return `It closes ${closes}${speaks ? `, and ${speaks}` : ''}.`
}
