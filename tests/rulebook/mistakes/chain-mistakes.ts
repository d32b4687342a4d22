/** Mistakes in the chains of practice. */
import type { Mistake } from '../tiny-rulebook.js'

const file = 'rules/chains/cord-to-blade.json'

export const chains: Mistake[] = [
  [
    'named-there',
    ({ chains }) => (chains['cord-to-blade'].then = 'dul-blade'),
    [`${file}: then: there is no rules/causes/dul-blade.json; add that file or correct the name`],
  ],
  [
    'chain-fits',
    ({ chains }) => (chains['cord-to-blade'].then = 'broken-cord'),
    [`${file}: then: "broken-cord" leads to itself; name what it leads to`],
  ],
  [
    'chain-fits',
    ({ chains }) => (chains['cord-to-blade'].first = 'nothing-wrong'),
    [`${file}: first: "nothing-wrong" shuts out every other cause; name one that another can stand beside`],
  ],
  [
    'chain-once',
    ({ chains }) =>
      (chains['blade-to-cord'] = { ...chains['cord-to-blade'], first: 'dull-blade', then: 'broken-cord' }),
    [`rules/chains/blade-to-cord.json: kinds[0]: tiny has these two in ${file} already; keep one of the two`],
  ],
]
