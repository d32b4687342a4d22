/** The cases of an invented shop, told relative to the hour in which the demo starts. */
import type { CaseEvent } from '../shared/case.js'
import type { Answer } from '../shared/situation.js'
import type { CaseStore } from './cases/case-store.js'

/** One tool's story: each entry is how many minutes after the beginning, and what was said or done. */
export interface DemoCase {
  readonly tool: string
  readonly kind: string
  readonly begunMinutesAgo: number
  readonly events: readonly (readonly [minute: number, event: CaseEvent])[]
}

/** Puts the stories into a store, oldest change last in time. */
export async function putDemoCases(cases: CaseStore, now: Date): Promise<void> {
  for (const { tool, kind, begunMinutesAgo, events } of demoCases) {
    const at = (minute: number) => new Date(now.getTime() - (begunMinutesAgo - minute) * 60_000).toISOString()
    const { id } = await cases.begin({ kind, tool, at: at(0) })
    for (const [minute, event] of events) await cases.append(id, event, at(minute))
  }
}

const HOUR = 60
const DAY = 24 * HOUR

const noDanger: Record<string, Answer> = {
  'tingle-or-shock': 'no',
  'smoke-or-burning-smell': 'no',
  'tripped-twice': 'no',
  'wont-turn-off': 'no',
  'cord-damaged': 'no',
  'plug-hot-or-scorched': 'no',
  'case-cracked': 'no',
  'after-wet': 'no',
  'blade-or-head-pops-off': 'no',
  'tooth-missing': 'no',
  'cutter-level-or-ahead': 'no',
  'drew-blood': 'no',
}

const told = (words: string, ...seen: string[]): CaseEvent => ({
  type: 'answered',
  step: 'complaint',
  answers: Object.fromEntries(seen.map((question) => [question, 'yes'])),
  when: 'now',
  words,
})
const answered = (step: string, answers: Record<string, Answer>): CaseEvent => ({
  type: 'answered',
  step,
  answers,
  when: 'now',
})
const danger = (...seen: string[]): CaseEvent =>
  answered('danger-signs', { ...noDanger, ...Object.fromEntries(seen.map((question) => [question, 'yes'])) })
const tried = (fix: string, outcome: 'cured' | 'better' | 'no'): CaseEvent => ({
  type: 'tried',
  fix,
  outcome,
})
const wiped: CaseEvent = { type: 'disinfected', done: true }

export const demoCases: readonly DemoCase[] = [
  {
    tool: 'Chair 2, black',
    kind: 'universal-motor',
    begunMinutesAgo: 12,
    events: [
      [1, told('Goes off and on again while I cut, like a loose wire', 'cuts-in-and-out')],
      [2, danger()],
      [5, answered('cord-flex', { 'cord-flex-changes-it': 'no', 'inlet-nudge-changes-it': 'no' })],
    ],
  },
  {
    tool: 'Chair 4, the heavy one',
    kind: 'universal-motor',
    begunMinutesAgo: 3,
    events: [],
  },
  {
    tool: 'Training room, number 7',
    kind: 'universal-motor',
    begunMinutesAgo: 50,
    events: [
      [1, told('Gets hot up front after the second client', 'hot-near-head')],
      [2, danger()],
      [20, tried('oil-bearing', 'better')],
    ],
  },
  {
    tool: 'Spare from the drawer',
    kind: 'universal-motor',
    begunMinutesAgo: 2 * HOUR,
    events: [
      [1, told('Slow and stiff since the winter', 'slows-down')],
      [3, danger()],
      [6, answered('vents-look', { 'vents-blocked-seen': 'no' })],
      [9, { type: 'cannot-do', id: 'gear-look' }],
    ],
  },
  {
    tool: 'Chair 1, red cord',
    kind: 'universal-motor',
    begunMinutesAgo: 4 * HOUR,
    events: [
      [1, told('The blade shakes a little from side to side', 'blade-wobbles')],
      [2, danger('cord-damaged')],
    ],
  },
  {
    tool: 'Chair 3',
    kind: 'universal-motor',
    begunMinutesAgo: 2 * DAY,
    events: [
      [1, told('Runs slow and the whole thing gets hot', 'hot-all-over', 'slows-down')],
      [2, danger()],
      [8, answered('vents-look', { 'vents-blocked-seen': 'yes' })],
      [18, tried('clear-vents', 'cured')],
      [20, wiped],
      [20, { type: 'finished', state: 'running-again', cause: 'blocked-vents' }],
    ],
  },
  {
    tool: 'Chair 5, old faithful',
    kind: 'universal-motor',
    begunMinutesAgo: 6 * DAY,
    events: [
      [1, told('Cuts out, a shake brings it back', 'cuts-in-and-out')],
      [2, danger()],
      [4, answered('cord-flex', { 'cord-flex-changes-it': 'no', 'inlet-nudge-changes-it': 'no' })],
      [16, answered('brush-look', { 'brush-sticks': 'no', 'brush-broken-or-missing': 'no' })],
      [30, tried('new-brush-pair', 'cured')],
      [33, wiped],
      [
        33,
        {
          type: 'finished',
          state: 'running-again',
          cause: 'worn-brushes',
          note: 'Both renewed; new pair ordered',
        },
      ],
    ],
  },
  {
    tool: 'Evening class, number 3',
    kind: 'universal-motor',
    begunMinutesAgo: 9 * DAY,
    events: [
      [1, told('Growls, and the noise goes up and down', 'growl-or-rumble', 'louder-than-before')],
      [2, danger()],
      [15, tried('oil-bearing', 'no')],
      [22, { type: 'cannot-do', id: 'gear-look' }],
      [25, wiped],
      [26, { type: 'finished', state: 'boxed-for-service', note: 'Collected on Thursday' }],
    ],
  },
  {
    tool: 'Chair 6',
    kind: 'universal-motor',
    begunMinutesAgo: 16 * DAY,
    events: [
      [1, told('Gave me a tingle with wet hands', 'tingle-or-shock')],
      [2, danger('tingle-or-shock')],
      [4, { type: 'finished', state: 'set-aside', note: 'Tagged and locked away until it is tested' }],
    ],
  },
  {
    tool: 'Window chair',
    kind: 'universal-motor',
    begunMinutesAgo: 23 * DAY,
    events: [
      [1, told('Dead this morning', 'wont-start')],
      [2, danger()],
      [6, tried('use-another-outlet', 'cured')],
      [7, wiped],
      [
        7,
        { type: 'finished', state: 'running-again', cause: 'dead-outlet', note: 'The socket, not the tool' },
      ],
    ],
  },
]
