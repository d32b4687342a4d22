import type { Fix } from '../../../shared/knowledge.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { Drawing } from '../layout/line-drawing.js'
import { lineDrawing } from '../layout/line-drawing.js'
import type { Reason } from './next-words.js'
import { reasonFor } from './next-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import { fieldOf } from '../../forms/answer-form.js'
import { aboutMoneyIn } from '../layout/money.js'
import { kindOnBench } from '../../bench/on-bench.js'
import type { PartsDrawing } from '../layout/parts-drawing.js'
import { partsMarked } from '../layout/parts-drawing.js'
import type { WorkLine, WorkScreen } from './work-screens.js'
import { workScreens } from './work-screens.js'
import type { SecondLook } from './second-look.js'
import { secondLook } from './second-look.js'
import type { StopBand } from './stop-page.js'
import { stopBands } from './stop-page.js'
import type { Suspects } from './suspects.js'
import { suspectsView } from './suspects.js'
import { shelfForFix } from '../../parts/take.js'
import { onShelfWords } from '../parts/taken-words.js'
import { aboutMoney, inHundred, minutes, money, skillWords } from '../layout/words.js'

/** A fix, screen by screen: what it takes, the work, and whether it cured. */
export interface FixPage {
  readonly frame: Frame
  readonly seen: number
  readonly fix: string
  readonly show: 'overview' | 'work' | 'outcome'
  readonly heading: string
  /** how sure and how long, in one or two lines; empty on later screens */
  readonly lead: string
  /** "About 8 minutes, parts about €28" */
  readonly takes: string
  readonly shelf: string
  /** whose hand it takes; empty where anybody's does */
  readonly hand: string
  readonly cautions: readonly string[]
  readonly toHand: string
  readonly lines: readonly WorkLine[]
  /** "2 of 5" */
  readonly place: string
  readonly next: { readonly href: string; readonly words: string }
  /** what its last line looks at: with a no the case thinks anew */
  readonly look: (WorkScreen['look'] & { readonly action: string; readonly field: string }) | null
  readonly drawing: Drawing | null
  /** the parts that it works on, where it has no drawing of its own */
  readonly where: PartsDrawing | null
  readonly action: string
  readonly cannotAction: string
  /** how it is left where the work cannot go on */
  readonly leaveSafe: string
  readonly cured: string
  /** what the test of the fix itself asks, where it has one */
  readonly outcome: string | null
  readonly buttons: readonly {
    readonly value: string
    readonly words: string
    readonly key: string
    readonly soft: boolean
  }[]
  readonly all: readonly WorkScreen[]
  readonly allCautions: readonly string[]
  readonly reason: Reason
  /** before the work begins only */
  readonly secondLook: SecondLook | null
  readonly bands: readonly StopBand[]
  readonly rulebook: string
  readonly suspects: Suspects
}

/** @param at which of its screens: 0 is what it takes, then the work, last the outcome; too high is the last */
export function fixPage(on: OnBench, fix: Fix, at = 0): FixPage {
  const { knowledge, bench } = on
  const ends = fix.ends === 'nothing-found'
  const screens = workScreens(on, fix)
  const place = Math.min(at, screens.length + 1)
  const work = screens[place - 1]
  const own = screens.findIndex((screen) => screen.own) + 1
  const home = `/cases/${bench.id}`
  const back = place === 0 ? {} : { back: place === 1 ? home : `${home}?at=${place - 1}` }
  return {
    frame: caseFrame(knowledge, bench, fix.name, { at: '', ...back }),
    seen: bench.events.length,
    fix: fix.id,
    show: place === 0 ? 'overview' : work ? 'work' : 'outcome',
    heading:
      place === 0
        ? fix.name
        : (work?.heading ?? (ends ? 'Did it do all that it should?' : 'Run it: is it cured?')),
    lead: place === 0 ? leadOf(on, fix) : '',
    takes: takesWords(on, fix),
    hand: fix.skill === 'S1' ? '' : `Takes the hand of ${skillWords(fix.skill)}.`,
    shelf: place === 0 ? shelfWords(on, fix) : '',
    // the worst where it begins, the others where the hands are
    cautions: place === 0 ? fix.cautions.slice(0, 1) : work && own === place ? fix.cautions.slice(1) : [],
    toHand: place === 0 ? toHand(on, fix) : '',
    lines: work?.lines ?? [],
    place: work ? `${place} of ${screens.length}` : '',
    next: {
      href: `${home}?at=${place + 1}`,
      words:
        place === 0
          ? 'Start'
          : work?.look
            ? 'Yes, go on'
            : place === screens.length
              ? 'Done: run it'
              : 'Done, next',
    },
    look: work?.look ? { ...work.look, action: `${home}/answers`, field: fieldOf(work.look.question) } : null,
    drawing: work?.own ? lineDrawing(fix.drawing, fix.name) : null,
    where: work?.own && fix.drawing === undefined ? partsMarked(kindOnBench(on), partsOf(on, fix)) : null,
    action: `${home}/tried`,
    cannotAction: `${home}/cannot-do`,
    leaveSafe: leaveSafe(on, fix),
    cured: fix.cured,
    outcome: fix.outcome?.text ?? null,
    buttons: ends
      ? [
          { value: 'cured', words: 'No fault shows', key: 'y', soft: false },
          { value: 'no', words: 'It did it again', key: 'n', soft: false },
        ]
      : [
          { value: 'cured', words: 'Cured', key: 'y', soft: false },
          { value: 'better', words: 'Better', key: 'c', soft: false },
          { value: 'no', words: 'No change', key: 'n', soft: false },
        ],
    all: screens,
    allCautions: fix.cautions,
    reason: reasonFor(on),
    secondLook: place === 0 ? secondLook(on) : null,
    // each screen of the work says itself when the plug is out
    bands: stopBands(on).map((band) => ({ ...band, off: '' })),
    rulebook: `/rulebook/fixes/${fix.id}`,
    suspects: suspectsView(on),
  }
}

