import type { Currency } from '../../../shared/figures.js'
import type { Fix } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { Drawing } from '../layout/line-drawing.js'
import { lineDrawing } from '../layout/line-drawing.js'
import type { Fact, Reason } from './next-words.js'
import { reasonFor } from './next-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import { aboutMoneyIn, moneyIn } from '../layout/money.js'
import { kindOf, safetyTestSpared, setupsFor } from '../../bench/on-bench.js'
import type { PartsDrawing } from '../layout/parts-drawing.js'
import { partsMarked } from '../layout/parts-drawing.js'
import type { Setups } from './setups.js'
import { setupsView, undoing } from './setups.js'
import type { StopBand } from './stop-page.js'
import { stopBands } from './stop-page.js'
import type { Suspects } from './suspects.js'
import { suspectsView } from './suspects.js'
import { aboutMoney, inHundred, minutes, money, skillWords } from '../layout/words.js'

export interface FixPage {
  readonly frame: Frame
  readonly action: string
  readonly cannotAction: string
  readonly seen: number
  readonly fix: string
  readonly eyebrow: string
  readonly name: string
  readonly lead: string
  readonly cautions: readonly string[]
  readonly setups: Setups
  readonly toHand: string
  readonly jobs: readonly { readonly id: string; readonly words: string; readonly caution: string | null }[]
  /** set-ups to undo before the test run; empty when there is none */
  readonly putBack: string
  readonly safetyTest: boolean
  readonly drawing: Drawing | null
  /** the parts that it works on, where it has no drawing of its own */
  readonly where: PartsDrawing | null
  readonly facts: readonly Fact[]
  readonly cured: string
  /** what the test of the fix itself asks, where it has one */
  readonly outcome: string | null
  readonly buttons: readonly {
    readonly value: string
    readonly words: string
    readonly key: string
    readonly soft: boolean
  }[]
  readonly reason: Reason
  readonly bands: readonly StopBand[]
  readonly rulebook: string
  readonly suspects: Suspects
}

/** A fix: cautions first, then the steps, then whether it cured. */
export function fixPage(on: OnBench, fix: Fix): FixPage {
  const { knowledge, bench, assessment } = on
  const ends = fix.ends === 'nothing-found'
  return {
    frame: caseFrame(knowledge, bench, fix.name, { at: '' }),
    action: `/cases/${bench.id}/tried`,
    cannotAction: `/cases/${bench.id}/cannot-do`,
    seen: bench.events.length,
    fix: fix.id,
    eyebrow: ends ? 'Perhaps nothing is wrong' : 'Try this fix',
    name: fix.name,
    lead: leadOf(on, fix),
    cautions: fix.cautions,
    setups: setupsView(on, fix.setups, false),
    toHand: [...fix.parts.map(({ name }) => name), ...fix.tools].join(', '),
    jobs: fix.steps.map((step, place) => ({
      id: `${fix.id}-${place}`,
      words: step.do,
      caution: step.caution ?? null,
    })),
    putBack: undoing(setupsFor(knowledge, [...fix.setups, ...on.situation.standing])),
    safetyTest: fix.safetyTest && !safetyTestSpared(on),
    drawing: lineDrawing(fix.drawing, fix.name),
    where: fix.drawing === undefined ? partsMarked(kindOf(on), partsOf(on, fix)) : null,
    facts: [
      { term: 'Takes', words: minutes(assessment.next.minutes) },
      { term: 'Hand', words: skillWords(fix.skill) },
      { term: 'Parts', words: partsWords(fix, on.currency) },
    ],
    cured: fix.cured,
    outcome: fix.outcome?.text ?? null,
    buttons: ends
      ? [
          { value: 'cured', words: 'No fault shows', key: 'y', soft: false },
          { value: 'no', words: 'It did it again', key: 'n', soft: false },
        ]
      : [
          { value: 'cured', words: 'Cured', key: 'y', soft: false },
          { value: 'better', words: 'Better, not right', key: 'c', soft: false },
          { value: 'no', words: 'No change', key: 'n', soft: false },
        ],
    reason: reasonFor(on),
    bands: stopBands(on),
    rulebook: `/rulebook/fixes/${fix.id}`,
    suspects: suspectsView(on),
  }
}

/** "Worn carbon brushes: 62 in 100, and this cures it 95 times in 100." */
function leadOf(on: OnBench, fix: Fix): string {
  const { causes } = lookupOf(on.knowledge)
  const [likeliest] = on.assessment.causes
    .filter(({ id }) => fix.cures[id] !== undefined)
    .sort((a, b) => b.probability - a.probability)
  if (!likeliest) return ''
  const name = causes.get(likeliest.id)?.name ?? likeliest.name
  if (causes.get(likeliest.id)?.exclusive) return `${name}: ${inHundred(likeliest.probability)}.`
  const chance = inHundred(fix.cures[likeliest.id] ?? 0)
  return `${name}: ${inHundred(likeliest.probability)}. Where that is it, this cures ${chance}.`
}

/** The parts whose causes the fix cures. */
function partsOf(on: OnBench, fix: Fix): ReadonlySet<string> {
  const { causes } = lookupOf(on.knowledge)
  return new Set(Object.keys(fix.cures).flatMap((cause) => causes.get(cause)?.part ?? []))
}

/** "a pair of brushes, about €6": what the parts cost; the bare sum where no shop stands behind it. */
export function partsWords(fix: Fix, currency?: Currency): string {
  if (fix.parts.length === 0) return 'none'
  const total = fix.parts.reduce((sum, { cost }) => sum + cost, 0)
  const [only] = fix.parts
  if (fix.parts.length === 1 && only)
    return only.cost === 0
      ? only.name
      : `${only.name}, about ${currency ? moneyIn(only.cost, currency) : money(only.cost)}`
  return `${fix.parts.map(({ name }) => name).join(', ')}; together ${currency ? aboutMoneyIn(total, currency) : aboutMoney(total)}`
}
