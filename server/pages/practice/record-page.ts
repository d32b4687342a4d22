import type { Knowledge } from '../../../shared/knowledge.js'
import type { ExerciseSummary, Learner, PracticeClass } from '../../../shared/practice.js'
import { resultsOf } from '../../practice/kept-results.js'
import { confidenceOf, mixUpsOf } from '../../practice/mastery.js'
import type { Result } from '../../practice/result.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { ConfidenceView } from './confidence-words.js'
import { confidenceView } from './confidence-words.js'
import type { ConfusionPicture } from './confusion-picture.js'
import { astray, confusionPicture } from './confusion-picture.js'
import { kindName } from './found-words.js'
import type { ComingList, KnownList } from './known-list.js'
import { comingList, knownCount, knownLists } from './known-list.js'
import { lessonHref } from './lesson-links.js'
import type { MixUp } from './mix-ups.js'
import { biggestMixUps, timesWithPoints } from './mix-ups.js'
import type { OverTime } from './over-time.js'
import { overTime } from './over-time.js'
import { counted } from '../layout/words.js'

/** What somebody knows, mixes up, and how that changes. */
export interface RecordPage {
  readonly frame: Frame
  readonly name: string
  readonly className: string
  readonly home: string
  readonly skillsHref: string
  readonly lessonsHref: string
  /** nothing has ended yet: only what to do is said */
  readonly isEmpty: boolean
  readonly lead: string
  /** no exercise had points, so there is neither confusion nor confidence */
  readonly withoutPoints: boolean
  readonly mixUps: readonly MixUp[]
  /** by kind, where most went astray first */
  readonly pictures: readonly { readonly kind: string; readonly picture: ConfusionPicture }[]
  readonly lists: readonly KnownList[]
  readonly coming: ComingList
  readonly time: OverTime | null
  readonly confidence: ConfidenceView | null
}

export interface RecordAtHand {
  readonly knowledge: Knowledge
  readonly learner: Learner
  readonly ofClass: PracticeClass
  /** all of the learner's, any order */
  readonly exercises: readonly ExerciseSummary[]
  /** ISO 8601, UTC */
  readonly now: string
}

export function recordPage({ knowledge, learner, ofClass, exercises, now }: RecordAtHand): RecordPage {
  const results = resultsOf(exercises, knowledge.moved)
  const kinds = kindsMet(knowledge, results)
  const lists = knownLists(knowledge, results, kinds, now)
  const record = confidenceOf(results)
  const home = `/practice/people/${learner.id}`
  return {
    frame: plainFrame(`${learner.name}: what you know`, 'practice'),
    name: learner.name,
    className: ofClass.name,
    home,
    skillsHref: `${home}/skills`,
    lessonsHref: lessonHref('', { learner: learner.id }),
    isEmpty: results.length === 0,
    lead: leadOf(results, lists),
    withoutPoints: record === undefined,
    mixUps: biggestMixUps(knowledge, results, kinds, learner.id),
    pictures: picturesOf(knowledge, results, kinds),
    lists,
    coming: comingList(results, now),
    time: overTime(knowledge, results, exercises, now),
    confidence: record ? confidenceView(record.parts) : null,
  }
}

/** Of the rulebook, in the order in which they first came. */
function kindsMet(knowledge: Knowledge, results: readonly Result[]): string[] {
  const inOrder = [...results].sort((a, b) => (a.at < b.at ? -1 : 1)).map(({ kind }) => kind)
  return [...new Set(inOrder)].filter((kind) => knowledge.kinds.some(({ id }) => id === kind))
}

function leadOf(results: readonly Result[], lists: readonly KnownList[]): string {
  const { known, met } = knownCount(lists)
  const finished = `${counted(results.length, 'exercise')} finished.`
  if (known === 0)
    return `${finished} ${counted(met, 'fault')} met, none known yet; a fault counts as known once you found it three times running.`
  return `${finished} ${counted(known, 'fault')} known: found the last three times that ${known === 1 ? 'it' : 'they'} came; ${met} met and not known yet.`
}

function picturesOf(
  knowledge: Knowledge,
  results: readonly Result[],
  kinds: readonly string[],
): RecordPage['pictures'] {
  return kinds
    .map((kind) => {
      const rows = mixUpsOf(results, kind)
      return {
        kind: kindName(knowledge, kind),
        picture: confusionPicture(knowledge, kind, rows, (cause) => timesWithPoints(results, kind, cause)),
        astray: rows.reduce((sum, row) => sum + row.weight * astray(row), 0),
      }
    })
    .sort((a, b) => b.astray - a.astray)
    .flatMap(({ kind, picture }) => (picture ? [{ kind, picture }] : []))
}
