/** 100 points over suspects and "something else". */
import type { Cause } from '../../../shared/knowledge.js'
import { stepOfPoints } from '../../../shared/practice.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { matchingAmong } from '../layout/find-by-words.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { AtBench } from './bench-page.js'
import { exerciseHref, complaintOf } from './bench-page.js'
import { levelOf } from '../../practice/level-book.js'
import { moveFrom } from './move-key.js'
import { moveAsAdvice } from './move-words.js'
import type { Points } from '../../forms/points-form.js'
import {
  otherField,
  pointsField,
  pointsSent,
  sumWords,
  pickField,
  pickPlaces,
  sureField,
  sureness,
  surenessOf,
} from '../../forms/points-form.js'

export interface PracticePointsPage {
  readonly frame: Frame
  /** what the tool was brought in with */
  readonly complaint: string
  readonly problems: readonly Problem[]
  readonly action: string
  readonly seen: number
  /** the move that waits for the points, to be sent along; empty where none does */
  readonly move: string
  readonly moveName: string
  /** suspects are named, not shown */
  readonly byName: boolean
  readonly q: string
  readonly noMatch: boolean
  readonly sections: readonly {
    readonly heading: string
    readonly folded: boolean
    readonly open: boolean
    readonly note: string
    readonly suspects: readonly SuspectField[]
  }[]
  /** up to three suspects, and how sure; empty where they are named instead */
  readonly picks: readonly Pick[]
  readonly other: SuspectField
  readonly sum: string
  readonly several: boolean
  readonly back: string
}

interface Pick {
  readonly field: string
  readonly name: string
  readonly groups: readonly {
    readonly part: string
    readonly suspects: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
  }[]
  readonly sureField: string
  readonly sure: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
}

interface SuspectField {
  readonly field: string
  readonly name: string
  readonly options: readonly { readonly value: number; readonly chosen: boolean }[]
}

const steps = Array.from({ length: 100 / stepOfPoints + 1 }, (_, k) => k * stepOfPoints)
/** Named suspects that a search finds: enough to find one, too few to be the list. */
const mostFound = 5

/**
 * @param sent what was just sent, or carried in the address; null on a first look, which shows the points of before
 */
export function practicePointsPage(
  at: AtBench,
  sent: Sent | null,
  problems: readonly Problem[] = [],
): PracticePointsPage {
  const { played } = at
  const { desk, exercise, now } = played
  const { causes, kind } = desk.kind.model
  const ids = causes.map(({ id }) => id)
  const hasPoints =
    sent !== null && Object.keys(sent).some((name) => name.startsWith('p-') || name === otherField)
  const points: Points = hasPoints ? pointsSent(sent, ids) : (now.spread ?? { points: {}, other: 0 })
  const byName = exercise.setting.hideSuspects
  const q = sent === null ? '' : textOf(sent, 'q').trim().slice(0, 100)
  const found = byName ? named(causes, kind.parts, q) : []
  const waiting = sent === null ? undefined : moveFrom(textOf(sent, 'move'))
  const home = exerciseHref(exercise.id)
  const title = 'Your suspects'
  return {
    frame: plainFrame(problems.length > 0 ? `Error: ${title}` : title, 'practice'),
    complaint: complaintOf(played).join(', '),
    problems,
    action: `${home}/points`,
    seen: exercise.moves.length,
    move: waiting ? textOf(sent!, 'move') : '',
    moveName: waiting ? moveAsAdvice(desk, waiting) : '',
    byName,
    q,
    noMatch: byName && q !== '' && found.length === 0,
    sections: byName ? namedSections(causes, points, found) : [],
    picks: byName ? [] : picksOf(causes, kind.parts, points),
    other: fieldFor(otherField, 'Something else', points.other),
    sum: sumWords(points),
    several: levelOf(at.knowledge, exercise.level).faults !== 'one',
    back: home,
  }
}

type Parts = readonly { readonly id: string; readonly name: string }[]

const fieldFor = (field: string, name: string, given: number): SuspectField => ({
  field,
  name,
  options: steps.map((value) => ({ value, chosen: value === given })),
})

const suspect = ({ id, name }: Cause, { points }: Points): SuspectField =>
  fieldFor(pointsField(id), name, points[id] ?? 0)

const byNames = (a: Cause, b: Cause): number => a.name.localeCompare(b.name, 'en')

/** Suspects by part, from the plug to the blade as the rulebook has them; never by how likely they are. */
function picksOf(causes: readonly Cause[], parts: Parts, { points }: Points): Pick[] {
  const given = Object.entries(points).sort(([, a], [, b]) => b - a)
  const names = ['First suspect', 'Another, if any', 'And another']
  return pickPlaces.map((place, k) => {
    const [picked, own = 0] = given[k] ?? []
    const sure = surenessOf(own)
    return {
      field: pickField(place),
      name: names[k]!,
      groups: parts
        .map(({ id, name }) => ({
          part: name,
          suspects: causes
            .filter(({ part }) => part === id)
            .sort(byNames)
            .map((it) => ({ id: it.id, name: it.name, chosen: it.id === picked })),
        }))
        .filter(({ suspects }) => suspects.length > 0),
      sureField: sureField(place),
      sure: sureness.map(({ id, name }) => ({ id, name, chosen: id === sure.id })),
    }
  })
}

function namedSections(
  causes: readonly Cause[],
  points: Points,
  found: readonly string[],
): PracticePointsPage['sections'] {
  const kept = causes.filter(({ id }) => points.points[id] !== undefined && !found.includes(id)).sort(byNames)
  const fresh = found.flatMap((id) => causes.find((it) => it.id === id) ?? [])
  return [
    { heading: 'This may be what you mean', own: fresh },
    { heading: 'Named so far', own: kept },
  ]
    .filter(({ own }) => own.length > 0)
    .map(({ heading, own }) => ({
      heading,
      folded: false,
      open: true,
      note: '',
      suspects: own.map((it) => suspect(it, points)),
    }))
}

function named(causes: readonly Cause[], parts: Parts, q: string): readonly string[] {
  const findable = causes.map(({ id, name, part }) => ({
    id,
    statement: name,
    text: parts.find((it) => it.id === part)?.name ?? '',
    words: [],
  }))
  return matchingAmong(findable, q).slice(0, mostFound)
}
