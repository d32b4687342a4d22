/** What a learner hears first of an exercise, before it is begun: for whoever sets one. */
import type { Exercise } from '../../shared/practice.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { layOut } from './desk.js'

export type FirstHeard =
  | { readonly ok: true; readonly complaint: readonly string[] }
  /** `alone`: a cause that excludes all others is among several; `silent`: nothing shows that anybody would tell of */
  | { readonly ok: false; readonly because: 'alone' | 'silent' }

/**
 * @returns what is drawn as told, also where the setting has words of its own
 * @throws RangeError for a kind or level that is not in the rulebook
 */
export async function firstHeard(
  prepared: Prepared,
  about: Pick<Exercise, 'kind' | 'level' | 'seed' | 'setting'>,
): Promise<FirstHeard> {
  const { kinds, levels } = prepared.knowledge
  if (!kinds.some(({ id }) => id === about.kind) || !levels.some(({ id }) => id === about.level))
    throw new RangeError(`there is no kind ${about.kind} at level ${about.level} in the rulebook`)
  const causes = about.setting.causes ?? []
  const begun = { ...about, id: 'not-begun', learner: 'nobody', begunAt: '', changedAt: '', moves: [] }
  const desk = await layOut(prepared, begun).catch((error: unknown) => {
    if (error instanceof RangeError) return null
    throw error
  })
  if (!desk) return { ok: false, because: 'silent' }
  const { model } = desk.kind
  if (causes.length > 1 && causes.some((id) => model.exclusive[model.causeIndex.get(id) ?? -1]))
    return { ok: false, because: 'alone' }
  return { ok: true, complaint: desk.heard }
}
