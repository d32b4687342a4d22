import type { Verdict } from '../../../shared/knowledge.js'
import type { CaseComparison } from '../../decision/case-comparison.js'
import type { Option, Way } from '../../decision/options.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { ownName } from '../rulebook/limits-page.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { dangerOpen, safetyTestSpared } from '../../bench/on-bench.js'
import type { SourceView } from '../layout/source-view.js'
import { sourceView } from '../layout/source-view.js'
import { countOf100, listWords } from '../layout/words.js'
import type { FigureGroup } from './worth-figures.js'
import { figureGroups } from './worth-figures.js'
import type { Flips } from './worth-flips.js'
import { flipsView } from './worth-flips.js'
import type { OptionView } from './worth-options.js'
import { optionViews } from './worth-options.js'
import type { WorthPicture } from './worth-picture.js'
import { about, sum, wayWords } from './worth-words.js'

/** Mend it here, send it in or replace it: the answer, the picture, the reasons, and every figure to be changed. */
export interface WorthPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  /** danger comes before money: what stands, or was not looked at yet, with where to go */
  readonly danger: readonly {
    readonly name: string
    readonly words: string
    readonly href: string
    readonly way: string
  }[]
  readonly answer: Answer
  readonly picture: WorthPicture
  /** the same as the picture: a column for each way */
  readonly table: {
    readonly ways: readonly string[]
    readonly rows: readonly { readonly name: string; readonly cells: readonly string[] }[]
  }
  readonly spreadNote: string
  readonly ways: readonly OptionView[]
  readonly flips: Flips
  /** rules that hold and did not decide */
  readonly rules: readonly RuleView[]
  /** must its electrical safety be tested once it was opened? */
  readonly safety: boolean
  /** the set of test limits that the shop has named */
  readonly limitSet: string | null
  readonly figures: readonly FigureGroup[]
  readonly kept: boolean
  readonly problems: readonly Problem[]
}

interface Answer {
  readonly title: string
  readonly lead: string
  /** the rule that decides, where one does */
  readonly rule: RuleView | null
  readonly way: Way
}

export interface RuleView {
  readonly name: string
  readonly because: string
  /** what it closes, or what it speaks for */
  readonly does: string
  readonly liftedBy: string
  readonly source: SourceView
}

/** What a form said that could not be taken; null shows the page as it is. */
export interface Refused {
  readonly sent: Sent
  readonly problems: readonly Problem[]
}

export function worthPage(
  on: OnBench,
  comparison: CaseComparison,
  picture: WorthPicture,
  { refused = null, kept = false }: { readonly refused?: Refused | null; readonly kept?: boolean } = {},
): WorthPage {
  const { knowledge, bench, currency } = on
  const problems = refused?.problems ?? []
  const answer = answerOf(on, comparison)
  const deciding = decidingRule(comparison)
  return {
    frame: caseFrame(knowledge, bench, 'Is it worth it?', { at: '/worth', error: problems.length > 0 }),
    action: `/cases/${bench.id}/worth`,
    seen: bench.events.length,
    danger: dangersOf(on),
    answer,
    picture,
    table: tableOf(on, comparison),
    spreadNote: comparison.spreads['mend-here'].exact
      ? 'Every outcome was weighed; nothing here is drawn by lot.'
      : 'The ends and the middle come from 4000 drawn courses, always the same draws; the expected sums are reckoned without drawing.',
    ways: optionViews(on, comparison),
    flips: flipsView(comparison, currency, on.inForce.figures.age !== null),
    rules: comparison.verdicts.filter((rule) => rule !== deciding).map((rule) => ruleView(on, rule)),
    safety: knowledge.fixes.some(({ safetyTest }) => safetyTest) && !safetyTestSpared(on),
    limitSet: ownName(knowledge, on.inForce.figures.limitSet),
    figures: figureGroups(on, refused?.sent ?? null, problems),
    kept,
    problems,
  }
}

