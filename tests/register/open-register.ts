/** A register in a file, or in memory, with ids that count up; and things to put into it. */
import type { Register } from '../../server/register/register.js'
import { openStores } from '../../server/store/stores.js'
import type { Stores } from '../../server/store/stores.js'
import type { ExerciseOutcome, PracticeMove, Setting } from '../../shared/practice.js'

export async function openRegister(
  file = ':memory:',
  newKey = counting(),
): Promise<Register & Pick<Stores, 'close' | 'cases'>> {
  const { register, cases, close } = await openStores({ file, newId: newKey, newKey })
  return { ...register, cases, close }
}

export function counting(first = 1): () => string {
  let next = first
  return () => `key${next++}`
}

export const at = (minute: number): string => new Date(Date.UTC(2026, 2, 2, 9, minute)).toISOString()

export const plain: Setting = { hideSuspects: false, hidePrices: false }
export const tool = { kind: 'bench-motor', level: 'first', seed: 7, setting: plain }

export const looked: PracticeMove = { type: 'looked', step: 'how-it-runs' }
export const disinfected: PracticeMove = { type: 'disinfected' }
export const handedBack: PracticeMove = { type: 'ended', way: 'hand-back' }

export const outcomeWith = (more: Partial<ExerciseOutcome> = {}): ExerciseOutcome => ({
  over: 'hand-back',
  mended: true,
  causes: ['dull-blade'],
  suspects: ['dull-blade', 'worn-brushes'],
  slips: [],
  spread: { points: { 'dull-blade': 70 }, other: 30 },
  shown: [{ skill: 'found', kind: 'bench-motor', subject: 'dull-blade' }],
  score: null,
  lostMinutes: null,
  ...more,
})
