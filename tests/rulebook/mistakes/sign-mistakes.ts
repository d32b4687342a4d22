/** Mistakes in the signs by which a kind is found, and in what the drawing of a kind's parts shows. */
import type { Files, Mistake } from '../tiny-rulebook.js'

const sign = (kinds: Record<string, number>, more: object = {}) => ({
  text: 'Is there a cord?',
  statement: 'It has a cord',
  kinds,
  seconds: 3,
  order: 1,
  source: 'guess',
  ...more,
})

/** A second kind, and signs that find either. */
function addSigns(files: Files): void {
  files.kinds.tiny.usual = 600
  files.kinds.other = { ...files.kinds.tiny, usual: 300, order: 2 }
  files.signs['has-cord'] = sign({ tiny: 0.9, other: 0.1 })
}

export const signs: Mistake[] = [
  [
    'named-there',
    (it) => {
      addSigns(it)
      it.signs['has-cord'].kinds = { tiny: 0.9, other: 0.1, othr: 0.1 }
      it.signs['has-plug'] = sign({ tiny: 0.9, other: 0.1 }, { after: { sign: 'has-chord', answer: 'yes' } })
    },
    [
      'rules/signs/has-cord.json: kinds.othr: there is no rules/kinds/othr.json; add that file or correct the name',
      'rules/signs/has-plug.json: after.sign: there is no rules/signs/has-chord.json; add that file or correct the name',
    ],
  ],
  [
    'sign-for-every-kind',
    (it) => {
      addSigns(it)
      it.signs['has-cord'].kinds = { tiny: 0.9, othr: 0.1 }
    },
    [
      'rules/signs/has-cord.json: kinds: there is no chance for "other"; of 1000 people who hold one, how many would say yes? write that, as a share',
    ],
  ],
  [
    'sign-after',
    (it) => {
      addSigns(it)
      const chances = { tiny: 0.9, other: 0.1 }
      it.signs['has-plug'] = sign(chances, { after: { sign: 'has-cord', answer: 'yes' } })
      it.signs['has-pins'] = sign(chances, { after: { sign: 'has-plug', answer: 'yes' } })
    },
    [
      'rules/signs/has-pins.json: after.sign: rules/signs/has-plug.json is itself asked only after another; name a sign that is asked of everybody',
    ],
  ],
  [
    'running-sign-warns',
    (it) => {
      addSigns(it)
      it.signs['has-cord'].needsPower = true
    },
    [
      'rules/signs/has-cord.json: caution: the tool runs for it, and no caution says what to mind; say where the hands are, for how long, and which tool must stay off',
    ],
  ],
  [
    'kinds-told-apart',
    (it) => {
      addSigns(it)
      it.signs['has-cord'].kinds.other = 0.5
      it.signs.hums = sign({ tiny: 0.9, other: 0.1 }, { needsPower: true, caution: 'Hold it well.' })
    },
    [
      'rules/kinds/other.json: no sign that shows at rest tells it from "tiny"; add a file to rules/signs/ whose chances for the two lie at least 0.5 apart',
    ],
  ],
  [
    'usual-counts',
    (it) => {
      addSigns(it)
      delete it.kinds.other.usual
    },
    [
      'rules/kinds/other.json: usual: it does not say how usual the kind is; of 1000 troubled tools of a shop, how many are of this kind? write that number',
    ],
  ],
  [
    'usual-counts',
    (it) => {
      addSigns(it)
      it.kinds.other.usual = 400
    },
    [
      'rules/kinds/: usual: tiny and other sum to 1000 of 1000; lower one of them: some tools are of no kind at all',
    ],
  ],
]
