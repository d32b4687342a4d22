/** Mistakes in how questions are told. */
import type { Mistake } from '../tiny-rulebook.js'

export const telling: Mistake[] = [
  [
    'every-way-of-telling',
    (it) => {
      it.telling.hunch = it.telling.look
      delete it.telling.look
    },
    [
      'rules/telling/hunch.json: no question is told in this way; rename or remove it; the ways are memory, look, feel, ear, phone, run, meter, spare and open-body',
      'rules/telling/look.json: there is no such file, so nobody knows how often such a question can be answered; add it; the ways are memory, look, feel, ear, phone, run, meter, spare and open-body',
    ],
  ],
]
