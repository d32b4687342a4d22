/** Mistakes in what practice goes by: slips and levels. */
import type { Mistake } from '../tiny-rulebook.js'

const is = (fact: string, value: unknown = 'yes') => ({ fact, operator: 'equal', value })

export const slips: Mistake[] = [
  [
    'slip-facts',
    (it) =>
      (it.slips['opened-live'].when.all = [
        is('weather', 'wet'),
        is('power', 'on'),
        is('stands-plugout', 'no'),
        is('told-pulls', 'unknown'),
        is('holds-cord-damaged'),
        is('step', 'try-id'),
        is('fix', 'none'),
      ]),
    [
      'rules/slips/opened-live.json: when: "weather" is no fact of the bench; use one of move, power, disinfected, mended, stopped, danger-looked, step, fix, act, needs-…, sets-up-…, stands-…, shows-…, told-…, holds-…',
      'rules/slips/opened-live.json: when: "power" is never equal "on"; it is one of yes, no',
      'rules/slips/opened-live.json: when: there is no rules/setups/plugout.json; add that file or correct the name',
      'rules/slips/opened-live.json: when: "step" is never equal "try-id"; name a file of rules/steps/',
    ],
  ],
  [
    'slip-can-hold',
    (it) => it.slips['opened-live'].when.all.push(is('stands-plug-out')),
    [
      'rules/slips/opened-live.json: when: it can never hold: its parts contradict each other; use "any" where one of them is enough',
    ],
  ],
  [
    'slip-offered-act',
    (it) => {
      it.slips.sprayed = {
        ...it.slips['opened-live'],
        offers: 'Spray it',
        when: { all: [is('act', 'opened-live')] },
      }
    },
    [
      'rules/slips/sprayed.json: when: nobody can do "opened-live": rules/slips/opened-live.json offers nothing; say in its "offers" what the bench offers',
      'rules/slips/sprayed.json: offers: whoever does what it offers makes no slip; compare the fact "act" with "sprayed" in "when"',
    ],
  ],
  [
    'opening-guarded',
    (it) => (it.slips['opened-live'].grade = 'noted'),
    [
      'rules/kinds/tiny.json: no slip ends an exercise when somebody gets to "body-open" without what must stand first; add a file to rules/slips/ over "sets-up-body-open" and the set-ups that it needs',
    ],
  ],
  [
    'named-there',
    (it) => (it.levels.first.kinds = ['tiny', 'tinny']),
    [
      'rules/levels/first.json: kinds[1]: there is no rules/kinds/tinny.json; add that file or correct the name',
    ],
  ],
  [
    'levels-rise',
    (it) => (it.levels.all.order = 1),
    ['rules/levels/all.json: order: rules/levels/first.json has the same; give it another'],
  ],
]
