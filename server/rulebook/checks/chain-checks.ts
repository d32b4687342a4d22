/** Chains of practice: two causes that one and the same tool can have, the one before the other. */
import type { RulebookProblem } from '../../errors.js'
import { fileOf, type Check } from '../rulebook.js'

const chainFits: Check = {
  name: 'chain-fits',
  description:
    'Every kind of a chain can have both its causes, which are two, and neither shuts out the other.',
  needs: ['causes'],
  run: (book) =>
    book.knowledge.chains.flatMap(({ id, kinds, first, then }): RulebookProblem[] => {
      const file = fileOf('chains', id)
      if (first === then)
        return [
          {
            file,
            field: 'then',
            message: `"${then}" leads to itself`,
            remedy: 'name what it leads to',
          },
        ]
      return (['first', 'then'] as const).flatMap((field): RulebookProblem[] => {
        const causeId = field === 'first' ? first : then
        const cause = book.causesById.get(causeId)
        if (!cause) return []
        if (cause.exclusive)
          return [
            {
              file,
              field,
              message: `"${causeId}" shuts out every other cause`,
              remedy: 'name one that another can stand beside',
            },
          ]
        return kinds.flatMap((kind, i) =>
          cause.shares[kind] === undefined
            ? [
                {
                  file,
                  field: `kinds[${i}]`,
                  message: `${kind} cannot have "${causeId}"`,
                  remedy: 'leave the kind out, or give the cause a share of it',
                },
              ]
            : [],
        )
      })
    }),
}

const chainOnce: Check = {
  name: 'chain-once',
  description: 'No kind has the same two causes in two chains.',
  run: (book) => {
    const met = new Map<string, string>()
    return book.knowledge.chains.flatMap(({ id, kinds, first, then }) =>
      kinds.flatMap((kind, i): RulebookProblem[] => {
        const key = [kind, ...[first, then].sort()].join(' ')
        const other = met.get(key)
        if (other === undefined) {
          met.set(key, id)
          return []
        }
        const message = `${kind} has these two in ${fileOf('chains', other)} already`
        return [{ file: fileOf('chains', id), field: `kinds[${i}]`, message, remedy: 'keep one of the two' }]
      }),
    )
  },
}

export const chainChecks: readonly Check[] = [chainFits, chainOnce]
