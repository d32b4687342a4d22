/** However little is known, it ends. */
import { expect, it } from 'vitest'
import { benchWith } from '../api/bench.js'
import { knowledge } from '../the-rulebook.js'
import { Visitor } from './visitor.js'

/** Screens between the danger signs and an end; nobody has the patience for half of them. */
const mostScreens = 80
/** So often somebody looks further although an ending is offered. */
const mostFurther = 3

/** A danger sign that nobody can tell: on without power. */
async function stillNotSure(me: Visitor): Promise<void> {
  const [, step, action] = /name="id" value="([^"]+)" formaction="([^"]+)"/.exec(me.html)!
  await me.send(action!, { id: step! })
}

it('"can’t tell" to everything comes to an end, and asks nothing twice', async () => {
  const { app, close } = await benchWith({ knowledge })
  const me = new Visitor(app)
  const home = await me.begin([])
  for (let most = me.dangerSigns.length; me.dangerSigns.length > 0; most--) {
    expect(most).toBeGreaterThan(0)
    await me.send(`${home}/danger`, { unsure: me.dangerSigns[0]! })
  }
  const seen: string[] = []
  let further = mostFurther
  for (let screen = 0; screen < mostScreens; screen++) {
    const asked = me.field('asked')
    if (asked !== undefined) {
      seen.push(asked)
      await me.answerStep(home, [], 'cant-tell')
    } else if (me.fix !== undefined) {
      seen.push(me.fix)
      await me.send(`${home}/tried`, { fix: me.fix, outcome: 'no' })
    } else if (me.html.includes(`action="${home}/now"`)) await me.send(`${home}/now`, { rest: 'same' })
    else if (me.dangerSigns.length > 0) await stillNotSure(me)
    else if (further-- === 0 || !(await me.lookFurther())) break
  }
  expect(new Set(seen).size).toBe(seen.length)
  const state = /class="thumb">\s*<button[^>]* name="state" value="([a-z-]+)"/.exec(me.html)?.[1]
  expect(['boxed-for-service', 'set-aside']).toContain(state)
  await me.send(`${home}/finish`, { state: state! })
  expect(me.status).toBe(200)
  expect(me.html).toContain(`state-${state}`)
  await close()
})
