/** Mistakes in the papers that go with a tool. */
import type { Files, Mistake } from '../tiny-rulebook.js'

function line(files: Files, more: object): void {
  files.papers['wet-pack'] = {
    kinds: ['tiny'],
    on: 'packing',
    do: 'No post for a wet pack.',
    order: 2,
    source: 'guess',
    ...more,
  }
}
const all = (fact: string, ...values: string[]) => ({
  all: values.map((value) => ({ fact, operator: 'equal', value })),
})

export const papers: Mistake[] = [
  [
    'papers-for-each-kind',
    (it) => Object.assign(it.papers['plug-off']!, { when: all('pulls', 'yes') }),
    [
      'rules/kinds/tiny.json: no line of "retiring" in rules/papers/ holds for it always; add a line without when and unless, or add the kind to one',
    ],
  ],
  [
    'over-findings',
    (it) => line(it, { unless: all('soaked', 'yes') }),
    [
      'rules/papers/wet-pack.json: unless: "soaked" is no finding: there is no rules/findings/soaked.json; add that file or correct the name',
    ],
  ],
  [
    'finding-values',
    (it) => line(it, { when: all('pulls', 'maybe') }),
    [
      'rules/papers/wet-pack.json: when: a finding is never equal "maybe" (pulls); it is one of yes, no, cant-tell, unknown',
    ],
  ],
  [
    'can-ever-hold',
    (it) => line(it, { unless: all('pulls', 'yes', 'no') }),
    [
      'rules/papers/wet-pack.json: unless: it can never hold: its parts contradict each other; use "any" where one of them is enough',
    ],
  ],
]
