/** The lesson of one part of a kind of tool: how it works, how it fails, how to tell, and what keeps it well. */
import { bookOf } from '../../../shared/book-of-kind.js'
import { questionOf, strengthIn } from '../../../shared/finding-rule.js'
import type { Cause, Knowledge, Step } from '../../../shared/knowledge.js'
import { takesApart } from '../../../shared/taken-apart.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import { divergence } from '../../practice/telling-apart.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { Drawing } from '../layout/line-drawing.js'
import { lineDrawing } from '../layout/line-drawing.js'
import type { PartsDrawing } from '../layout/parts-drawing.js'
import { partsMarked } from '../layout/parts-drawing.js'
import { inThousand } from '../layout/words.js'
import { ofTen } from './debrief-words.js'
import type { LessonEnding } from './lesson-ending.js'
import { lessonEnding } from './lesson-ending.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref } from './lesson-links.js'
import { minutesWith, takesWords } from './lesson-takes.js'
import { lowered } from './move-words.js'

export interface PartLessonPage {
  readonly frame: Frame
  readonly kind: string
  readonly name: string
  readonly works: string
  readonly sits: PartsDrawing | null
  readonly fails: readonly FailView[]
  /** rare ones, in a fold */
  readonly seldom: readonly FailView[]
  readonly cautions: readonly string[]
  readonly looks: readonly LookView[]
  readonly moreLooks: readonly LookView[]
  readonly drawing: Drawing | null
  readonly care: readonly { readonly name: string; readonly every: string; readonly how: readonly string[] }[]
  readonly mixedUp: readonly LessonLink[]
  /** advice about it that goes round */
  readonly hearsay: readonly LessonLink[]
  readonly others: LessonLink
  readonly ending: LessonEnding
}

interface FailView {
  readonly name: string
  readonly common: string
  readonly says: string
  readonly ifIgnored: string
  readonly mended: string
  /** what hurts there; empty where nothing does */
  readonly hazard: string
  readonly href: string
}

/** One look, and what of this part it shows. */
interface LookView {
  readonly title: string
  readonly takes: string
  readonly shows: readonly string[]
}

/** What one remembers of a lesson. */
const mostFails = 3
const mostLooks = 4
const mostShown = 3
const mostCare = 3
const mostCautions = 5
/** Of ten tools with the fault so many have to show it. */
const least = 0.3

/** @returns null where the kind has no such part, or nothing that goes wrong with it */
export function partLessonPage(
  knowledge: Knowledge,
  kindId: string,
  part: string,
  learner: string,
): PartLessonPage | null {
  const book = bookOf(knowledge, kindId)
  const [kind] = book.kinds
  const name = kind?.parts.find(({ id }) => id === part)?.name
  const causes = book.causes
    .filter((cause) => cause.part === part && !cause.exclusive)
    .sort((a, b) => b.shares[kindId]! - a.shares[kindId]!)
  if (!kind || name === undefined || causes.length === 0) return null
  const fails = causes.map((cause) => failView(book, kindId, cause))
  const found = looksFor(book, kindId, causes)
  const look = ({ step, shows }: Found) => ({
    title: step.title,
    takes: takesWords(book, step),
    shows: shows.slice(0, mostShown),
  })
  const first = found.main.map(({ step }) => step)
  return {
    frame: plainFrame(`${name}: ${kind.plainName}`, 'practice'),
    kind: kind.plainName,
    name,
    works: kind.works,
    sits: partsMarked(kind, new Set([part])),
    fails: fails.slice(0, mostFails),
    seldom: fails.slice(mostFails),
    // those of a fault stand beside it, and all of them at the step when it is done
    cautions: [
      ...new Set(
        first.flatMap(({ setups, cautions }) => [
          ...setupsNeeded(book.setups, setups).flatMap((setup) => setup.cautions),
          ...cautions,
        ]),
      ),
    ].slice(0, mostCautions),
    looks: found.main.map(look),
    moreLooks: found.more.map(look),
    drawing:
      found.drawn.slice(0, mostLooks).flatMap((step) => lineDrawing(step.drawing, step.title) ?? [])[0] ??
      null,
    care: book.care
      .filter(({ prevents }) => causes.some(({ id }) => prevents.includes(id)))
      .slice(0, mostCare)
      .map(({ name: task, every, how }) => ({ name: task, every, how })),
    hearsay: book.hearsay
      .filter((it) => it.part === part)
      .map(({ id, name: about }) => ({
        name: about,
        href: lessonHref(`hearsay/${id}`, { kind: kindId, learner }),
      })),
    mixedUp: book.confusions
      .filter(({ rivals }) => causes.some(({ id }) => rivals.includes(id)))
      .map(({ id, name: looksLike }) => ({
        name: looksLike,
        href: lessonHref(`confusions/${id}`, { kind: kindId, learner }),
      })),
    others: { name: 'Other lessons', href: lessonHref('', { learner }) },
    ending: lessonEnding(knowledge, { lesson: `parts/${kindId}/${part}`, kind: kindId, learner }),
  }
}

