/** Mistakes in how people talk. */
import type { Mistake } from '../tiny-rulebook.js'

export const speech: Mistake[] = [
  [
    'named-there',
    (it) => (it.speech.blunt.opposite = 'keen'),
    [
      'rules/speech/blunt.json: opposite: there is no rules/speech/keen.json; add that file or correct the name',
    ],
  ],
  [
    'said-once',
    (it) => (it.speech.blunt.words = ['dull', 'Dull']),
    ['rules/speech/blunt.json: words[1]: "dull" is there twice; remove one'],
  ],
  [
    'said-once',
    (it) => (it.speech.blunt.words = ['dull', 'not']),
    [
      'rules/speech/blunt.json: words[1]: "not" stands in rules/speech/no.json too, where it steers how a sentence is read; keep it in one of them',
    ],
  ],
]
