/** Which figures of a case can be changed, in groups; those that the shop has too are asked in the same words. */
import type { FigureName } from '../../../shared/figures.js'
import type { ChoiceField, FigureField, NumberField } from '../../forms/figure-fields.js'
import { firstFields, moreFields } from '../../forms/figure-fields.js'
import { namesOf } from '../../forms/figure-form.js'

const shops: readonly FigureField[] = [...firstFields, ...moreFields.flatMap(({ fields }) => fields)]
/** A field that the shop's page has too. @throws Error when it has not */
function ofShop(name: FigureName): FigureField {
  const field = shops.find((it) => namesOf(it).includes(name))
  if (!field) throw new Error(`the shop's page has no field for ${name}`)
  return field
}

const choice = (
  name: FigureName,
  words: string,
  hint: string,
  choices: readonly (readonly [means: boolean | number, words: string])[],
): ChoiceField => ({
  name,
  sort: 'choice',
  words,
  hint,
  choices: choices.map(([means, its]) => ({ value: String(means), means, words: its, hint: '' })),
})

const age: NumberField = {
  name: 'age',
  sort: 'years',
  words: 'Its age',
  unit: 'years',
  hint: 'Years that it has served. Not known: it is taken to be in the middle of its life.',
  least: 0,
  most: 60,
}

/** Entered as a row of sums, first year first; read apart from the others. */
export const spentByYear = {
  name: 'spentByYear',
  words: 'What it has cost, year by year',
  hint: 'Repairs, blades and oil of its first year, its second year and so on, with a space between: 20 35.50 60. From two years on they tell when it was cheapest.',
  sort: 'spent',
} as const

/** A figure with one box, two or a choice; or the row of sums. */
export type CaseField = FigureField | typeof spentByYear

export const caseGroups: readonly {
  readonly title: string
  readonly fields: readonly (FigureField | typeof spentByYear)[]
}[] = [
  {
    title: 'A service',
    fields: (['feeLow', 'inspection', 'carriage', 'serviceMends', 'comesBack', 'daysAwayLow'] as const).map(
      ofShop,
    ),
  },
  {
    title: 'Without it, and its parts',
    fields: [
      ofShop('hasSpare'),
      ofShop('dayWithout'),
      ofShop('loanDay'),
      choice('partsToBeHad', 'Can you still get parts?', '', [
        [true, 'Yes, or not asked yet'],
        [false, 'No longer'],
      ]),
      ofShop('partDays'),
    ],
  },
  {
    title: 'This tool',
    fields: [
      choice('inWarranty', 'Is it in warranty?', '', [
        [true, 'Yes'],
        [false, 'No'],
      ]),
      choice('openingVoids', 'Does opening the body end the warranty?', 'The warranty card says.', [
        [true, 'Yes, or nobody knows'],
        [false, 'No'],
      ]),
      age,
      ofShop('upkeep'),
      spentByYear,
      choice('motorFaultsThisYear', 'Motor faults in the last year, this one apart', '', [
        [0, 'None'],
        [1, 'One'],
        [2, 'Two or more'],
      ]),
    ],
  },
  {
    title: 'A new one',
    fields: (['newPrice', 'newDays', 'newLife', 'resale', 'disposal', 'newUpkeep', 'interest'] as const).map(
      ofShop,
    ),
  },
  { title: 'The bench', fields: (['minute', 'skill', 'canSafetyTest', 'teaches'] as const).map(ofShop) },
]
