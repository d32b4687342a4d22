/** Sets of test limits: each measured thing once for each sort of tool, in its own unit, bounded on its own side. */
import type { Limit } from '../../../shared/limit-file.js'
import { fileOf, type Check } from '../rulebook.js'

/** How each is measured: an earth path and currents have a most, insulation a least. */
const measured: Readonly<Record<Limit['measure'], Pick<Limit, 'bound' | 'unit'>>> = {
  'earth-path': { bound: 'at-most', unit: 'ohm' },
  insulation: { bound: 'at-least', unit: 'megohm' },
  'protective-current': { bound: 'at-most', unit: 'milliamp' },
  'touch-current': { bound: 'at-most', unit: 'milliamp' },
}

const limitSides: Check = {
  name: 'limit-sides',
  description: 'A limit is bounded on the side of its measure, in the unit of its measure.',
  run: (book) =>
    book.knowledge.limits.flatMap(({ id, limits }) =>
      limits.flatMap(({ measure, bound, unit }, i) => {
        const right = measured[measure]
        if (right.bound === bound && right.unit === unit) return []
        const message = `${measure} is ${bound} in ${unit}`
        const remedy = `it is ${right.bound} in ${right.unit}`
        return [{ file: fileOf('limits', id), field: `limits[${i}]`, message, remedy }]
      }),
    ),
}

const limitOnce: Check = {
  name: 'limit-once',
  description: 'A set of limits has one limit for each measure and sort of tool.',
  run: (book) =>
    book.knowledge.limits.flatMap(({ id, limits }) =>
      limits.flatMap(({ measure, of }, i) => {
        const first = limits.findIndex((it) => it.measure === measure && it.of === of)
        if (first === i) return []
        const message = `${measure} of ${of} is in limits[${first}] already`
        return [
          { file: fileOf('limits', id), field: `limits[${i}]`, message, remedy: 'keep the one that holds' },
        ]
      }),
    ),
}

const limitNames: Check = {
  name: 'limit-names',
  description: 'Sets of limits are known by different names.',
  run: (book) =>
    book.knowledge.limits.flatMap(({ id, name }, place, all) => {
      const first = all.findIndex((it) => it.name === name)
      if (first === place) return []
      const message = `${fileOf('limits', all[first]!.id)} has the name "${name}" too`
      return [{ file: fileOf('limits', id), field: 'name', message, remedy: 'name each set by its own name' }]
    }),
}

export const limitChecks: readonly Check[] = [limitSides, limitOnce, limitNames]