/** What was taken off goes back on, the last first: "Brush caps in. The plug stays out, and a tag says so." */
function leaveSafe(on: OnBench, fix: Fix): string {
  const made = setupsNeeded(on.knowledge.setups, fix.setups).filter(({ needs }) => needs.length > 0)
  const back = made.toReversed().map(({ name, undone }) => `${undone ?? `Undo “${name}”`}. `)
  const cord = kindOnBench(on).runsOn === 'cord'
  return `${back.join('')}${cord ? 'The plug stays out' : 'It stays off its charger, locked'}, and a tag says so.`
}

/** Parts, and the tools of the work and of what must be made first. */
function toHand({ knowledge, situation }: OnBench, fix: Fix): string {
  const toMake = setupsNeeded(knowledge.setups, fix.setups).filter(
    ({ id }) => !situation.standing.includes(id),
  )
  const all = [fix.parts.map(({ name }) => name), fix.tools, ...toMake.map(({ tools }) => tools)].flat()
  return [...new Set(all)].join(', ')
}

/** A fix that cures as often as this is not told its chance: two numbers on one line only make people reckon. */
const nearlyAlways = 0.85

/** "Worn carbon brushes: 62 in 100.", and how often this cures it where that is not nearly always. */
function leadOf(on: OnBench, fix: Fix): string {
  const { causes } = lookupOf(on.knowledge)
  const [likeliest] = on.assessment.causes
    .filter(({ id }) => fix.cures[id] !== undefined)
    .sort((a, b) => b.probability - a.probability)
  if (!likeliest) return ''
  const name = causes.get(likeliest.id)?.name ?? likeliest.name
  const cures = fix.cures[likeliest.id] ?? 0
  const sure = causes.get(likeliest.id)?.exclusive || cures >= nearlyAlways
  return `${name}: ${inHundred(likeliest.probability)}.${sure ? '' : ` This then cures ${inHundred(cures)}.`}`
}

/** "About 8 minutes, parts about €28". */
function takesWords(on: OnBench, fix: Fix): string {
  const takes = minutes(on.assessment.next.minutes)
  const cost = fix.parts.reduce((sum, part) => sum + part.cost, 0)
  const parts = cost > 0 ? `, parts ${aboutMoneyIn(cost, on.currency)}` : ''
  return `${takes.charAt(0).toUpperCase()}${takes.slice(1)}${parts}`
}

/** The parts whose causes the fix cures. */
function partsOf(on: OnBench, fix: Fix): ReadonlySet<string> {
  const { causes } = lookupOf(on.knowledge)
  return new Set(Object.keys(fix.cures).flatMap((cause) => causes.get(cause)?.part ?? []))
}

/** "a pair of brushes, about €6": what the parts cost. */
export function partsWords({ parts }: Fix): string {
  const total = parts.reduce((sum, { cost }) => sum + cost, 0)
  const names = parts.map(({ name }) => name).join(', ')
  if (parts.length === 0) return 'none'
  if (total === 0) return names
  return parts.length === 1 ? `${names}, about ${money(total)}` : `${names}; together ${aboutMoney(total)}`
}

/** What of it lies on the shop's shelf; empty where nobody keeps one. */
function shelfWords({ shelf }: OnBench, fix: Fix): string {
  const there = shelfForFix(fix, shelf)
  return there.length === 0 ? '' : `On the shelf: ${there.map(onShelfWords).join('; ')}.`
}
