/** The two kinds whose arm is pulled by a coil, and what their tests ask of them. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

export { knowledge }

export const kinds = ['magnetic-motor', 'pivot-motor'] as const
export type Kind = (typeof kinds)[number]
export type Answers = Readonly<Record<string, Answer>>

const prepared = await preparedRulebook()

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
