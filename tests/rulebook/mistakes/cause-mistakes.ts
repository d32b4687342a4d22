/** Mistakes in causes, shares, set-ups, dangers and texts. */
import type { Mistake } from '../tiny-rulebook.js'

const yes = (fact: string) => ({ fact, operator: 'equal', value: 'yes' })

export const causesAndShares: Mistake[] = [
  [
    'cause-has-share',
    (it) => (it.causes['dull-blade'].shares = {}),
    [
      'rules/causes/dull-blade.json: shares: it belongs to no kind; say in how many of 1000 troubled tools of a kind it is the main cause',
    ],
  ],
  [
    'cause-pointed-to',
    (it) => (it.findings['cord-damaged'].strengths = { 'dull-blade': 0.9 }),
    [
      'rules/causes/broken-cord.json: no finding for tiny points to it; give it a strength in the findings that it shows itself by',
    ],
  ],
  [
    'cause-confirmed',
    (it) => (it.findings['cord-damaged'].strengths['broken-cord'] = 0.84),
    [
      'rules/causes/broken-cord.json: nothing confirms it for tiny: its strongest finding has 0.84; add a look or test that shows it with a strength of 0.85 or more',
    ],
  ],
  [
    'cause-dealt-with',
    (it) => delete it.fixes['new-cord'],
    [
      'rules/causes/broken-cord.json: sendIn: no fix for tiny cures it, and nothing says when it goes to a service; add a fix that cures it, or sendIn',
    ],
  ],
  [
    'exclusive-ends',
    (it) => {
      delete it.fixes['leave-it'].ends
      it.fixes['new-cord'].ends = 'nothing-found'
    },
    [
      'rules/causes/nothing-wrong.json: exclusive: no fix for tiny cures it and ends the work; set "ends": "nothing-found" in the fix that cures it',
      'rules/fixes/new-cord.json: ends: it ends with nothing found, yet cures rules/causes/broken-cord.json, which is something; remove ends, or that cause',
    ],
  ],
  [
    'one-exclusive',
    (it) => (it.causes['broken-cord'].exclusive = true),
    [
      'rules/causes/nothing-wrong.json: exclusive: tiny has another cause that excludes all others; keep one of them',
    ],
  ],
  [
    'shares-sum',
    (it) => (it.causes['dull-blade'].shares.tiny = 599.4),
    [
      'rules/kinds/tiny.json: the shares of its causes sum to 999.4, not 1000; give 0.6 to shares.tiny of causes in rules/causes/; the greatest are dull-blade (599.4), broken-cord (300) and nothing-wrong (100)',
    ],
  ],
  [
    // two causes, one as good as sure, the other half as likely: several in 0.999/2 of the troubled tools at most
    'priors-possible',
    (it) => (it.kinds.tiny.severalFaults.share = 0.6),
    [
      'rules/kinds/tiny.json: severalFaults.share: 0.6 cannot be reached: with these shares at most 0.499 of the tools have several faults; lower it, or spread the shares over more causes',
    ],
  ],
]

