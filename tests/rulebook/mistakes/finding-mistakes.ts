/** Mistakes in conditions, questions and findings. */
import type { Mistake } from '../tiny-rulebook.js'

const yes = (fact: string) => ({ fact, operator: 'equal', value: 'yes' })

export const conditions: Mistake[] = [
  [
    'over-findings',
    (it) => {
      it.stops['cord-damaged'].when = { any: [yes('cord-cut')] }
      it.relevance['cord-first'].kinds = ['other']
    },
    [
      'rules/stops/cord-damaged.json: when: "cord-cut" is no finding: there is no rules/findings/cord-cut.json; add that file or correct the name',
      'rules/relevance/cord-first.json: when: the finding "cord-damaged" is for tiny, this rule for other; use a finding of the same kind',
    ],
  ],
  [
    'finding-values',
    (it) => (it.stops['cord-damaged'].when.all[0].value = 'maybe'),
    [
      'rules/stops/cord-damaged.json: when: a finding is never equal "maybe" (cord-damaged); it is one of yes, no, cant-tell, unknown',
    ],
  ],
  [
    'policy-facts',
    (it) => {
      it.policy.skill.when.all.push({ fact: 'weekday', operator: 'equal', value: 'monday' })
      it.policy.skill.when.all.push({ fact: 'in-warranty', operator: 'equal', value: true })
    },
    [
      'rules/policy/skill.json: when: "weekday" is no fact of a policy; use one of skill-short-by, needs-safety-test, can-safety-test, opens-body, in-warranty, needs-parts, parts-to-be-had, times-tried, for',
      'rules/policy/skill.json: when: "in-warranty" is never equal true (in-warranty); it is one of yes, no',
    ],
  ],
  [
    'can-ever-hold',
    (it) => it.relevance['cord-first'].when.all.push({ ...yes('cord-damaged'), value: 'no' }),
    [
      'rules/relevance/cord-first.json: when: it can never hold: its parts contradict each other; use "any" where one of them is enough',
    ],
  ],
  [
    'hides-something',
    (it) => (it.relevance['cord-first'].hides = {}),
    [
      'rules/relevance/cord-first.json: hides: it hides nothing; set running, power or safetyTest, name questions or fixes, or remove the file',
    ],
  ],
]

