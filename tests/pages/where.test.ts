/** A fix without a drawing of its own shows where the work is, on the parts of the kind in hand. */
import { expect, it } from 'vitest'
import { benchWith } from '../api/bench.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'
import { Visitor } from './visitor.js'

it('marks the parts whose causes the fix cures', async () => {
  const { app } = await benchWith()
  const me = await new Visitor(app).open('/')
  await me.send('/cases', { kind: tinyRulebook.kinds[0]!.id, tool: 'Chair 1' })
  const home = me.at.replace('/complaint', '')
  await me.send(`${home}/complaint`, { 'q-hot': 'yes' })
  for (let screen = 0; screen < 12 && me.fix === undefined; screen++) {
    if (me.field('asked') !== undefined) await me.answerStep(home, [], 'cant-tell')
    else await me.lookForDanger(home)
  }
  const fix = tinyRulebook.fixes.find(({ id }) => id === me.fix)!
  expect(fix.drawing).toBeUndefined()
  const parts = tinyRulebook.causes.filter(({ id }) => fix.cures[id] !== undefined).map(({ part }) => part)
  const names = tinyRulebook.kinds[0]!.parts.filter(({ id }) => parts.includes(id)).map(({ name }) => name)
  const drawing = `aria-label="Line drawing of the tool, cut open. Here: ${names.join('; ')}."`
  const shown: boolean[] = []
  for (let at = 1; me.field('fix') === undefined; at++) {
    await me.open(`${home}?at=${at}`)
    shown.push(me.html.includes(drawing))
  }
  expect(shown.filter(Boolean)).toHaveLength(1)
})
