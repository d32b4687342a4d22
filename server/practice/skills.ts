/** The sheet on which skills are signed off: what was shown, how often, and when. */
import type { Shown, SignedOff } from '../../shared/practice.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import { dangerLooked, isMended } from './desk.js'
import { curedIt } from './moves.js'
import type { Played } from './played.js'
import { ratingOf } from './recall.js'
import { resultOf } from './result.js'

export interface SkillRow extends Shown {
  /** what a signature names */
  readonly key: string
  readonly times: number
  /** ISO 8601, UTC */
  readonly first: string
  readonly last: string
  /** shown on two days at least: it is not only still in the ear */
  readonly apart: boolean
  readonly signed: SignedOff | undefined
}

/** What one finished exercise showed; nothing where a slip ended it. */
export function shownIn(played: Played): Shown[] {
  const { desk, done, now, exercise } = played
  const result = resultOf(played)
  if (!result || result.over === 'slip') return []
  const { model } = desk.kind
  const shown: Shown[] = []
  const show = (skill: Shown['skill'], subject = '') => shown.push({ skill, kind: exercise.kind, subject })
  const clean = result.slips.length === 0
  const acts = done.filter(({ move, refused }) => refused === undefined && /^(looked|tried)$/.test(move.type))
  if (clean && dangerLooked(desk, now.situation)) show('dangers-first')
  const allStood = acts.every(({ move, before }) => {
    const action =
      move.type === 'looked'
        ? model.steps.find(({ id }) => id === move.step)
        : move.type === 'tried'
          ? model.fixes.find(({ id }) => id === move.fix)
          : undefined
    // what cannot stand under power was put back for the run
    const runs = action !== undefined && 'power' in action && action.power
    return setupsNeeded(model.setups, action?.setups ?? [])
      .filter(({ withPower }) => withPower || !runs)
      .every(({ id }) => before.situation.standing.includes(id))
  })
  if (clean && acts.length > 0 && allStood) show('plug-out-first')
  if (now.over === 'hand-back' && isMended(now) && now.disinfected) show('disinfected')
  if (now.over === 'set-aside' && clean) show('set-aside')
  for (const cause of result.causes) if (ratingOf(result, cause) >= 3) show('found', cause)
  for (const it of acts) {
    if (it.slips.length > 0) continue
    if (it.move.type === 'tried' && curedIt(it)) show('mended', it.move.fix)
    const { move } = it
    if (move.type === 'looked' && model.steps.some(({ id, form }) => id === move.step && form === 'check'))
      show('looked', move.step)
  }
  return shown
}

/** What a signature names. */
export const keyOfSkill = ({ skill, kind, subject }: Shown): string =>
  [skill, kind, subject].filter(Boolean).join('|')

const dayOf = (instant: string): string => instant.slice(0, 10)

/** @param exercises what each of a learner's exercises showed, with its instant (ISO 8601); any order */
export function skillsSheet(
  exercises: readonly { readonly at: string; readonly shown: readonly Shown[] }[],
  signed: readonly SignedOff[],
): SkillRow[] {
  const rows = new Map<string, { shown: Shown; instants: Set<string> }>()
  for (const { at, shown } of exercises)
    for (const it of shown) {
      const key = keyOfSkill(it)
      const row = rows.get(key) ?? { shown: it, instants: new Set<string>() }
      rows.set(key, row)
      row.instants.add(at)
    }
  return [...rows].map(([key, { shown, instants }]) => {
    const inOrder = [...instants].sort()
    return {
      ...shown,
      key,
      times: inOrder.length,
      first: inOrder[0]!,
      last: inOrder.at(-1)!,
      apart: dayOf(inOrder.at(-1)!) !== dayOf(inOrder[0]!),
      signed: signed.find(({ skill }) => skill === key),
    }
  })
}
