/** Kinds and signs out of thin air: only their shape is tested with. */
import fc from 'fast-check'
import type { Sign } from '../../shared/knowledge.js'
import { SignFile } from '../../shared/sign-file.js'
import type { KindBook, SignAnswers } from '../../server/identify/kind-odds.js'

export const kindIds = ['round', 'square', 'long', 'odd'] as const

export function sign(id: string, chances: readonly number[], more: Partial<Sign> = {}): Sign {
  const kinds = Object.fromEntries(kindIds.map((kind, k) => [kind, chances[k] ?? 0.5]))
  const made = SignFile.parse({
    text: `Is it ${id}?`,
    statement: `It is ${id}`,
    kinds,
    seconds: 5,
    order: 1,
    source: 'made-up',
  })
  return { id, ...made, ...more }
}

const chance = fc.double({ min: 0.001, max: 0.999, noNaN: true })
const signs = fc.array(
  fc.record({
    chances: fc.array(chance, { minLength: 4, maxLength: 4 }),
    seconds: fc.integer({ min: 2, max: 60 }),
    needsPower: fc.boolean(),
  }),
  { minLength: 1, maxLength: 8 },
)

/** A book of four kinds and up to eight signs. */
export const books: fc.Arbitrary<KindBook> = fc
  .record({ usual: fc.array(fc.integer({ min: 1, max: 240 }), { minLength: 4, maxLength: 4 }), signs })
  .map((made) => ({
    kinds: kindIds.map((id, k) => ({ id, usual: made.usual[k]! })),
    signs: made.signs.map(({ chances, ...more }, i) => sign(`sign-${i}`, chances, more)),
  }))

/** A book with an answer, or none, to each of its signs. */
export const answered: fc.Arbitrary<{ book: KindBook; answers: SignAnswers }> = books.chain((book) =>
  fc
    .array(fc.constantFrom('yes', 'no', 'cant-tell', undefined), {
      minLength: book.signs.length,
      maxLength: book.signs.length,
    })
    .map((given) => ({
      book,
      answers: Object.fromEntries(
        book.signs.flatMap(({ id }, i) => (given[i] === undefined ? [] : [[id, given[i]]])),
      ),
    })),
)
