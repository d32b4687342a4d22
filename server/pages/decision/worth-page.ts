import type { Verdict } from '../../../shared/knowledge.js'
import type { CaseComparison } from '../../decision/case-comparison.js'
import type { Option } from '../../decision/options.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { ownName } from '../rulebook/limits-page.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { dangerOpen, safetyTestSpared } from '../../bench/on-bench.js'
import type { SourceView } from '../layout/source-view.js'
import { sourceView } from '../layout/source-view.js'
import { countOf100 } from '../layout/words.js'
import type { Answer } from './worth-answer.js'
import { answerOf, doesWords } from './worth-answer.js'
import type { FigureGroup } from './worth-figures.js'
import { figureGroups } from './worth-figures.js'
import type { ClosedView, OptionView } from './worth-options.js'
import { closedViews, optionViews } from './worth-options.js'
import type { WorthPicture } from './worth-picture.js'
import { worthPicture } from './worth-picture.js'
import { sum, wayWords } from './worth-words.js'

/** Fix it here, send it in or buy new: the answer, and folded under it the sums, the rules and every figure. */
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
  /** nobody said what a day without the tool costs, and it could change the answer; the currency to ask it in */
  readonly asksDay: string | null
  readonly picture: WorthPicture
  /** the same as the picture: a column for each open way */
  readonly table: {
    readonly ways: readonly string[]
    readonly rows: readonly { readonly name: string; readonly cells: readonly string[] }[]
  }
  readonly ways: readonly OptionView[]
  readonly closed: readonly ClosedView[]
  /** all that hold, the one that decides first */
  readonly rules: readonly RuleView[]
  /** must its electrical safety be tested once it was opened? */
  readonly safety: boolean
  /** the set of test limits that the shop has named */
  readonly limitSet: string | null
  readonly figures: readonly FigureGroup[]
  /** a figure was wrong: its fold stands open */
  readonly figuresOpen: boolean
  readonly kept: boolean
  readonly problems: readonly Problem[]
}

interface RuleView {
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
  { refused = null, kept = false }: { readonly refused?: Refused | null; readonly kept?: boolean } = {},
): WorthPage {
  const { knowledge, bench, currency } = on
  const problems = refused?.problems ?? []
  const { rule } = comparison.advice
  const rules = comparison.verdicts.filter((it) => it.id !== rule?.id)
  return {
    frame: caseFrame(knowledge, bench, 'Is it worth it?', { at: '/worth', error: problems.length > 0 }),
    action: `/cases/${bench.id}/worth`,
    seen: bench.events.length,
    danger: dangersOf(on),
    answer: answerOf(on, comparison),
    asksDay: comparison.dayMatters && dayUnsaid(on) ? currency.code : null,
    picture: worthPicture(comparison, currency),
    table: tableOf(on, comparison),
    ways: optionViews(on, comparison),
    closed: closedViews(comparison),
    rules: [...(rule ? [rule] : []), ...rules].map((it) => ruleView(on, it)),
    safety: knowledge.fixes.some(({ safetyTest }) => safetyTest) && !safetyTestSpared(on),
    limitSet: ownName(knowledge, on.inForce.figures.limitSet),
    figures: figureGroups(on, refused?.sent ?? null, problems),
    figuresOpen: problems.length > 0,
    kept,
    problems,
  }
}

/** Has nobody said whether there is a spare, nor what a day without costs? */
const dayUnsaid = ({ inForce: { from } }: OnBench): boolean =>
  from.hasSpare === 'usual' && from.dayWithout === 'usual'

function tableOf({ currency }: OnBench, { options, spreads, barred }: CaseComparison): WorthPage['table'] {
  const open = options.filter(({ way }) => !barred.has(way))
  const row = (name: string, cell: (option: Option) => string) => ({ name, cells: open.map(cell) })
  return {
    ways: open.map(({ way }) => wayWords[way].short),
    rows: [
      row('On average, over the years', ({ cost }) => sum(cost, currency)),
      row('Cash, soon', ({ cash }) => sum(cash, currency)),
      row('10 in 100 stay below', ({ way }) => sum(spreads[way].low, currency)),
      row('The middle one', ({ way }) => sum(spreads[way].middle, currency)),
      row('10 in 100 exceed', ({ way }) => sum(spreads[way].high, currency)),
      row('Days until a tool is back', ({ days }) => (days < 0.5 ? '0' : String(Math.round(days)))),
      row('By the year', ({ yearly }) => sum(yearly, currency)),
      row('Of 100, so many work out', ({ works }) => String(countOf100(works))),
    ],
  }
}

function dangersOf(on: OnBench): WorthPage['danger'] {
  const { knowledge, bench, assessment } = on
  const { stops } = lookupOf(knowledge)
  const home = `/cases/${bench.id}`
  const standing = assessment.stops.map(({ id, grade }) => ({
    name: `${grade === 'set-aside' ? 'Set aside' : 'Off the client'}: ${stops.get(id)?.name ?? id}`,
    words: 'No money counts against that.',
    href: `${home}/stops/${id}`,
    way: 'What to do, and what lifts it',
  }))
  if (dangerOpen(on).length === 0) return standing
  return [
    ...standing,
    {
      name: 'The danger signs first',
      words: 'Not all were looked at yet.',
      href: `${home}/danger`,
      way: 'Look at them now',
    },
  ]
}

function ruleView({ knowledge }: OnBench, rule: Verdict): RuleView {
  const { name, because, liftedBy, source } = rule
  return { name, because, does: doesWords(rule), liftedBy, source: sourceView(knowledge, source) }
}
