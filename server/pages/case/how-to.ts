import type { Setups } from './setups.js'

/** How a look or a fix is made: folded, for whoever wants it. */
export interface HowTo {
  readonly summary: string
  readonly how: readonly string[]
  readonly tools: string
  readonly setups: Setups
  /** those that do not stand unfolded on the screen */
  readonly cautions: readonly string[]
}

/** Words of caution that stand unfolded beyond the first one: who is shown more reads none. */
const mostWords = 16

/**
 * Cautions of the work and of what must be made first: the first of the work unfolded, where the hands are,
 * the first of what comes before it too where both are short; the rest is counted on the fold.
 */
export function splitCautions(
  own: readonly string[],
  { toMake }: Setups,
): { readonly shown: readonly string[]; readonly folded: readonly string[] } {
  const all = [...own, ...toMake.flatMap(({ cautions }) => cautions)]
  const firsts = [own[0], ...toMake.map(({ cautions }) => cautions[0])].filter((it) => it !== undefined)
  let words = 0
  const shown = [...new Set(firsts)].filter(
    (caution, k) => (words += caution.split(/\s+/).length) <= mostWords || k === 0,
  )
  return { shown, folded: [...new Set(all)].filter((it) => !shown.includes(it)) }
}

/** The fold of a look or a fix. */
export function howTo(
  summary: string,
  how: readonly string[],
  tools: readonly string[],
  setups: Setups,
  folded: readonly string[],
): HowTo {
  const more =
    folded.length === 0 ? '' : folded.length === 1 ? ', one more caution' : `, ${folded.length} more cautions`
  return { summary: `${summary}${more}`, how, tools: tools.join(', '), setups, cautions: folded }
}