export const setupsAndDanger: Mistake[] = [
  [
    'setup-cycles',
    (it) => (it.setups['plug-out'].needs = ['body-open']),
    [
      'rules/setups/plug-out.json: needs: it needs itself (through body-open), so it can never stand; break the circle',
      'rules/setups/body-open.json: needs: it needs itself (through plug-out), so it can never stand; break the circle',
    ],
  ],
  [
    'test-after-opening',
    (it) => (it.fixes['new-cord'].safetyTest = false),
    [
      'rules/fixes/new-cord.json: safetyTest: it opens the body, yet no electrical safety test follows; set it to true',
    ],
  ],
  [
    'running-needs-power',
    (it) => (it.steps['try-it'].power = false),
    [
      'rules/steps/try-it.json: power: it settles "runs-well", which shows only on a running tool, with the tool switched off; set power to true, or running to false in rules/findings/runs-well.json',
    ],
  ],
  [
    'one-danger-step',
    (it) => (it.steps['danger-signs'].form = 'ask'),
    ['rules/kinds/tiny.json: no step asks for its danger signs; add a step of the form "danger" for it'],
  ],
  [
    'one-danger-step',
    (it) => {
      it.steps['try-it'].form = 'danger'
      it.steps['danger-signs'].order = 1
    },
    [
      'rules/steps/try-it.json: form: tiny has another danger step, rules/steps/danger-signs.json; put the danger signs on one screen',
      'rules/steps/danger-signs.json: order: how-it-cuts would come before the danger signs; give it an order below 1',
    ],
  ],
  [
    'stop-reachable',
    (it) => {
      it.stops['cord-damaged'].when = { all: [yes('cord-damaged'), yes('pulls')] }
      it.steps['how-it-cuts'].questions[0].id = 'tugs'
    },
    [
      'rules/stops/cord-damaged.json: when: no question for tiny can lead to this stop; ask for its findings in a step',
    ],
  ],
  [
    'stop-needs-answer',
    (it) => (it.stops['cord-damaged'].when.all[0].value = 'unknown'),
    [
      'rules/stops/cord-damaged.json: when: it holds before anybody has answered anything; compare a finding with "yes", "no" or "cant-tell"',
    ],
  ],
  [
    'danger-lines',
    (it) => {
      const [line] = it.steps['danger-signs'].questions
      line.statement = 'The cord is cut, or soft, or taped over, or bare'
      it.steps['danger-signs'].questions.push({ ...line, id: 'pulls', statement: 'It pulls' })
    },
    [
      'rules/steps/danger-signs.json: questions[0]: 11 words are too many for a danger line; say it in 9, and the rest in "help"',
      'rules/steps/danger-signs.json: questions[1]: "pulls" leads to no stop; ask it in another step, or add the stop',
    ],
  ],
  [
    'gathered-lines',
    (it) => {
      const { 'danger-signs': danger, 'how-it-cuts': cuts } = it.steps
      const [{ id: sign }, other] = [danger.questions[0], cuts.questions[0]]
      danger.gathered = [
        { line: 'Cord, plug, box, body or anything else split or taped', questions: [sign, sign, other.id] },
      ]
      cuts.gathered = [{ line: 'It pulls', questions: [other.id, other.id] }]
    },
    [
      'rules/steps/danger-signs.json: gathered[0].line: 10 words are too many for a danger line; say it in 9',
      'rules/steps/danger-signs.json: gathered[0].questions[1]: "cord-damaged" is gathered twice; name each danger sign of this step once',
      'rules/steps/danger-signs.json: gathered[0].questions[2]: "pulls" is no question of this step; name each danger sign of this step once',
      'rules/steps/how-it-cuts.json: gathered: only danger signs are gathered; leave it out here',
    ],
  ],
  [
    'danger-lines',
    (it) => {
      const { 'danger-signs': danger, 'how-it-cuts': cuts } = it.steps
      danger.questions.unshift(cuts.questions[0])
      it.stops.pulls = {
        ...it.stops['cord-damaged'],
        grade: 'off-the-client',
        when: { all: [{ ...it.stops['cord-damaged'].when.all[0], fact: 'pulls' }] },
        order: 0,
      }
    },
    [
      'rules/steps/danger-signs.json: questions[1]: its stop is more urgent than that of the line before; put the lines into the order of their stops',
    ],
  ],
  [
    'stop-begins-short',
    (it) => {
      it.stops['cord-damaged'].now[0] = 'Pull the plug, but first dry your hands and the floor, then think.'
      it.stops['cord-damaged'].forKind = {
        tiny: {
          now: ['Pull the tiny plug out of the wall by its tiny little body with two dry hands.', 'Go.'],
        },
      }
    },
    [
      'rules/stops/cord-damaged.json: now[0]: 13 words are too many to begin with; say in 12 what to do with the thing in the hand',
      'rules/stops/cord-damaged.json: forKind.tiny.now[0]: 17 words are too many to begin with; say in 12 what to do with the thing in the hand',
    ],
  ],
  [
    'running-fix',
    (it) => (it.fixes['new-blade'].setups = []),
    [
      'rules/fixes/new-blade.json: power: nothing takes its power away, yet it is not said to run; set it to true, or add the set-up',
    ],
  ],
  [
    'finished-texts',
    (it) => (it.fixes['new-cord'].steps[0].do = 'TODO say how.'),
    ['rules/fixes/new-cord.json: steps[0].do: it still says "TODO say how."; write the text'],
  ],
]
