/** Mistakes in sets of test limits. */
import type { Limit } from '../../../shared/limit-file.js'
import type { Files, Mistake } from '../tiny-rulebook.js'

const path: Limit = { measure: 'earth-path', of: 'earthed', bound: 'at-most', value: 0.5, unit: 'ohm' }

function set(files: Files, id: string, limits: readonly Limit[], name = `Set ${id}`): void {
  files.limits[id] = { name, where: 'Nowhere.', limits, order: 1, source: 'guess' }
}

export const limits: Mistake[] = [
  [
    'limit-sides',
    (it) => set(it, 'one', [{ ...path, bound: 'at-least' }]),
    ['rules/limits/one.json: limits[0]: earth-path is at-least in ohm; it is at-most in ohm'],
  ],
  [
    'limit-sides',
    (it) => set(it, 'one', [path, { ...path, measure: 'insulation' }]),
    ['rules/limits/one.json: limits[1]: insulation is at-most in ohm; it is at-least in megohm'],
  ],
  [
    'limit-once',
    (it) => set(it, 'one', [path, { ...path, value: 1 }]),
    [
      'rules/limits/one.json: limits[1]: earth-path of earthed is in limits[0] already; keep the one that holds',
    ],
  ],
  [
    'limit-names',
    (it) => {
      set(it, 'one', [path], 'The set')
      set(it, 'two', [path], 'The set')
    },
    [
      'rules/limits/two.json: name: rules/limits/one.json has the name "The set" too; name each set by its own name',
    ],
  ],
]
