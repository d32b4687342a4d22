/** Mistakes in the rules that come before the sum. */
import type { Files, Mistake } from '../tiny-rulebook.js'

function verdict(files: Files, fact: string, value: string | number, more: object = {}): void {
  files.verdicts['too-old'] = {
    kinds: ['tiny'],
    name: 'Too old',
    because: 'It is too old.',
    when: { all: [{ fact, operator: typeof value === 'number' ? 'greaterThan' : 'equal', value }] },
    bars: ['send-in'],
    liftedBy: 'The owner.',
    order: 1,
    source: 'guess',
    ...more,
  }
}

export const verdicts: Mistake[] = [
  [
    'verdict-facts',
    (it) => verdict(it, 'colour', 'yes'),
    [
      'rules/verdicts/too-old.json: when: "colour" is neither a finding of its kinds nor a fact of a verdict; use a finding, in-warranty, opening-voids, covered, wear-part, own-doing, opened, set-aside, disinfected, can-safety-test, parts-to-be-had, needs-opening, age-of-life, motor-faults-this-year, barred-by-<policy> or suspected-<part>',
    ],
  ],
  [
    'verdict-facts',
    (it) => verdict(it, 'pulls', 'maybe'),
    [
      'rules/verdicts/too-old.json: when: "pulls" is never equal "maybe"; it is one of yes, no, cant-tell, unknown',
    ],
  ],
  [
    'verdict-facts',
    (it) => verdict(it, 'suspected-blade', 100),
    [
      'rules/verdicts/too-old.json: when: "suspected-blade" is never greaterThan 100; it is a number from 0 to 100',
    ],
  ],
  [
    'verdict-facts',
    (it) =>
      verdict(it, 'opened', 'yes', {
        when: {
          all: [
            { fact: 'opened', operator: 'equal', value: 'yes' },
            { fact: 'opened', operator: 'equal', value: 'no' },
          ],
        },
      }),
    [
      'rules/verdicts/too-old.json: when: it can never hold: its parts contradict each other; use "any" where one of them is enough',
    ],
  ],
  [
    'verdict-decides',
    (it) => verdict(it, 'age-of-life', 100, { bars: [] }),
    [
      'rules/verdicts/too-old.json: bars: it bars no way out and speaks for none; name the ways that it bars, or the one it speaks for',
    ],
  ],
  [
    'verdict-decides',
    (it) => verdict(it, 'age-of-life', 100, { bars: ['mend-here', 'send-in', 'replace'] }),
    ['rules/verdicts/too-old.json: bars: it bars every way out; leave one open: there is always replacing'],
  ],
  [
    'verdict-decides',
    (it) => verdict(it, 'age-of-life', 100, { speaksFor: 'send-in' }),
    ['rules/verdicts/too-old.json: speaksFor: it bars "send-in" and speaks for it; remove one of the two'],
  ],
]
