/** The dry run: a tool on paper, what the rulebook makes of it, and what other numbers would make of it. */
import type { ShopRecord } from '../../../shared/figures.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { ShopSettings } from '../../../shared/situation.js'
import { openedBy } from '../../cases/opened.js'
import type { RulebookProblem } from '../../errors.js'
import type { Paste } from '../../lab/paste.js'
import type { Reckoned } from '../../lab/reckon.js'
import { figuresInForce } from '../../decision/figures-of.js'
import type { Problem } from '../../forms/answer-form.js'
import type { DotField } from '../layout/drawing.js'
import { dotField } from '../layout/drawing.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { LabAsks } from './asks.js'
import { labAsks } from './asks.js'
import type { LabForm } from '../../forms/lab-form.js'
import type { LabMarks } from './marks.js'
import type { LabNumbers } from './numbers.js'
import { labNumbers } from './numbers.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { reasonFor } from '../case/next-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import { dangerOpen } from '../../bench/on-bench.js'
import type { CauseWhy } from '../case/why-page.js'
import { causeWhy, nameOfNext } from '../case/why-page.js'
import { countOf100, inHundred, inThousand, minutes } from '../layout/words.js'

export interface LabPage {
  readonly frame: Frame
  readonly kinds: readonly { readonly name: string; readonly href: string; readonly here: boolean }[]
  readonly kind: string
  readonly anew: string
  readonly problems: readonly Problem[]
  readonly unknown: string
  readonly asks: LabAsks
  readonly numbers: LabNumbers
  readonly changed: boolean
  /** are there danger signs of which nothing is said? nothing else comes before them */
  readonly dangerOpen: boolean
  /** null where the changed shares cannot be reckoned with */
  readonly outcome: Outcome | null
  readonly pastes: readonly Paste[]
  readonly mistakes: readonly { readonly where: string; readonly what: string }[]
  readonly marks: LabMarks | null
}

interface Outcome {
  readonly suspects: readonly Suspect[]
  readonly others: string
  readonly next: NextView
  /** what the rulebook as it is would do next, where that is something else; empty where it is the same */
  readonly nextAsItIs: string
  readonly stops: readonly string[]
  readonly why: readonly CauseWhy[]
  readonly exact: boolean
}

interface Suspect {
  readonly name: string
  readonly href: string
  /** counts: of 1000 troubled tools, and of 100 that answer like this one */
  readonly before: string
  /** with the rulebook as it is; empty while nothing is changed */
  readonly asItIs: string
  readonly now: string
  readonly dots: DotField
}

interface NextView {
  readonly name: string
  readonly minutes: string
  readonly separates: string
  readonly saves: string
}

/** What the page is made from. `trial` is null where the changed shares cannot be reckoned with. */
export interface LabWork {
  readonly whole: Knowledge
  readonly book: Knowledge
  /** the book with the changes; the same object as `book` without any */
  readonly after: Knowledge
  readonly shop: ShopSettings
  /** the shop's own record, which `shop` comes from */
  readonly record: ShopRecord
  readonly asItIs: Reckoned
  readonly trial: Reckoned | null
  readonly problems: readonly RulebookProblem[]
  readonly pastes: readonly Paste[]
  readonly marks: LabMarks | null
}

/** As many suspects as fit beside the questions, and as many told in full. */
const mostListed = 10
const mostTold = 3

export function labPage(work: LabWork, form: LabForm): LabPage {
  const { whole, book, after, trial, problems, marks } = work
  const error = form.problems.length > 0 ? 'Error: ' : ''
  return {
    frame: plainFrame(`${error}Dry run`, 'rulebook'),
    kinds: whole.kinds.map(({ id, plainName }) => ({
      name: plainName,
      href: `/lab?kind=${id}`,
      here: id === form.kind,
    })),
    kind: form.kind,
    anew: `/lab?kind=${form.kind}`,
    problems: form.problems,
    unknown: form.unknown.length === 0 ? '' : form.unknown.join('; '),
    asks: labAsks(book, form),
    numbers: labNumbers(whole, book, after, form),
    changed: after !== book,
    dangerOpen: dangerOpen(paperTool(book, work, form, work.asItIs)).length > 0,
    outcome: trial && outcomeOf(work, trial, form),
    pastes: work.pastes,
    mistakes: problems.map(({ file, field, message, remedy }) => ({
      where: field === '' ? file : `${file}, ${field}`,
      what: remedy === undefined ? message : `${message}; ${remedy}`,
    })),
    marks,
  }
}

function outcomeOf(work: LabWork, trial: Reckoned, form: LabForm): Outcome {
  const { book, after, asItIs } = work
  const on = paperTool(after, work, form, trial)
  const before = paperTool(book, work, form, asItIs)
  const was = new Map(asItIs.assessment.causes.map(({ id, probability }) => [id, probability]))
  const ranked = [...trial.assessment.causes].sort((a, b) => b.probability - a.probability)
  const listed = ranked.slice(0, mostListed)
  const next = nextView(on)
  const nextBefore = nextView(before)
  return {
    suspects: listed.map(({ id, name, probability }) => ({
      name,
      href: `/rulebook/causes/${id}`,
      before: bareCount(trial.before.get(id) ?? 0, 1000),
      asItIs: after === book ? '' : bareCount(was.get(id) ?? 0, 100),
      now: bareCount(probability, 100),
      dots: dotField(countOf100(probability)),
    })),
    others: ranked[mostListed]
      ? `${ranked.length - mostListed} more, none above ${inHundred(ranked[mostListed].probability)}.`
      : '',
    next,
    nextAsItIs: nextBefore.name === next.name ? '' : nextBefore.name,
    stops: trial.assessment.stops.map(({ id }) => lookupOf(book).stops.get(id)?.name ?? id),
    why: ranked.slice(0, mostTold).map((cause) => causeWhy(on, cause, trial.before.get(cause.id) ?? 0)),
    exact: trial.assessment.exact,
  }
}

/** A count for a column that says of how many; the ends keep their doubt. */
function bareCount(share: number, of: 100 | 1000): string {
  const words = of === 100 ? inHundred(share) : inThousand(share)
  return words.replace(` in ${of}`, '').replace('fewer than', 'under').replace('more than', 'over')
}

/** The tool on paper as the pages of a case see a tool; no case is made. */
function paperTool(knowledge: Knowledge, work: LabWork, form: LabForm, reckoned: Reckoned): OnBench {
  const { shop, record } = work
  const inForce = figuresInForce({ shop: record.figures })
  const { kind, situation } = form
  const never = '1970-01-01T00:00:00.000Z'
  const bench = { id: '', kind, tool: '', begunAt: never, changedAt: never, events: [] }
  return {
    knowledge,
    shop,
    inForce,
    otherwise: inForce,
    currency: record.currency,
    opened: openedBy(situation, knowledge),
    bench,
    situation,
    assessment: reckoned.assessment,
    known: null,
    shelf: [],
    taken: [],
  }
}

function nextView(on: OnBench): NextView {
  const { separates, saves } = reasonFor(on)
  const { next } = on.assessment
  return {
    name: nameOfNext(on) ?? 'Nothing more',
    minutes: next.minutes > 0 ? minutes(next.minutes) : '',
    separates,
    saves,
  }
}
