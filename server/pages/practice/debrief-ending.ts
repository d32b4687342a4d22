/** How an exercise ended: what was wrong with the tool, and what became of it. */
import type { Cause, Slip } from '../../../shared/knowledge.js'
import type { LookedBack } from '../../practice/look-back.js'
import type { Debrief } from '../../practice/debrief.js'
import type { Played } from '../../practice/played.js'
import type { PartsDrawing } from '../layout/parts-drawing.js'
import { partsMarked } from '../layout/parts-drawing.js'
import { listWords, minutes } from '../layout/words.js'
import { standsWords } from './bench-moves.js'
import { lowered, moveWords } from './move-words.js'

export interface Ending {
  /** level and kind */
  readonly eyebrow: string
  readonly title: string
  readonly lead: string
  /** as it came in */
  readonly complaint: string
  readonly causes: readonly { readonly name: string; readonly state: string; readonly says: string }[]
  /** how the one fault led to the other; null where it did not */
  readonly chain: string | null
  readonly drawing: PartsDrawing | null
  readonly slip: SlipBand | null
}

/** A safety mistake as a caution band. */
export interface SlipBand {
  readonly name: string
  /** by which move, and how the tool stood then */
  readonly when: string
  readonly why: string
  readonly right: readonly string[]
  /** does the right order stand unfolded? */
  readonly isOpen: boolean
}

export const slipBand = ({ name, why, right }: Slip, when = '', isOpen = false): SlipBand => ({
  name,
  when,
  why,
  right,
  isOpen,
})

/** "Your move 4, 12 minutes in: checked “Look inside”. It stood so: plugged in, blade on." */
export function slipWhen({ desk, done }: Played): string {
  const last = done.at(-1)
  if (!last) return ''
  const { before, move } = last
  return `Your move ${done.length}, ${minutes(before.minutes)} in: ${lowered(moveWords(desk, move))}. It stood so: ${lowered(standsWords(desk, before))}.`
}

export function endingOf(played: Played, debrief: Debrief, { chain }: LookedBack): Ending {
  const { exercise, desk } = played
  const { kind, causes } = desk.kind.model
  const there = debrief.causes.flatMap((id) => causes.find((cause) => cause.id === id) ?? [])
  const left = there.filter(({ id }) => debrief.left.includes(id))
  const slip = debrief.over === 'slip' ? debrief.slips.find(({ grade }) => grade === 'ends') : undefined
  const level = desk.book.knowledge.levels.find(({ id }) => id === exercise.level)
  const marked = new Set(there.filter(({ exclusive }) => !exclusive).map(({ part }) => part))
  return {
    eyebrow: [level?.name, kind.plainName].filter(Boolean).join(', '),
    title: titleOf(debrief, slip),
    lead: leadOf(debrief, there, left),
    complaint: exercise.setting.complaint ?? desk.heard.join('; '),
    causes: there.map((cause) => ({
      name: cause.name,
      state: cause.exclusive ? '' : left.includes(cause) ? 'still there' : 'fixed',
      says: cause.description,
    })),
    chain: chain?.says ?? null,
    drawing: partsMarked(kind, marked),
    slip: slip ? slipBand(slip, slipWhen(played)) : null,
  }
}

function titleOf({ over, left }: Debrief, slip: Slip | undefined): string {
  if (over === 'slip')
    return `Ended by a safety mistake: ${slip ? lowered(slip.name) : 'it could hurt somebody'}`
  if (over === 'send-in') return 'Sent in'
  if (over === 'set-aside') return 'Set aside'
  return left.length > 0 ? 'Handed back, and the trouble goes with it' : 'Fixed and handed back'
}

type Named = Pick<Cause, 'name' | 'exclusive' | 'ifSentIn' | 'ifIgnored'>

function leadOf({ over }: Debrief, there: readonly Named[], left: readonly Named[]): string {
  const names = (some: readonly Named[]) => listWords(some.map(({ name }) => lowered(name)))
  const all = names(there)
  const stays = left.find(({ ifSentIn }) => ifSentIn !== undefined)
  if (there.some(({ exclusive }) => exclusive))
    return `What it came to: ${all}.${over === 'send-in' && stays ? ` ${stays.ifSentIn}` : ''}`
  const mended = there.filter((it) => !left.includes(it))
  const faults = ['The fault', 'Two faults'][there.length - 1] ?? 'Several faults'
  const was = `${faults}: ${all}`
  if (left.length === 0)
    return `${was}. You fixed ${there.length === 1 ? 'it' : there.length === 2 ? 'both' : 'them all'}.`
  if (mended.length > 0) return `${was}. You fixed ${names(mended)}; left is ${names(left)}.`
  if (over === 'send-in') return `${was}. ${stays?.ifSentIn ?? 'The service fixes it, and sends a bill.'}`
  if (over === 'set-aside')
    return stays ? `${was}. The tool itself was sound.` : `${was}. Nobody works with it any more.`
  return over === 'hand-back'
    ? `${was}. It is still there: ${lowered(left[0]!.ifIgnored)}`
    : `${was}. You had not come to fix it.`
}