function tableOf({ currency }: OnBench, { options, spreads }: CaseComparison): WorthPage['table'] {
  const row = (name: string, cell: (option: Option) => string) => ({ name, cells: options.map(cell) })
  return {
    ways: options.map(({ way }) => wayWords[way].short),
    rows: [
      row('Expected', ({ cost }) => sum(cost, currency)),
      row('10 in 100 stay below', ({ way }) => sum(spreads[way].low, currency)),
      row('The middle one', ({ way }) => sum(spreads[way].middle, currency)),
      row('10 in 100 exceed', ({ way }) => sum(spreads[way].high, currency)),
      row('Days until a tool is back', ({ days }) => (days < 0.5 ? '0' : String(Math.round(days)))),
      row('A year from now on', ({ yearly }) => sum(yearly, currency)),
      row('Of 100, end as meant', ({ asMeant }) => String(countOf100(asMeant))),
    ],
  }
}

function dangersOf(on: OnBench): WorthPage['danger'] {
  const { knowledge, bench, assessment } = on
  const { stops } = lookupOf(knowledge)
  const home = `/cases/${bench.id}`
  const standing = assessment.stops.map(({ id, grade }) => ({
    name: `${grade === 'set-aside' ? 'Set aside' : 'Off the client'}: ${stops.get(id)?.name ?? id}`,
    words: 'Plug out. No sum speaks against that.',
    href: `${home}/stops/${id}`,
    way: 'What to do, and what lifts it',
  }))
  if (!dangerOpen(on)) return standing
  return [
    ...standing,
    {
      name: 'The danger signs first',
      words: 'They were not all looked at yet, and they come before any money.',
      href: `${home}/danger`,
      way: 'Look at them now',
    },
  ]
}

/** The rule that closes what the sum alone would choose. */
function decidingRule({ best, bySum, barred }: CaseComparison): Verdict | null {
  return best.way === bySum.way ? null : (barred.get(bySum.way) ?? null)
}

function answerOf(on: OnBench, comparison: CaseComparison): Answer {
  const { currency } = on
  const { best, bySum, options } = comparison
  const rule = decidingRule(comparison)
  const title = wayWords[best.way].order
  if (rule)
    return {
      title: `${rule.name}: ${title.charAt(0).toLowerCase()}${title.slice(1)}`,
      lead: `It is expected to cost ${about(best.cost, currency)}. By the sum alone it would be ${wayWords[bySum.way].doing}, ${about(bySum.cost, currency)}; a rule comes before the sum.`,
      rule: ruleView(on, rule),
      way: best.way,
    }
  const others = options.filter(({ way }) => way !== best.way)
  const against = others.map(({ way, cost }) => `${sum(cost, currency)} ${againstWords[way]}`)
  const near = others.some(({ way, cost }) => !comparison.barred.has(way) && cost < best.cost * nearThing)
  return {
    title: `${title}: ${about(best.cost, currency)}`,
    lead: `${near ? 'A near thing: against' : 'Against'} ${listWords(against)}, from now until there is a tool again.${near && best.way !== 'mend-here' ? ' Nothing that would be asked here first is worth its minutes.' : ''}`,
    rule: null,
    way: best.way,
  }
}

/** Below this the difference is less than the guesses behind it. */
const nearThing = 1.04

const againstWords: Readonly<Record<Way, string>> = {
  'mend-here': 'begun here',
  'send-in': 'sent in',
  replace: 'for going over to a new one',
}

function ruleView(
  { knowledge }: OnBench,
  { name, because, bars, speaksFor, liftedBy, source }: Verdict,
): RuleView {
  const closes = bars.map((way) => wayWords[way].doing)
  const speaks = speaksFor ? `speaks for ${wayWords[speaksFor].doing}` : ''
  const does =
    closes.length > 0
      ? `Closes ${listWords(closes)}${speaks ? `, ${speaks}` : ''}.`
      : `Closes nothing: it only ${speaks}.`
  return { name, because, does, liftedBy, source: sourceView(knowledge, source) }
}
