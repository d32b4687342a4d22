/** The bench that the proof stands at. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { ShopSettings } from '../../shared/situation.js'
import { modelOf } from '../diagnosis/model.js'
import { barredIn } from '../diagnosis/policy.js'
import type { Asker } from '../simulation/interview.js'
import { askerOf } from '../simulation/interview.js'

/** The figures that a shop starts with, a competent bench hand (S3), and a safety test at hand. */
export const proofShop = ShopSettings.parse({ skill: 'S3', canSafetyTest: true })

/** Asks all that such a hand may settle, trying a fix to see what it tells included. */
export async function proofAsker(knowledge: Knowledge, kind: string): Promise<Asker> {
  const model = modelOf(knowledge, kind)
  return askerOf(model, new Set((await barredIn(bookOf(knowledge, kind), model, proofShop)).keys()))
}
