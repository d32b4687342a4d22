/** Mistakes in the ids that files mention, and in ids themselves. */
import type { Files, Mistake } from '../tiny-rulebook.js'

export const references: Mistake[] = [
  [
    'named-there',
    (it) => it.care['oil-blade'].kinds.push('tinny'),
    [
      'rules/care/oil-blade.json: kinds[1]: there is no rules/kinds/tinny.json; add that file or correct the name',
    ],
  ],
  [
    'named-there',
    (it) => (it.causes['dull-blade'].shares.tinny = 5),
    [
      'rules/causes/dull-blade.json: shares.tinny: there is no rules/kinds/tinny.json; add that file or correct the name',
    ],
  ],
  [
    'named-there',
    (it) => (it.findings.pulls.strengths['dull-blade'] = { tiny: 0.9, tinny: 0.9 }),
    [
      'rules/findings/pulls.json: strengths.dull-blade.tinny: there is no rules/kinds/tinny.json; add that file or correct the name',
    ],
  ],
  [
    'named-there',
    (it) => {
      it.findings.pulls.strengths['dull-blades'] = 0.5
      it.fixes['new-blade'].cures['blunt'] = 0.5
      it.care['oil-blade'].prevents.push('rust')
    },
    [
      'rules/findings/pulls.json: strengths.dull-blades: there is no rules/causes/dull-blades.json; add that file or correct the name',
      'rules/fixes/new-blade.json: cures.blunt: there is no rules/causes/blunt.json; add that file or correct the name',
      'rules/care/oil-blade.json: prevents[1]: there is no rules/causes/rust.json; add that file or correct the name',
    ],
  ],
  [
    'named-there',
    (it) => {
      it.steps['measure-blade'].setups = ['plug-off']
      it.setups['body-open'].needs = ['plug-of']
    },
    [
      'rules/steps/measure-blade.json: setups[0]: there is no rules/setups/plug-off.json; add that file or correct the name',
      'rules/setups/body-open.json: needs[0]: there is no rules/setups/plug-of.json; add that file or correct the name',
    ],
  ],
  [
    'named-there',
    (it) => (it.fixes['new-blade'].afterwards = ['oil-it']),
    [
      'rules/fixes/new-blade.json: afterwards[0]: there is no rules/care/oil-it.json; add that file or correct the name',
    ],
  ],
  [
    'named-there',
    (it) => (it.relevance['cord-first'].hides = { questions: ['pull'], fixes: ['new-bladed'] }),
    [
      'rules/relevance/cord-first.json: hides.fixes[0]: there is no rules/fixes/new-bladed.json; add that file or correct the name',
      'rules/relevance/cord-first.json: hides.questions[0]: no step or fix asks a question "pull"; correct the name or add the question to a step',
    ],
  ],
  [
    'known-first',
    (it) => {
      it.steps['measure-blade'].first = ['thickness']
      it.fixes['new-blade'].first = ['pulls', 'pull']
    },
    [
      'rules/steps/measure-blade.json: first[0]: no other step asks a question "thickness"; correct the name or add the question to a step',
    ],
  ],
  [
    'known-parts',
    (it) => (it.causes['dull-blade'].part = 'hinge'),
    [
      'rules/causes/dull-blade.json: part: rules/kinds/tiny.json has no part "hinge"; use one of blade, cord, body, or add the part there',
    ],
  ],
  [
    'named-there',
    (it) => (it.steps['try-it'].drawing = 'hand'),
    [
      'rules/steps/try-it.json: drawing: there is no views/partials/drawings/hand.ejs; draw it or correct the name',
    ],
  ],
  [
    'parts-drawn',
    (it) => {
      it.kinds.tiny.parts.push({ id: 'steam-valve', name: 'Steam valve' })
      it.kinds.other = { ...it.kinds.tiny, drawing: 'other' }
    },
    [
      'rules/kinds/tiny.json: parts[3].id: views/partials/drawings/parts/tiny.json has no place for "steam-valve"; draw it in views/partials/drawings/parts/tiny.ejs and say there where its label goes',
      'rules/kinds/other.json: drawing: there is no views/partials/drawings/parts/other.json with its parts; draw them in views/partials/drawings/parts/other.ejs and say where labels go',
    ],
  ],
  [
    'named-there',
    (it) => {
      it.fixes['new-cord'].source = 'hearsay'
      it.findings['blade-thin'].threshold.source = 'gossip'
    },
    [
      'rules/findings/blade-thin.json: threshold.source: rules/sources.json has no "gossip"; add it there or use one of guess',
      'rules/fixes/new-cord.json: source: rules/sources.json has no "hearsay"; add it there or use one of guess',
    ],
  ],
  [
    'used-sources',
    (it) => (it.sources.rumour = { standing: 'memory', title: 'a rumour' }),
    ['rules/sources.json: rumour: no file names this source; name it where it belongs or remove it'],
  ],
]

