/** An exercise gone through again, move by move, in words. */
import type { Tells } from '../../practice/told-by.js'
import type { Debrief, DebriefStep } from '../../practice/debrief.js'
import type { Desk } from '../../practice/desk.js'
import type { LookedBack } from '../../practice/look-back.js'
import type { Played } from '../../practice/played.js'
import { noLoss } from '../../practice/take-along.js'
import type { WrongAnswer } from '../../practice/wrong-answers.js'
import { answerWords, strength } from '../layout/words.js'
import type { SlipBand } from './debrief-ending.js'
import { slipBand } from './debrief-ending.js'
import type { Tally } from './tally.js'
import { tallyOf } from './tally.js'
import { toldOfMove } from './done-words.js'
import { lostWords, planWords, reasonWords } from './debrief-words.js'
import { lowered, moveWords, questionOf, toldWords } from './move-words.js'

export interface StepView {
  readonly did: string
  /** what came of it; of many answers those that stand out */
  readonly told: readonly ToldLine[]
  /** all answers, where not all stand in `told` */
  readonly all: readonly ToldLine[]
  /** "about 3 minutes lost"; empty where nothing is weighed */
  readonly lost: string
  /** the same as strokes, one a minute; null where nothing was lost */
  readonly tally: Tally | null
  readonly isLoss: boolean
  /** what the plan would have done, and why; null where the move was as good */
  readonly plan: { readonly what: string; readonly why: string } | null
  readonly tells: readonly {
    readonly finding: string
    readonly weights: readonly { readonly side: 'for' | 'against'; readonly words: string }[]
  }[]
  /** where answers came and none says anything worth a word */
  readonly nothing: string
  readonly slips: readonly SlipBand[]
}

interface ToldLine {
  readonly words: string
  /** what the tool showed, where the answer was wrong */
  readonly wrong: string
}

/** Of more answers than this only those that are no plain "no" are shown at once. */
const mostTold = 3

export function stepsOf({ desk }: Played, debrief: Debrief, back: LookedBack): StepView[] {
  return debrief.steps.flatMap((step, k) =>
    step.done.refused === undefined ? stepOf(desk, step, back.compared[k], back.wrong[k] ?? []) : [],
  )
}

function stepOf(
  desk: Desk,
  { done, plan, worth, lostMinutes, tells, slips }: DebriefStep,
  compared: LookedBack['compared'][number],
  wrong: readonly WrongAnswer[],
): StepView {
  const weighed = worth !== undefined && done.move.type !== 'spread'
  const grouped = tellsOf(desk, tells)
  const looked = done.told.length > 0 && done.after.causes.length > 0
  return {
    did: moveWords(desk, done.move),
    ...toldOf(desk, toldOfMove(done), wrong),
    lost: weighed ? lostWords(lostMinutes) : '',
    tally: weighed ? tallyOf(lostMinutes) : null,
    isLoss: weighed && lostMinutes >= noLoss,
    plan: compared
      ? { what: planWords(desk, plan, compared.goal), why: reasonWords(done.move, compared) }
      : null,
    tells: grouped,
    nothing: looked && grouped.length === 0 ? 'This changed nothing.' : '',
    slips: slips.map((slip) => slipBand(slip)),
  }
}

function toldOf(
  desk: Desk,
  told: DebriefStep['done']['told'],
  wrong: readonly WrongAnswer[],
): Pick<StepView, 'told' | 'all'> {
  const words = toldWords(desk, told)
  const lines = told.map(({ question, answer }, k) => ({
    answer,
    words: words[k]!,
    wrong: wrongWords(
      desk,
      wrong.find((it) => it.question === question),
    ),
  }))
  if (lines.length <= mostTold) return { told: lines, all: [] }
  const shown = lines.filter(({ answer, wrong: was }) => answer !== 'no' || was !== '')
  const rest = lines.length - shown.length
  const summed = rest === lines.length ? `No to all ${rest}.` : `No to the other ${rest}.`
  return { told: rest > 0 ? [...shown, { words: summed, wrong: '' }] : shown, all: rest > 0 ? lines : [] }
}

/** What a wrong answer should have been. */
export function wrongWords(desk: Desk, wrong: WrongAnswer | undefined): string {
  if (!wrong) return ''
  const right = answerWords(wrong.shown ?? 'cant-tell', questionOf(desk, wrong.question)?.unit)
  return `A wrong answer: the tool showed ${lowered(right)}.`
}

/** Suspects named for one move on either side. */
const mostNamed = 4

function tellsOf({ kind: { model } }: Desk, all: readonly Tells[]): StepView['tells'] {
  const side = (sign: 1 | -1) => all.filter((it) => Math.sign(it.decibans) === sign).slice(0, mostNamed)
  const tells = [...side(1), ...side(-1)]
  const keys = [...new Set(tells.map(({ finding }) => finding))]
  return keys.map((id) => {
    const its = tells.filter(({ finding }) => finding === id)
    const says = model.findings[model.findingIndex.get(id)!]!.says
    return {
      finding: its[0]!.present ? says : `Not so: ${lowered(says)}`,
      weights: its.map(({ cause, decibans }) => ({
        side: decibans > 0 ? ('for' as const) : ('against' as const),
        words: `${strength(decibans)} ${lowered(model.causes[model.causeIndex.get(cause)!]!.name)}`,
      })),
    }
  })
}
