/** What each cause is repaired by: isolation counts distinct repairs, not causes (IEEE 1522; MIL-HDBK-2165). */
import type { KindModel } from '../diagnosis/model.js'

export interface RepairItems {
  /** fix ids, and `send-in` or `retire` for what no fix cures */
  readonly ids: readonly string[]
  /** by cause: position of its repair in `ids` */
  readonly of: readonly number[]
}

/** A cause's repair is the fix most likely to cure it, the first in rulebook order among equals. */
export function repairItems(model: Pick<KindModel, 'causes' | 'fixes'>): RepairItems {
  const names = model.causes.map((cause) => {
    let best: { id: string; g: number } | undefined
    for (const fix of model.fixes) {
      const g = fix.cures[cause.id] ?? 0
      if (g > (best?.g ?? 0)) best = { id: fix.id, g }
    }
    return best?.id ?? (cause.service === 'retire' ? 'retire' : 'send-in')
  })
  const ids = [...new Set(names)]
  return { ids, of: names.map((name) => ids.indexOf(name)) }
}
