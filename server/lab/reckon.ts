/** A trial reckoned through: what the changed rulebook makes of a situation. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import { assess, prepare, score } from '../diagnosis/assess.js'

export interface Reckoned {
  readonly assessment: Assessment
  /** by cause: P(there) in a troubled tool of which nothing is known */
  readonly before: ReadonlyMap<string, number>
}

/**
 * @param pause called again and again on the way, so that whoever has other work can let it through
 * @returns null where no priors can be made of the shares, or one of them is not above 0
 */
export async function reckon(
  knowledge: Knowledge,
  situation: Situation,
  shop: ShopSettings,
  pause?: () => Promise<void>,
): Promise<Reckoned | null> {
  const book = bookOf(knowledge, situation.kind)
  if (book.causes.some(({ shares }) => !(shares[situation.kind]! > 0))) return null
  try {
    const prepared = await prepare(book, pause)
    const untold = { ...situation, answers: {}, answeredAfter: {} }
    return {
      assessment: await assess(prepared, situation, shop),
      before: priorsIn(await score(prepared, untold)),
    }
  } catch (error) {
    if (error instanceof RangeError) return null
    throw error
  }
}

export function priorsIn({ causes }: Pick<Awaited<ReturnType<typeof score>>, 'causes'>): Map<string, number> {
  return new Map(causes.map(({ id, probability }) => [id, probability]))
}
