/** Mistakes in what the short lessons go by: confusions and hearsay. */
import type { Mistake } from '../tiny-rulebook.js'

const addIt = 'add that file or correct the name'

export const lessons: Mistake[] = [
  [
    'named-there',
    ({ confusions }) =>
      Object.assign(confusions['cuts-badly'], {
        shownBy: ['blade-thick'],
        onlyWith: 'dul-blade',
        rivals: ['dull-blade', 'broken-plug'],
        splitters: [
          { finding: 'pulls', pointsTo: ['dull-blade'] },
          { finding: 'pushes', pointsTo: ['dull-blade'] },
        ],
        checks: ['pulls', 'cord-hot'],
      }),
    [
      `rules/confusions/cuts-badly.json: shownBy[0]: there is no rules/findings/blade-thick.json; ${addIt}`,
      `rules/confusions/cuts-badly.json: onlyWith: there is no rules/causes/dul-blade.json; ${addIt}`,
      `rules/confusions/cuts-badly.json: rivals[1]: there is no rules/causes/broken-plug.json; ${addIt}`,
      `rules/confusions/cuts-badly.json: splitters[1].finding: there is no rules/findings/pushes.json; ${addIt}`,
      `rules/confusions/cuts-badly.json: checks[1]: there is no rules/findings/cord-hot.json; ${addIt}`,
    ],
  ],
  [
    'rivals-meet',
    ({ causes }) => (causes['broken-cord'].shares = { other: 300 }),
    [
      'rules/confusions/cuts-badly.json: rivals: no kind can have two of its rivals; name causes that stand side by side in some kind',
    ],
  ],
  [
    'rivals-meet',
    ({ confusions, causes }) => {
      confusions['cuts-badly'].rivals = ['dull-blade', 'broken-cord', 'nothing-wrong']
      causes['nothing-wrong'].shares = { other: 100 }
    },
    [
      'rules/confusions/cuts-badly.json: rivals[2]: "nothing-wrong" meets no other of the rivals in any kind; remove it, or add the cause to a kind that has another',
    ],
  ],
  [
    'splitter-splits',
    ({ confusions }) =>
      (confusions['cuts-badly'].splitters = [
        { finding: 'pulls', pointsTo: ['nothing-wrong'] },
        { finding: 'pulls', pointsTo: ['dull-blade', 'broken-cord'] },
        { finding: 'pulls', pointsTo: ['broken-cord'] },
        { finding: 'pulls', pointsTo: ['dull-blade'] },
      ]),
    [
      'rules/confusions/cuts-badly.json: splitters[0].pointsTo: "nothing-wrong" is none of its rivals; name it among the rivals, or leave it out here',
      'rules/confusions/cuts-badly.json: splitters[1].pointsTo: it points to every rival, so it tells none of them from another; leave out those that a no speaks for',
      'rules/confusions/cuts-badly.json: splitters[2].pointsTo: rules/findings/pulls.json speaks for none of these; give it a strength there, or name another finding',
    ],
  ],
  [
    'confusion-asked',
    ({ confusions, findings }) => {
      for (const id of ['blade-thin', 'runs-well']) findings[id].kinds = ['other']
      Object.assign(confusions['cuts-badly'], {
        splitters: [
          { finding: 'blade-thin', pointsTo: ['dull-blade'] },
          { finding: 'runs-well', pointsTo: ['broken-cord'] },
        ],
        checks: ['pulls', 'runs-well'],
      })
    },
    [
      'rules/confusions/cuts-badly.json: splitters: for "tiny" none of them has rivals on both sides; add one that tells its rivals apart there',
      'rules/confusions/cuts-badly.json: checks: "tiny" is asked fewer than two of them; add what is looked for there',
    ],
  ],
  [
    'opens-last',
    ({ steps }) => (steps['how-it-cuts'].setups = ['body-open']),
    [
      'rules/confusions/cuts-badly.json: checks: "runs-well" needs no opening and stands after "pulls", which does; put what is safe and cheap first',
    ],
  ],
  [
    'named-there',
    ({ hearsay }) =>
      Object.assign(hearsay['oil-the-cord'], { causes: ['torn-cord'], confusion: 'cuts', slip: 'opened' }),
    [
      `rules/hearsay/oil-the-cord.json: causes[0]: there is no rules/causes/torn-cord.json; ${addIt}`,
      `rules/hearsay/oil-the-cord.json: confusion: there is no rules/confusions/cuts.json; ${addIt}`,
      `rules/hearsay/oil-the-cord.json: slip: there is no rules/slips/opened.json; ${addIt}`,
    ],
  ],
  [
    'hearsay-fits',
    ({ hearsay, causes }) => {
      hearsay['oil-the-cord'].part = 'lead'
      causes['broken-cord'].shares = { other: 300 }
    },
    [
      'rules/hearsay/oil-the-cord.json: part: rules/kinds/tiny.json has no part "lead"; use one of blade, cord, body',
      'rules/hearsay/oil-the-cord.json: causes: "tiny" can have none of these; name one that it can have',
    ],
  ],
]
