import type { Problem } from '../../forms/answer-form.js'
import type { CauseChoice } from './cured-page.js'
import { causeChoices } from './cured-page.js'
import { conflictAmong } from '../../cases/acceptable.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { OnBench } from '../../bench/on-bench.js'
import { stateWords } from '../layout/words.js'

/** The user ends a case themselves, whatever the plan says. */
export interface FinishPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly states: readonly {
    readonly id: string
    readonly words: string
    readonly hint: string
  }[]
  /** why it cannot end as running again; empty when it can */
  readonly refused: string
  readonly causes: readonly CauseChoice[]
  readonly note: string
  readonly problems: readonly Problem[]
}

/** What was sent from a form that ends a case. */
export interface FinishSent {
  readonly state: string
  readonly cause: string
  readonly note: string
}

export const endStates = ['running-again', 'boxed-for-service', 'set-aside'] as const

const hints = {
  'running-again': 'It works, or it never failed',
  'boxed-for-service': 'It goes to somebody else',
  'set-aside': 'Nobody uses it',
} as const

/** An ending that the rules refuse is not offered. */
const mayEnd = ({ bench, assessment }: OnBench, state: (typeof endStates)[number]): boolean =>
  conflictAmong(bench, [{ type: 'finished', state }], assessment) === null

/** Causes offered by name; the rest are found in the rulebook and written as a note. */
const mostCauses = 12

export function finishPage(
  on: OnBench,
  sent: FinishSent = { state: '', cause: '', note: '' },
  problems: readonly Problem[] = [],
): FinishPage {
  const { knowledge, bench, assessment } = on
  const likeliest = assessment.causes.slice(0, mostCauses).map(({ id }) => id)
  return {
    frame: caseFrame(knowledge, bench, 'How does it end?', { at: '/finish', error: problems.length > 0 }),
    action: `/cases/${bench.id}/finish`,
    seen: bench.events.length,
    states: endStates
      .filter((state) => mayEnd(on, state))
      .map((id) => ({ id, words: stateWords(id), hint: hints[id] })),
    refused: mayEnd(on, 'running-again')
      ? ''
      : 'It cannot go back into use: a danger sign is there, or not settled yet.',
    causes: causeChoices(on, likeliest, false).map((cause) => ({
      ...cause,
      chosen: cause.id === sent.cause,
    })),
    note: sent.note,
    problems,
  }
}
