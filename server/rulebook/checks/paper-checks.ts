/** Papers that go with a tool: there for every kind, whatever was found. */
import { fileOf, type Check } from '../rulebook.js'

/** A tool may have anything; so these papers say something even when nothing was found. */
const always = ['packing', 'retiring'] as const

const papersForEachKind: Check = {
  name: 'papers-for-each-kind',
  description:
    'For every kind there is a line on how it is packed and on how it is retired that always holds.',
  needs: ['papers'],
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id }) =>
      always.flatMap((paper) => {
        const lines = book.knowledge.papers.filter(
          ({ kinds, on, when, unless }) => kinds.includes(id) && on === paper && !when && !unless,
        )
        if (lines.length > 0) return []
        const message = `no line of "${paper}" in rules/papers/ holds for it always`
        return [
          {
            file: fileOf('kinds', id),
            field: '',
            message,
            remedy: 'add a line without when and unless, or add the kind to one',
          },
        ]
      }),
    ),
}

export const paperChecks: readonly Check[] = [papersForEachKind]
