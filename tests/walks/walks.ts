/**
 * npm run walks: what the way from the start page to the first fix or ending takes of a person, walked in a real
 * browser of 360 by 740 px. 40 told repairs (untold is "can't tell"), 40 simulated tools, and 12 people who can tell
 * nothing. `-- --count 10` walks fewer, `-- --each` prints every walk.
 */
import { reach } from '../../server/diagnosis/plan/reach.js'
import { parseArgs } from 'node:util'
import { prepare } from '../../server/diagnosis/prepare.js'
import type { Person } from './people.js'
import { cannotTell, simulatedPeople, toldPeople } from './people.js'
import { marksOf, printMarks } from './marks.js'
import { openBench, phone } from '../browser/browser.js'
import { launch } from '../browser/chromium.js'
import type { Walk } from './walk.js'
import { walk } from './walk.js'

const { values } = parseArgs({
  options: { count: { type: 'string', default: '40' }, each: { type: 'boolean', default: false } },
})
const count = Number(values.count)

const browser = await launch()
const bench = await openBench({ browser, far: reach })
const prepared = await prepare(bench.knowledge)
const told = toldPeople(count)
const groups: readonly (readonly [string, readonly Person[]])[] = [
  ['told repairs, untold is can’t tell', told],
  ['simulated tools', await simulatedPeople(prepared, count)],
  ['can’t tell to everything', told.slice(0, Math.ceil(count / 3)).map(cannotTell)],
]
for (const [name, people] of groups) {
  const walks: Walk[] = []
  for (const person of people) {
    const page = await bench.open(phone)
    walks.push(await walk(page, bench.knowledge, person))
    await page.close()
    if (values.each) console.log(JSON.stringify(walks.at(-1)))
  }
  printMarks(name, marksOf(walks))
}
await bench.close()
await browser.close()