export const questionsAndFindings: Mistake[] = [
  [
    'heard-fits',
    (it) => {
      it.steps['measure-blade'].questions[0].heard = { what: 'beat' }
      it.steps['try-it'].questions[0].heard = { what: 'drop-outs' }
      it.kinds.tiny.sound = { drive: 'motor', like: 'direct', least: 1000, most: 9000, source: 'guess' }
    },
    [
      'rules/steps/measure-blade.json: questions[0].heard: "beat" does not answer a question of the kind "number"; rate, droop and falls answer numbers, all others a yes-no',
      'rules/steps/try-it.json: questions[0].heard: "drop-outs" lacks the limit; give "atLeast" to sinks, drop-outs, grows and fades, and to nothing else',
    ],
  ],
  [
    'heard-fits',
    (it) => (it.steps['measure-blade'].questions[0].heard = { what: 'rate' }),
    [
      'rules/steps/measure-blade.json: questions[0].heard: the kind "tiny" does not say how it sounds; add "sound" to rules/kinds/tiny.json',
    ],
  ],
  [
    'number-has-range',
    (it) => {
      delete it.steps['measure-blade'].questions[0].max
      it.steps['try-it'].questions[0].unit = 'mm'
    },
    [
      'rules/steps/try-it.json: questions[0]: "runs-well" is answered yes or no, yet has a unit, min or max; remove them or set "kind": "number"',
      'rules/steps/measure-blade.json: questions[0]: the number "thickness" lacks its unit, min or max; give all three, so that a slip of the finger is caught',
    ],
  ],
  [
    'number-has-range',
    (it) => (it.steps['measure-blade'].questions[0].min = 5),
    [
      'rules/steps/measure-blade.json: questions[0].min: the least value of "thickness" (5) is not below the greatest (5); correct min or max',
    ],
  ],
  [
    'question-used',
    (it) =>
      it.steps['try-it'].questions.push({ id: 'squeaks', text: 'Does it squeak?', statement: 'It squeaks' }),
    [
      'rules/steps/try-it.json: questions[1].id: no finding uses the question "squeaks"; add a finding over it or remove the question',
    ],
  ],
  [
    'over-one-question',
    (it) => it.findings.pulls.when.all.push(yes('runs-well')),
    [
      'rules/findings/pulls.json: when: it is over 2 questions (pulls and runs-well); make one finding for each question',
    ],
  ],
  [
    'finding-reachable',
    (it) => (it.findings.pulls.when = { all: [yes('tugs')] }),
    [
      'rules/findings/pulls.json: when: no step or fix for tiny asks the question "tugs", so nobody reaches this finding; add it to a step or correct the name',
    ],
  ],
  [
    'when-fits-question',
    (it) => {
      it.findings.pulls.when.all[0].value = 'no'
      it.findings['blade-thin'].when.all[0] = { fact: 'thickness', operator: 'equal', value: 2 }
    },
    [
      'rules/findings/pulls.json: when: "pulls" is answered yes or no; compare it: { "operator": "equal", "value": "yes" }',
      'rules/findings/blade-thin.json: when: "thickness" is a number, which is never equal to something measured; use lessThan, lessThanInclusive, greaterThan or greaterThanInclusive',
    ],
  ],
  [
    'threshold-has-source',
    (it) => {
      it.findings.pulls.threshold = it.findings['blade-thin'].threshold
      delete it.findings['blade-thin'].threshold
    },
    [
      'rules/findings/pulls.json: threshold: "pulls" is no number; remove the threshold',
      'rules/findings/blade-thin.json: threshold: is missing; say why this number, and name its source',
    ],
  ],
  [
    'can-be-true-and-false',
    (it) => (it.findings['blade-thin'].when.all[0].value = 0),
    [
      'rules/findings/blade-thin.json: when: it can never hold for any "thickness" from 0 to 5; correct the number or the range',
    ],
  ],
  [
    'can-be-true-and-false',
    (it) => (it.findings['blade-thin'].when.all[0].value = 5.5),
    [
      'rules/findings/blade-thin.json: when: it always holds for any "thickness" from 0 to 5, so it tells nothing; correct the number or the range',
    ],
  ],
  [
    'finding-points',
    (it) => (it.findings.pulls.strengths = {}),
    [
      'rules/findings/pulls.json: strengths: it points to no cause of tiny; add a strength or remove the kind',
    ],
  ],
  [
    'strength-above-leak',
    (it) => {
      it.findings.pulls.strengths['broken-cord'] = 0.05
      it.findings.pulls.strengths['nothing-wrong'] = { tiny: 0.04 }
    },
    [
      'rules/findings/pulls.json: strengths.broken-cord: 0.05 is not above the leak (0.05), so it tells this cause from no other; raise it, lower the leak, or remove the cause',
      'rules/findings/pulls.json: strengths.nothing-wrong.tiny: 0.04 is not above the leak (0.05), so it tells this cause from no other; raise it, lower the leak, or remove the cause',
    ],
  ],
  [
    'one-witness',
    (it) => (it.findings['pulls-hard'] = it.findings.pulls),
    [
      'rules/findings/pulls-hard.json: when: rules/findings/pulls.json is over the question "pulls" too, and one answer can make both true: of two such only one could count; let them exclude each other, or ask two questions',
    ],
  ],
  [
    'one-witness',
    (it) => {
      it.findings['blade-thin'].topic = 'thickness'
      it.findings['blade-thick'] = {
        ...it.findings['blade-thin'],
        when: { all: [{ fact: 'thickness', operator: 'greaterThan', value: 4 }] },
      }
    },
    [
      'rules/findings/blade-thick.json: topic: rules/findings/blade-thin.json is over the question "thickness" too and shares its topic, so this one would never count; remove the topic: they exclude each other anyway',
    ],
  ],
]
