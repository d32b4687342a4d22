import type { Knowledge } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { ShopCounts } from '../../../shared/situation.js'
import type { Tool } from '../../../shared/tool.js'
import { interval } from '../../learning/count-case.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { countOf100 } from '../layout/words.js'

/** What the shop has learned beside what the rulebook says. */
export interface LearnedPage {
  readonly frame: Frame
  readonly on: boolean
  /** so many cases' worth is what the rulebook says of shares */
  readonly weight: number
  readonly kinds: readonly {
    readonly name: string
    readonly cases: number
    readonly rows: readonly FigureRow[]
    readonly more: readonly FigureRow[]
  }[]
  /** fixes that never cured, care that nobody does, tools that cost more than they did when new */
  readonly notes: readonly string[]
}

interface FigureRow {
  readonly name: string
  readonly rulebook: string
  readonly shop: string
  readonly cases: string
}

export interface LearnedKind {
  readonly kind: string
  readonly counts: ShopCounts
  /** of each cause: the rulebook's share and the shop's */
  readonly shares: readonly { readonly cause: string; readonly rulebook: number; readonly shop: number }[]
  readonly shareWeight: number
  /** chance of cure that has been tried here */
  readonly cures: readonly {
    readonly fix: string
    readonly cause: string
    readonly rulebook: number
    readonly shop: number
    readonly hits: number
    readonly of: number
    readonly weight: number
  }[]
}

const mostRows = 4
/** From so many tries without a cure on, a fix is named. */
const triesWithout = 3

export function learnedPage(
  knowledge: Knowledge,
  learned: readonly LearnedKind[],
  on: boolean,
  care: { readonly tools: readonly Tool[]; readonly timesDone: ReadonlyMap<string, number> },
  costs: readonly { readonly tool: Tool; readonly paid: number }[],
  weight: number,
): LearnedPage {
  const { causes, fixes, kinds } = lookupOf(knowledge)
  const nameOf = (cause: string): string => causes.get(cause)?.name ?? cause
  const notes = [
    ...learned.flatMap(({ cures }) =>
      cures
        .filter(({ hits, of }) => hits === 0 && of >= triesWithout)
        .map(
          ({ fix, cause, of }) =>
            `Never cured “${nameOf(cause)}” in ${of} tries: ${fixes.get(fix)?.name ?? fix}.`,
        ),
    ),
    ...undone(knowledge, care).map((name) => `Nobody logged this for a year: ${name}.`),
    ...costs
      .filter(({ tool, paid }) => tool.details.price !== undefined && paid > tool.details.price)
      .map(({ tool }) => `Cost more in services than when it was bought: ${tool.name}.`),
  ]
  return {
    frame: plainFrame('What the shop has learned', 'tools'),
    on,
    weight,
    kinds: learned.map(({ kind, counts, shares, shareWeight, cures }) => {
      const rows = [
        ...[...shares]
          .filter(({ cause }) => (counts.causes[cause] ?? 0) > 0)
          .sort((a, b) => counts.causes[b.cause]! - counts.causes[a.cause]!)
          .map(({ cause, rulebook, shop }) => ({
            name: nameOf(cause),
            rulebook: inHundred(rulebook),
            shop: withInterval(shop, shareWeight),
            cases: String(counts.causes[cause]),
          })),
        ...cures.map(({ fix, rulebook, shop, hits, of, weight }) => ({
          name: `Cures: ${fixes.get(fix)?.name ?? fix}`,
          rulebook: inHundred(rulebook),
          shop: withInterval(shop, weight),
          cases: `${hits} of ${of}`,
        })),
      ]
      return {
        name: kinds.get(kind)?.plainName ?? kind,
        cases: counts.cases,
        rows: rows.slice(0, mostRows),
        more: rows.slice(mostRows),
      }
    }),
    notes,
  }
}

const inHundred = (share: number): string => `${countOf100(share)} in 100`

function withInterval(mean: number, weight: number): string {
  const [low, high] = interval(mean, weight)
  return `${countOf100(mean)} in 100 (${countOf100(low)} to ${countOf100(high)})`
}

/** Care of the calendar that is due on some tool and was not logged once. */
function undone(
  { care }: Knowledge,
  { tools, timesDone }: { readonly tools: readonly Tool[]; readonly timesDone: ReadonlyMap<string, number> },
): string[] {
  // a shop that logs nothing at all keeps no log
  if (timesDone.size === 0) return []
  const kinds = new Set(tools.filter(({ place }) => place === 'in-use').map(({ kind }) => kind))
  return care
    .filter(({ everyDays }) => everyDays !== undefined && everyDays < 200)
    .filter((task) => task.kinds.some((kind) => kinds.has(kind)) && !timesDone.has(task.id))
    .map(({ name }) => name)
}
