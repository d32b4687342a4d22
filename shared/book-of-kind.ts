/** The rulebook as it reads for one kind of tool. */
import { comparisonsOf } from './conditions.js'
import { strengthIn } from './finding-rule.js'
import { onceFor } from './once-for.js'
import type { Cause, Confusion, Finding, Fix, Hearsay, Knowledge, Step } from './knowledge.js'

const booksOf = onceFor((_: Knowledge) => new Map<string, Knowledge>())

/**
 * The rulebook narrowed to one kind: its causes, findings, steps and so on, with what differs for it put in its
 * place; of a step only the questions that a finding of the kind is over, of a fix only the cures of causes that the
 * kind can have. Of a confusion
 * only its rivals, where the kind can have two. Policy, sources and moved ids are everybody's. Made once for a rulebook and kind; a book of an
 * unknown kind is empty.
 */
export function bookOf(knowledge: Knowledge, kind: string): Knowledge {
  const books = booksOf(knowledge)
  let book = books.get(kind)
  if (!book) {
    books.set(kind, (book = narrowed(knowledge, kind)))
    // a book is its own narrowing, so whoever holds one need not know that it is one
    booksOf(book).set(kind, book)
  }
  return book
}

function narrowed(knowledge: Knowledge, kind: string): Knowledge {
  const of = <Entry extends ForKinds>(list: readonly Entry[]) =>
    list.filter(({ kinds }) => kinds.includes(kind)).map((entry) => asFor(entry, kind))
  const causes = knowledge.causes
    .filter(({ shares }) => shares[kind] !== undefined)
    .map((cause) => asFor(cause, kind))
  const findings = of(knowledge.findings)
  const asked = new Set(findings.flatMap(({ when }) => comparisonsOf(when).map(({ fact }) => fact)))
  return {
    ...knowledge,
    kinds: knowledge.kinds.filter(({ id }) => id === kind),
    setups: of(knowledge.setups),
    causes,
    findings,
    steps: of(knowledge.steps).map((step) => withQuestions(step, asked)),
    fixes: of(knowledge.fixes).map((fix) => curing(fix, causes)),
    stops: of(knowledge.stops),
    relevance: of(knowledge.relevance),
    care: of(knowledge.care),
    verdicts: of(knowledge.verdicts),
    papers: of(knowledge.papers),
    slips: of(knowledge.slips),
    chains: of(knowledge.chains),
    confusions: confusionsOf(knowledge, causes, findings, kind),
    hearsay: of(knowledge.hearsay).map((entry) => touching(entry, causes)),
  }
}

interface Differing {
  readonly forKind?: Readonly<Record<string, object>> | undefined
}
interface ForKinds extends Differing {
  readonly kinds: readonly string[]
}

/** The entry as it reads for a kind; the same object where nothing differs. */
export function asFor<Entry extends Differing>(entry: Entry, kind: string): Entry {
  const own = entry.forKind?.[kind]
  return own ? { ...entry, ...own } : entry
}

function withQuestions(step: Step, asked: ReadonlySet<string>): Step {
  const questions = step.questions.filter(({ id }) => asked.has(id))
  return questions.length === step.questions.length ? step : { ...step, questions }
}

function curing(fix: Fix, causes: readonly Cause[]): Fix {
  const ids = new Set(causes.map(({ id }) => id))
  const cures = Object.entries(fix.cures).filter(([cause]) => ids.has(cause))
  return cures.length === Object.keys(fix.cures).length ? fix : { ...fix, cures: Object.fromEntries(cures) }
}

/**
 * Confusions of which the kind can have two rivals, with what of them the kind knows. A rival that shows none of what
 * people complain of in this kind does not look the same there.
 */
function confusionsOf(
  { confusions }: Knowledge,
  causes: readonly Cause[],
  findings: readonly Finding[],
  kind: string,
): Confusion[] {
  const can = new Set(causes.map(({ id }) => id))
  const tells = new Map(findings.map((finding) => [finding.id, finding]))
  return confusions
    .filter(({ onlyWith }) => onlyWith === undefined || can.has(onlyWith))
    .map((it) => {
      const shown = it.shownBy.flatMap((id) => tells.get(id) ?? [])
      const rivals = it.rivals.filter(
        (cause) => can.has(cause) && shown.some((finding) => strengthIn(finding, cause, kind) !== undefined),
      )
      return {
        ...it,
        rivals,
        shownBy: shown.map(({ id }) => id),
        checks: it.checks.filter((id) => tells.has(id)),
        splitters: it.splitters
          .filter(({ finding }) => tells.has(finding))
          .map(({ finding, pointsTo }) => ({
            finding,
            pointsTo: pointsTo.filter((id) => rivals.includes(id)),
          })),
      }
    })
    .filter(({ rivals }) => rivals.length > 1)
}

function touching(entry: Hearsay, causes: readonly Cause[]): Hearsay {
  const can = new Set(causes.map(({ id }) => id))
  return { ...entry, causes: entry.causes.filter((id) => can.has(id)) }
}
