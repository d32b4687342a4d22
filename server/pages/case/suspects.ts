import type { DotField } from '../layout/drawing.js'
import { dotField, shadeLevel } from '../layout/drawing.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { kindOnBench } from '../../bench/on-bench.js'
import type { PartsDrawing } from '../layout/parts-drawing.js'
import { partsDrawing } from '../layout/parts-drawing.js'
import { countOf100, inHundred } from '../layout/words.js'

/** Who is suspected, as counts of 100 beside the work. */
export interface Suspects {
  /** null for a kind whose parts nobody has drawn */
  readonly drawing: PartsDrawing | null
  readonly list: readonly Suspect[]
  /** those that the list leaves out, in one sentence; empty when it leaves out none */
  readonly others: string
  readonly note: string
}

interface Suspect {
  readonly name: string
  readonly href: string
  readonly words: string
  readonly level: number
  readonly dots: DotField
}

/** As many as can be read at a glance; the why page has more. */
const most = 5

/** Below this a cause is told of in the sentence under the list. */
const least = 0.015

/** The likeliest causes, and the tool's drawing with each part hatched by the likeliest of its causes. */
export function suspectsView(on: OnBench): Suspects {
  const { causes } = lookupOf(on.knowledge)
  const ranked = [...on.assessment.causes].sort((a, b) => b.probability - a.probability)
  const shown = ranked.filter(
    ({ probability }, place) => place < most && (probability >= least || place === 0),
  )
  const suspicion = new Map<string, number>()
  for (const { id, probability } of ranked) {
    const part = causes.get(id)?.part
    if (part !== undefined) suspicion.set(part, Math.max(suspicion.get(part) ?? 0, probability))
  }
  const left = ranked.slice(shown.length)
  return {
    drawing: partsDrawing(kindOnBench(on), suspicion),
    list: shown.map(({ id, name, probability }) => ({
      name,
      href: `/rulebook/causes/${id}`,
      words: inHundred(probability),
      level: shadeLevel(probability),
      dots: dotField(countOf100(probability)),
    })),
    others: left[0] ? `${left.length} more, none above ${inHundred(left[0].probability)}.` : '',
    note: 'Counts of 100 tools that answer like this one. Two faults can be there at once, so they need not add up to 100.',
  }
}
