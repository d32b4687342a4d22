/** Who may see and do what: each wish of each viewer, written down by hand. */
import { describe, expect, it } from 'vitest'
import type { Viewer, Wish } from '../../server/register/who-may.js'
import { anybody, asInstructor, asLearner, may } from '../../server/register/who-may.js'

const ann = { id: 'ann1', class: 'evening' }
const viewers = {
  anybody,
  'Ann herself': asLearner(ann),
  'Bo of her class': asLearner({ id: 'bobo', class: 'evening' }),
  'Cem of another class': asLearner({ id: 'cem1', class: 'morning' }),
  'her instructor': asInstructor('evening'),
  'another class’s instructor': asInstructor('morning'),
} satisfies Record<string, Viewer>
type Name = keyof typeof viewers

const everybody = Object.keys(viewers) as Name[]
const underWay = { learner: 'ann1', class: 'evening', over: false }
const over = { ...underWay, over: true }

/** Each row: a wish about Ann or her class, and all who may have it. */
const table: readonly (readonly [string, Wish, readonly Name[]])[] = [
  ['choose who practises', { to: 'choose who practises' }, everybody],
  ['see her record', { to: 'see a record', of: ann }, ['Ann herself', 'her instructor']],
  ['make her moves', { to: 'make moves', of: underWay }, ['Ann herself']],
  ['make a move after the end', { to: 'make moves', of: over }, []],
  ['see the debrief of what she is at', { to: 'see the debrief', of: underWay }, []],
  // of a set exercise too: what was wrong is no other learner's business while the class is at it
  ['see the debrief of what is over', { to: 'see the debrief', of: over }, ['Ann herself', 'her instructor']],
  ['see her class', { to: 'see a class', of: 'evening' }, ['her instructor']],
  ['set her class an exercise', { to: 'set an exercise', of: 'evening' }, ['her instructor']],
  ['sign off what she has shown', { to: 'sign off', of: ann }, ['her instructor']],
]

describe.each(table)('to %s', (_what, wish, those) => {
  it.each(everybody)('%s', (name) => {
    expect(may(viewers[name], wish)).toBe(those.includes(name))
  })
})

it('has every wish that there is', () => {
  const wishes = new Set(table.map(([, { to }]) => to))
  const all: Record<Wish['to'], true> = {
    'choose who practises': true,
    'see a record': true,
    'make moves': true,
    'see the debrief': true,
    'see a class': true,
    'set an exercise': true,
    'sign off': true,
  }
  expect(wishes).toEqual(new Set(Object.keys(all)))
})
