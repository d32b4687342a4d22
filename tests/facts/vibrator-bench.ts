/** The two kinds whose arm is pulled by a coil, and what their tests ask of them. */
import { beforeAll } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess, prepare } from '../../server/diagnosis/assess.js'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { loadKnowledge } from '../../server/rulebook/load.js'

export const kinds = ['magnetic-motor', 'pivot-motor'] as const
export type Kind = (typeof kinds)[number]
export type Answers = Readonly<Record<string, Answer>>

export const knowledge = loadKnowledge()
let prepared: Prepared
beforeAll(async () => {
  prepared = await prepare(knowledge)
})

export const look = (
  kind: Kind,
  answers: Answers,
  fixesTried: readonly string[] = [],
  shop = ShopSettings.parse({}),
): Promise<Assessment> =>
  assess(prepared, Situation.parse({ kind, answers, fixesTried: [...fixesTried] }), shop)
export const order = ({ causes }: Assessment): readonly string[] => causes.map(({ id }) => id)
export const chance = ({ causes }: Assessment, cause: string): number =>
  causes.find(({ id }) => id === cause)!.probability
export const margin = ({ causes }: Assessment): number => causes[0]!.probability / causes[1]!.probability

/** Every danger looked for and none found. */
export const safe = (kind: Kind): Answers =>
  Object.fromEntries(
    bookOf(knowledge, kind)
      .steps.filter(({ form }) => form === 'danger')
      .flatMap(({ questions }) => questions.map(({ id }) => [id, 'no'])),
  )
