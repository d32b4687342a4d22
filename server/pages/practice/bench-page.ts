/** The practice bench: what the tool is said to do, how it stands, what the last move told, and the ways on. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Learner, PracticeMove } from '../../../shared/practice.js'
import { dangerLooked, isMended } from '../../practice/desk.js'
import type { Played } from '../../practice/played.js'
import { canSpread } from '../../practice/played.js'
import type { Frame, Tag } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { moneyIn } from '../layout/money.js'
import { minutes } from '../layout/words.js'
import type { BenchMove, GroupId, Showing } from './bench-moves.js'
import { benchMoves, standsWords } from './bench-moves.js'
import type { DoneView, LogLine } from './done-words.js'
import { doneView, logLine } from './done-words.js'
import { levelName } from './found-words.js'
import { keyOf } from './move-key.js'
import { homeOf } from './learner-home.js'
import { moveAsAdvice, moveWords, spreadWords } from './move-words.js'

/** What every page of an exercise is made of. */
export interface AtBench {
  /** the whole rulebook */
  readonly knowledge: Knowledge
  readonly played: Played
  readonly learner: Pick<Learner, 'id' | 'name'>
  /** what the plan would do next */
  readonly hint: () => Promise<PracticeMove>
  readonly showing: Showing
}

/** Why a move was not made: told on the page that it came from. */
export interface NotMade {
  readonly heading: string
  readonly words: string
  /** the same move once more, from this page; null where it cannot be made */
  readonly again: { readonly key: string; readonly name: string } | null
}

export interface PracticeBenchPage {
  readonly frame: Frame
  readonly tag: Tag
  readonly notMade: NotMade | null
  readonly action: string
  readonly seen: number
  readonly stands: string
  readonly setups: readonly BenchMove[]
  /** "about 12 minutes and €8 so far"; empty where it is hidden */
  readonly clock: string
  readonly last: DoneView | null
  /** what comes before any thought about the fault, by one tap; what is done already is not offered again */
  readonly quick: readonly BenchMove[]
  /** what a good way would do next, where the exercise shows it */
  readonly guide: { readonly words: string; readonly where: string; readonly key: string } | null
  readonly ways: readonly { readonly name: string; readonly says: string; readonly href: string }[]
  /** where points are spread; null once they stand for good */
  readonly points: { readonly href: string; readonly says: string; readonly given: string } | null
  readonly pointsStand: string
  readonly find: string
  readonly end: { readonly href: string }
  readonly log: readonly LogLine[]
  readonly home: string
}

/** The groups with what they are for; `end` is a way of its own. */
export const groupNames: Readonly<Record<GroupId, { readonly name: string; readonly says: string }>> = {
  safe: { name: 'Make it safe', says: 'dangers, plug, covers' },
  ask: { name: 'Ask', says: 'the person who brought it' },
  look: { name: 'Look and feel', says: 'the tool at rest' },
  test: { name: 'Test and measure', says: 'run, swap, meter' },
  mend: { name: 'Fix', says: 'clean, oil, renew' },
  end: { name: 'End it', says: 'hand back, send in, set aside' },
}

const onward = ['safe', 'ask', 'look', 'test', 'mend'] as const satisfies readonly GroupId[]

export const exerciseHref = (id: string): string => `/practice/exercises/${id}`
export const debriefHref = (id: string): string => `${exerciseHref(id)}/debrief`
export const groupHref = (id: string, group: GroupId): string => `${exerciseHref(id)}/moves?in=${group}`

export async function practiceBenchPage(
  at: AtBench,
  notMade: NotMade | null = null,
): Promise<PracticeBenchPage> {
  const { knowledge, played, learner, showing } = at
  const { desk, done, now, exercise } = played
  const moves = await benchMoves(knowledge, desk, now, showing)
  const last = done.at(-1)
  const home = exerciseHref(exercise.id)
  return {
    frame: plainFrame(notMade ? `Error: ${notMade.heading}` : 'Practice bench', 'practice'),
    tag: tagOf(at),
    notMade,
    action: `${home}/moves`,
    seen: exercise.moves.length,
    stands: standsWords(desk, now),
    setups: moves.filter(({ key }) => /^(stood|put-back)\//.test(key)),
    clock: clockWords(at),
    last: last ? doneView(desk, last, showing) : null,
    quick: quickOf(at, moves),
    guide: exercise.setting.guided === true ? await guideOf(at, moves) : null,
    ways: onward.map((group) => ({ ...groupNames[group], href: groupHref(exercise.id, group) })),
    points: canSpread(played)
      ? {
          href: `${home}/points`,
          says: now.spread ? 'named; change them' : 'what do you think it is?',
          given: now.spread ? spreadWords(desk, now.spread) : '',
        }
      : null,
    pointsStand: !canSpread(played) && now.spread ? spreadWords(desk, now.spread) : '',
    find: `${home}/moves`,
    end: { href: groupHref(exercise.id, 'end') },
    log: done.map((it) => logLine(desk, it, showing)).reverse(),
    home: homeOf(learner.id, exercise.setting.with),
  }
}

async function guideOf({ played: { desk }, hint }: AtBench, moves: readonly BenchMove[]) {
  const move = await hint()
  if (move.type === 'spread') return null
  const key = keyOf(move)
  const group = moves.find((it) => it.key === key)?.group
  return {
    words: move.type === 'stood' ? moveWords(desk, move) : moveAsAdvice(desk, move),
    where: group ? `You find it under “${groupNames[group].name}”.` : '',
    key,
  }
}

/** The danger signs, what makes it safe to touch, cleaning, and handing back what runs again: the same for every tool. */
function quickOf({ played: { desk, now } }: AtBench, moves: readonly BenchMove[]): readonly BenchMove[] {
  const { steps, setups } = desk.kind.model
  const wanted: Exclude<PracticeMove, { type: 'spread' }>[] = [
    ...(dangerLooked(desk, now.situation)
      ? []
      : steps
          .filter(({ form }) => form === 'danger')
          .map(({ id }) => ({ type: 'looked' as const, step: id }))),
    ...setups
      .filter(
        ({ id, needs, withPower }) =>
          needs.length === 0 && !withPower && !now.situation.standing.includes(id),
      )
      .map(({ id }) => ({ type: 'stood' as const, setup: id })),
    ...(now.disinfected ? [] : [{ type: 'disinfected' as const }]),
    ...(isMended(now) ? [{ type: 'ended' as const, way: 'hand-back' as const }] : []),
  ]
  return wanted.flatMap((move) => moves.find(({ key }) => key === keyOf(move)) ?? [])
}

/** What the tool was brought in with, each thing in quotes. */
export function complaintOf({ desk, exercise }: Played): string[] {
  const own = exercise.setting.complaint
  const words = own === undefined ? desk.heard : [own]
  return words.map((it) => `“${it}”`)
}

/** The tag on the tool: kind, who works on it, and the complaint in quotes. */
function tagOf({ knowledge, played, learner }: AtBench): Tag {
  const { desk, exercise } = played
  const { model } = desk.kind
  return {
    href: null,
    tool: model.kind.plainName,
    kind: `${learner.name}, ${levelName(knowledge, exercise.level)}`,
    noticed: complaintOf(played),
    state: 'Practice',
    stateId: 'on-the-bench',
  }
}

export function clockWords({ played: { now, done }, showing }: AtBench): string {
  if (showing.hidePrices || done.length === 0) return ''
  const parts = now.parts > 0 ? ` and ${moneyIn(now.parts, showing.currency)} in parts` : ''
  return `${minutes(now.minutes)}${parts} so far`.replace(/^a/, 'A').replace(/^u/, 'U')
}