export const ids: Mistake[] = [
  [
    'question-asked-once',
    (it) => (it.fixes['new-blade'].outcome = { id: 'pulls', text: 'Does it pull?', statement: 'It pulls' }),
    [
      'rules/fixes/new-blade.json: outcome.id: the question "pulls" is asked by rules/steps/how-it-cuts.json already; ask it in one place, or give it another id',
    ],
  ],
  [
    'step-or-fix',
    (it) => (it.fixes['try-it'] = it.fixes['new-blade']),
    ['rules/fixes/try-it.json: rules/steps/try-it.json has the same id; rename one of the two files'],
  ],
  [
    'part-once',
    (it) => it.kinds.tiny.parts.push({ id: 'cord', name: 'Cord again' }),
    ['rules/kinds/tiny.json: parts[3].id: the part "cord" is listed twice; remove one or rename it'],
  ],
  [
    'moved-ids',
    (it) =>
      (it.moved = { causes: { 'blunt-blade': 'dulled-blade', 'dull-blade': 'broken-cord' }, cause: {} }),
    [
      'rules/moved.json: causes.blunt-blade: it leads to "dulled-blade", which is not there; name the id that took its place',
      'rules/moved.json: causes.dull-blade: "dull-blade" is still there; remove this line or the old one',
      'rules/moved.json: cause: there is no such folder; use one of kinds, setups, causes, findings, steps, fixes, stops, relevance, policy, care, signs, verdicts, papers, limits, levels, slips, chains, confusions, hearsay, speech, telling, questions',
    ],
  ],
]

/** A second kind, in which nothing of the tiny one exists. */
function addOtherKind(files: Files): void {
  files.kinds.other = { ...files.kinds.tiny, order: 2 }
}

export const kinds: Mistake[] = [
  [
    'points-within-kind',
    (it) => {
      addOtherKind(it)
      it.findings.pulls.strengths['dull-blade'] = { tiny: 0.9, other: 0.9 }
      it.causes['broken-cord'].shares = { other: 1000 }
    },
    [
      'rules/findings/pulls.json: strengths.dull-blade.other: "other" is not one of this finding\'s kinds (tiny); add it to kinds or remove this strength',
      'rules/findings/cord-damaged.json: strengths.broken-cord: rules/causes/broken-cord.json has no share for tiny; give it one there or remove it here',
    ],
  ],
  [
    'cures-within-kind',
    (it) => (it.causes['broken-cord'].shares = { other: 1000 }),
    [
      'rules/fixes/new-cord.json: cures.broken-cord: rules/causes/broken-cord.json has no share for tiny; give it one there or remove it here',
    ],
  ],
  [
    'prevents-within-kind',
    (it) => (it.causes['dull-blade'].shares = { other: 1000 }),
    [
      'rules/care/oil-blade.json: prevents[0]: rules/causes/dull-blade.json has no share for tiny; give it one there or remove it here',
    ],
  ],
  [
    'resets-what-it-prevents',
    (it) => {
      it.care['oil-blade'].resets = { 'broken-cord': 2, 'dull-blade': 2 }
      delete it.care['oil-blade'].everyDays
    },
    [
      'rules/care/oil-blade.json: resets.broken-cord: it does not prevent "broken-cord"; add it to prevents',
      'rules/care/oil-blade.json: resets.dull-blade: the task has no everyDays to compare with; add them',
    ],
  ],
  [
    'one-clock-a-wear',
    (it) => {
      it.care['oil-blade'].resets = { 'dull-blade': 2 }
      it.care['sharpen-blade'] = { ...it.care['oil-blade'], order: 2 }
    },
    [
      'rules/care/sharpen-blade.json: resets.dull-blade: in tiny, rules/care/oil-blade.json resets "dull-blade" already; keep it in one of them',
    ],
  ],
  [
    'needs-within-kind',
    (it) => it.steps['measure-blade'].kinds.push('other'),
    [
      'rules/steps/measure-blade.json: setups: rules/setups/plug-out.json is not for other; add the kind there, use another set-up, or say under forKind what it needs instead',
    ],
  ],
  [
    'needs-within-kind',
    (it) => {
      it.steps['measure-blade'].kinds.push('other')
      it.steps['measure-blade'].forKind = { other: { setups: [] } }
      it.steps['measure-blade'].setups.push('body-open')
      it.setups['body-open'].kinds = ['other']
    },
    [
      'rules/fixes/new-cord.json: setups: rules/setups/body-open.json is not for tiny; add the kind there, use another set-up, or say under forKind what it needs instead',
      'rules/setups/body-open.json: needs: rules/setups/plug-out.json is not for other; add the kind there, use another set-up, or say under forKind what it needs instead',
      'rules/steps/measure-blade.json: setups: rules/setups/body-open.json is not for tiny; add the kind there, use another set-up, or say under forKind what it needs instead',
    ],
  ],
  [
    'differs-for-its-kinds',
    (it) => {
      it.fixes['new-blade'].forKind = { tiny: {}, other: { minutes: 3 } }
      it.causes['dull-blade'].forKind = { other: { name: 'Duller blade' } }
    },
    [
      'rules/causes/dull-blade.json: forKind.other: this file is for tiny, not for "other"; remove it or add the kind to the file',
      'rules/fixes/new-blade.json: forKind.tiny: it changes nothing; remove it or say what differs',
      'rules/fixes/new-blade.json: forKind.other: this file is for tiny, not for "other"; remove it or add the kind to the file',
    ],
  ],
  [
    'named-there',
    (it) => {
      it.steps['measure-blade'].forKind = { tiny: { setups: ['plug-out', 'lid-off'], drawing: 'nowhere' } }
      it.fixes['new-blade'].forKind = { tiny: { afterwards: ['polish'] } }
    },
    [
      'rules/fixes/new-blade.json: forKind.tiny.afterwards[0]: there is no rules/care/polish.json; add that file or correct the name',
      'rules/steps/measure-blade.json: forKind.tiny.setups[1]: there is no rules/setups/lid-off.json; add that file or correct the name',
      'rules/steps/measure-blade.json: forKind.tiny.drawing: there is no views/partials/drawings/nowhere.ejs; draw it or correct the name',
    ],
  ],
]
