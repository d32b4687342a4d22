/** The figures as fields of a form: what each is called, what to enter, and what was wrong with it. */
import type { FigureName, SomeFigures } from '../../shared/figures.js'

/** How a figure is entered. A share is entered in percent. */
type Sort = 'amount' | 'days' | 'years' | 'percent' | 'choice'

interface Field {
  readonly words: string
  readonly hint: string
}

export interface NumberField extends Field {
  readonly name: FigureName
  readonly sort: Exclude<Sort, 'choice'>
  /** what one of it is: "a minute"; for an amount it follows the code of the currency */
  readonly unit: string
  readonly least: number
  /** of an amount: in prices of a new tool, which hold in any currency; Infinity for that price itself */
  readonly most: number
}

/** Two figures that are the ends of one range. */
export interface RangeField extends Omit<NumberField, 'name'> {
  readonly low: FigureName
  readonly high: FigureName
}

export interface ChoiceField extends Field {
  readonly name: FigureName
  readonly sort: 'choice'
  readonly choices: readonly {
    readonly value: string
    readonly means: SomeFigures[FigureName]
    readonly words: string
    readonly hint: string
  }[]
}

export type FigureField = NumberField | RangeField | ChoiceField

/** A sum of more than so many new tools is a slip of the finger. */
const mostOfNew = 10

const amount = (
  name: FigureName,
  words: string,
  unit: string,
  hint: string,
  most = mostOfNew,
): NumberField => ({
  name,
  sort: 'amount',
  words,
  unit,
  hint,
  least: 0,
  most,
})
const days = (name: FigureName, words: string, hint: string): NumberField => ({
  name,
  sort: 'days',
  words,
  unit: 'days',
  hint,
  least: 0,
  most: 365,
})
const yesNo = (
  name: FigureName,
  words: string,
  hint: string,
  yes: readonly [words: string, hint: string],
  no: readonly [words: string, hint: string],
): ChoiceField => ({
  name,
  sort: 'choice',
  words,
  hint,
  choices: [
    { value: 'yes', means: true, words: yes[0], hint: yes[1] },
    { value: 'no', means: false, words: no[0], hint: no[1] },
  ],
})

/** The figures of a shop that weigh most; short enough to be read in one go. */
export const firstFields: readonly FigureField[] = [
  {
    name: 'skill',
    sort: 'choice',
    words: 'Who works at the bench?',
    hint: '',
    choices: [
      { value: 'S1', means: 'S1', words: 'Blades and oil', hint: 'Works from outside; opens nothing.' },
      {
        value: 'S2',
        means: 'S2',
        words: 'Trained, outside covers',
        hint: 'Takes out brushes, opens gear covers that bare no live part.',
      },
      {
        value: 'S3',
        means: 'S3',
        words: 'Competent bench hand',
        hint: 'Opens mains bodies where local law lets them.',
      },
      { value: 'S4', means: 'S4', words: 'Specialist', hint: 'Windings, boards, capacitors.' },
    ],
  },
  yesNo(
    'canSafetyTest',
    'Is electrical safety tested here after a mains tool was opened?',
    '',
    ['Yes', 'A competent person here has the instrument, and may.'],
    ['No', 'Then no mains body is opened here.'],
  ),
  amount('minute', 'A minute at the bench', 'a minute', 'What it costs that somebody works on a tool.', 1),
  {
    low: 'feeLow',
    high: 'feeHigh',
    sort: 'amount',
    words: 'Fee of a service',
    unit: 'a repair',
    hint: 'From the least to the most, carriage apart. One of the two is enough for a fixed price.',
    least: 0,
    most: mostOfNew,
  },
  {
    low: 'daysAwayLow',
    high: 'daysAwayHigh',
    sort: 'days',
    words: 'Days away at a service',
    unit: 'days',
    hint: 'From the least to the most.',
    least: 0,
    most: 365,
  },
  yesNo(
    'hasSpare',
    'Do you have a spare?',
    '',
    ['Yes', 'A day without it costs nothing.'],
    ['No', 'A day without it costs what the next line says.'],
  ),
  amount('dayWithout', 'A day without the tool', 'a day', 'What is lost a day where no spare stands in.'),
  amount('newPrice', 'A new one', 'each', 'Price of a tool of the same class.', Infinity),
]

/** The rest, under one fold. */
export const moreFields: readonly { readonly title: string; readonly fields: readonly FigureField[] }[] = [
  {
    title: 'The mains',
    fields: [
      {
        name: 'mains',
        sort: 'choice',
        words: 'Hertz of the mains where you work',
        hint: 'It stands on every plate. A vibrator’s strokes are counted by it.',
        choices: [
          { value: '50', means: '50', words: '50 Hz', hint: 'Most of the world.' },
          { value: '60', means: '60', words: '60 Hz', hint: 'Most of the Americas, parts of Asia.' },
        ],
      },
    ],
  },
  {
    title: 'Sending in',
    fields: [
      amount('carriage', 'Carriage', 'both ways', 'There and back, packing included.'),
      amount(
        'inspection',
        'Fee if it cannot be fixed',
        'a look',
        'What a service asks when it cannot mend it.',
      ),
      {
        name: 'serviceMends',
        sort: 'percent',
        words: 'What comes back fixed',
        unit: 'in 100',
        hint: 'Of 100 tools that a service takes on.',
        least: 5,
        most: 100,
      },
      {
        name: 'comesBack',
        sort: 'percent',
        words: 'Goes back once more',
        unit: 'in 100',
        hint: 'Of 100 that came back fixed: the same fault soon again.',
        least: 0,
        most: 100,
      },
    ],
  },
  {
    title: 'Here',
    fields: [
      amount(
        'loanDay',
        'A tool on loan',
        'a day',
        'Hired or lent while yours is away. Empty: none to be had.',
      ),
      amount(
        'teaches',
        'What is learned by it',
        'a fix',
        'What it is worth that somebody learns by fixing it.',
      ),
    ],
  },
  { title: 'Parts', fields: [days('partDays', 'Days until a part is here', '0 from the shelf.')] },
  {
    title: 'Replacing',
    fields: [
      days('newDays', 'Days until a new one is here', '0 if one lies ready.'),
      {
        name: 'newLife',
        sort: 'years',
        words: 'Years that a new one serves',
        unit: 'years',
        hint: 'Until it is no longer worth keeping.',
        least: 0.25,
        most: 60,
      },
      amount('resale', 'The old one brings', 'each', 'What you get for it.'),
      amount('disposal', 'To be rid of the old one', 'each', 'What the waste point asks.'),
      amount('newUpkeep', 'Upkeep of a new one', 'a year', 'Blades, oil and parts in a usual year.'),
      amount('upkeep', 'Upkeep of one in use', 'a year', 'The same for a tool that has run for years.'),
      {
        name: 'interest',
        sort: 'percent',
        words: 'Interest',
        unit: '% a year',
        hint: 'What money costs the shop, or what it would bring elsewhere.',
        least: 0,
        most: 100,
      },
    ],
  },
]
