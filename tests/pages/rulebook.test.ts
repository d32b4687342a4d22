/** The rulebook's pages on a phone: what is looked for stands on top, the rest is a tap away. */
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { knowledge } from '../the-rulebook.js'
import { Visitor } from './visitor.js'

let bench: Bench
let me: Visitor
beforeAll(async () => {
  bench = await benchWith({ knowledge })
  me = new Visitor(bench.app)
})
afterAll(() => bench.close())

/** The folds of the page that is open: whether each stands open, and its heading. */
const folds = () =>
  [...me.html.matchAll(/<details class="more"( open)?><summary>([^<]*)</g)].map(([, open, heading]) => ({
    open: open !== undefined,
    heading,
  }))

it('causes are folded by kind: the first stands open, or the one that is asked for', async () => {
  const names = knowledge.kinds.map(({ plainName }) => plainName)
  for (const [at, open] of [
    ['/rulebook/causes', names[0]],
    [`/rulebook/causes?kind=${knowledge.kinds[3]!.id}`, names[3]],
    ['/rulebook/causes?kind=none', names[0]],
  ] as const) {
    await me.open(at)
    expect(folds()).toEqual(names.map((heading) => ({ heading, open: heading === open })))
  }
  for (const { id } of knowledge.causes) expect(me.html).toContain(`href="/rulebook/causes/${id}"`)
})

it.each(['stops', 'care'] as const)('%s are folded one by one, and a link to one opens it', async (list) => {
  const [first, second] = knowledge[list]
  await me.open(`/rulebook/${list}`)
  expect(folds().map(({ open }) => open)).toEqual(knowledge[list].map(() => false))
  await me.open(`/rulebook/${list}?open=${second!.id}`)
  expect(folds().filter(({ open }) => open)).toHaveLength(1)
  expect(me.html).toMatch(
    new RegExp(`id="${first!.id}"[\\s\\S]*id="${second!.id}">\\s*<details class="more" open`),
  )
})

it('a cause has its fix before the numbers, which are folded', async () => {
  await me.open('/rulebook/causes/worn-brushes')
  const [fix, numbers] = ['href="/rulebook/fixes/', '<details'].map((it) => me.html.indexOf(it))
  expect(fix).toBeGreaterThan(0)
  expect(fix).toBeLessThan(numbers!)
  expect(me.html.slice(0, numbers)).not.toContain('in 1000')
})