function failView(
  book: Knowledge,
  kind: string,
  { id, name, shares, description, ifIgnored, hazard = '' }: Cause,
): FailView {
  const [fix] = book.fixes
    .filter(({ cures }) => cures[id] !== undefined)
    .sort((a, b) => b.cures[id]! - a.cures[id]!)
  return {
    name,
    common: `${inThousand(shares[kind]! / 1000)} troubled tools`,
    says: description,
    ifIgnored,
    mended: fix ? `${fix.name}.` : 'Not at this bench: it goes to a service.',
    hazard,
    href: `/rulebook/causes/${id}`,
  }
}

/** The looks that tell most of the commonest causes; then the others. */
function looksFor(
  book: Knowledge,
  kind: string,
  causes: readonly Cause[],
): { readonly drawn: readonly Step[]; readonly main: readonly Found[]; readonly more: readonly Found[] } {
  const found = book.steps
    .filter(({ form }) => form !== 'danger')
    .map((step) => ({
      step,
      shows: showsOf(book, kind, causes, step),
      told: toldBy(book, kind, causes, step),
    }))
    .filter(({ shows }) => shows.length > 0)
    .sort((a, b) => b.told - a.told)
  return {
    drawn: found.map(({ step }) => step),
    main: found.slice(0, mostLooks).sort((a, b) => safeFirst(book, a, b)),
    more: found.slice(mostLooks).sort((a, b) => safeFirst(book, a, b)),
  }
}

interface Found {
  readonly step: Step
  readonly shows: readonly string[]
}

/** What takes nothing apart, then what is quick, its set-ups counted. */
const safeFirst = (book: Knowledge, a: Found, b: Found): number =>
  Number(takesApart(book.setups, a.step.setups)) - Number(takesApart(book.setups, b.step.setups)) ||
  minutesWith(book, a.step) - minutesWith(book, b.step)

/** How well the step's clearest finding shows one of the causes, by how common that is; no unit, only to compare. */
function toldBy(book: Knowledge, kind: string, causes: readonly Cause[], step: Step): number {
  const asked = new Set(step.questions.map(({ id }) => id))
  return Math.max(
    0,
    ...book.findings
      .filter((finding) => asked.has(questionOf(finding) ?? ''))
      .flatMap((finding) =>
        causes.map(({ id, shares }) => {
          const shown = 1 - (1 - finding.leak) * (1 - (strengthIn(finding, id, kind) ?? 0))
          return shares[kind]! * divergence(shown, finding.leak)
        }),
      ),
  )
}

/** "Brush shorter than its mark: about 9 of 10 with worn carbon brushes" */
function showsOf(book: Knowledge, kind: string, causes: readonly Cause[], step: Step): string[] {
  const asked = new Set(step.questions.map(({ id }) => id))
  return book.findings
    .filter((finding) => asked.has(questionOf(finding) ?? ''))
    .flatMap((finding) => {
      const named = causes
        .map((cause) => ({ cause, strength: strengthIn(finding, cause.id, kind) ?? 0 }))
        .filter(({ strength }) => strength >= least && strength > 2 * finding.leak)
        .sort((a, b) => b.strength - a.strength)
        .slice(0, 2)
      const words = named.map(({ cause, strength }) => `${ofTen(strength)} with ${lowered(cause.name)}`)
      const often = Math.max(0, ...named.map(({ cause, strength }) => cause.shares[kind]! * strength))
      return named.length === 0 ? [] : [{ often, words: `${finding.says}: ${words.join(', ')}` }]
    })
    .sort((a, b) => b.often - a.often)
    .map(({ words }) => words)
}
