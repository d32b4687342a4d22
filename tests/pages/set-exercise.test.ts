/** An exercise set for a class: two small pages, what is heard first, and refusals in words. */
import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { kind, level } from './class-at-work.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
let me: Visitor
let at: string
let id: string

beforeAll(async () => {
  bench = await benchWith({ knowledge })
})
let made = 0
beforeEach(async () => {
  id = (await bench.register.addClass({ name: `Class ${++made}`, at: '2026-03-02T09:00:00Z' })).id
  at = `/practice/classes/${id}/set`
  me = new Visitor(bench.app)
})

const heard = (): string => me.words.split('What they hear first')[1]?.split('Set it for the class')[0] ?? ''
const fields = { kind, level, seed: '4711', 'cause-1': '', 'cause-2': '', 'cause-3': '', complaint: '' }
const sets = () => bench.register.setExercises(id)

describe('first page', () => {
  it('offers every level in order of hardness, and every kind', async () => {
    await me.open(at)
    const offered = [...me.html.matchAll(/name="level" value="([^"]+)"/g)].map((match) => match[1])
    expect(offered).toEqual([...knowledge.levels].sort((a, b) => a.order - b.order).map(({ id: it }) => it))
    for (const it of knowledge.kinds) expect(me.html).toContain(`<option value="${it.id}">${it.plainName}`)
  })

  it('refuses a kind that the level has not, and says which it has', async () => {
    const other = knowledge.kinds.find((it) => it.id !== kind)!
    await me.open(`${at}?level=${level}&kind=${other.id}`)
    expect(me.status).toBe(422)
    expect(me.words).toContain(`has only this: ${knowledge.kinds.find((it) => it.id === kind)!.plainName}`)
    expect(me.html).toContain(`value="${level}" checked`)
  })

  it.each([
    '?level=&kind=',
    '?level=nothing&kind=nothing',
    '?level[]=a&kind[b]=c',
    '?level=x&level=y&kind=z',
  ])('%s is answered with both fields to put right', async (asked) => {
    await me.open(`${at}${asked}`)
    expect([200, 422]).toContain(me.status)
    expect(me.heading).toBe('Set an exercise')
  })

  it('draws a kind where any will do', async () => {
    await me.open(`${at}?level=oiling-the-blades&kind=any`)
    expect(me.status).toBe(200)
    expect(knowledge.kinds.map(({ plainName }) => plainName)).toContain(me.heading)
  })
})

describe('second page', () => {
  it('lays every cause of the kind under the part that it sits in', async () => {
    await me.open(`${at}?level=${level}&kind=${kind}`)
    const first = me.html.split('id="cause-1"')[1]!.split('</select>')[0]!
    const part = knowledge.kinds.find((it) => it.id === kind)!.parts.find((it) => it.id === 'brushes')!
    const brushes = first.split(`<optgroup label="${part.name}"`)[1]?.split('</optgroup>')[0] ?? ''
    expect(brushes).toContain('value="worn-brushes"')
    const offered = [...first.matchAll(/value="([^"]+)"/g)].map((match) => match[1]).sort()
    expect(offered).toEqual(
      bookOf(knowledge, kind)
        .causes.map((it) => it.id)
        .sort(),
    )
  })

  it('tells what is heard first: the same for the same number, another for another', async () => {
    const seen = new Set<string>()
    for (const seed of ['1', '2', '3', '4', '5', '6']) {
      await me.post(at, { ...fields, seed, do: 'look' })
      const once = heard()
      await me.post(at, { ...fields, seed, do: 'look' })
      expect(heard()).toBe(once)
      expect(once.trim()).not.toBe('')
      seen.add(once)
    }
    expect(seen.size).toBeGreaterThan(2)
    expect(await sets()).toEqual([])
  })

  it('sets it, with all that was chosen; a former number brings the same again', async () => {
    const chosen = {
      ...fields,
      'cause-1': 'worn-brushes',
      complaint: ' It cuts in and out. ',
      hideSuspects: 'yes',
    }
    await me.post(at, { ...chosen, do: 'look' })
    expect(heard()).toContain('It cuts in and out.')
    await me.post(at, { ...chosen, do: 'set' })
    expect(me.words).toContain('Set. It stands first')
    // at the top, where that is said
    expect(me.at).not.toContain('#')
    const [set] = await sets()
    expect(set).toMatchObject({
      kind,
      level,
      seed: 4711,
      setting: {
        causes: ['worn-brushes'],
        complaint: 'It cuts in and out.',
        hideSuspects: true,
        hidePrices: false,
      },
    })
    await me.open(`${at}?level=${level}&kind=${kind}&seed=${set!.seed}`)
    expect(me.html).toContain('name="seed" value="4711"')
  })

  it.each([
    ['seed', { seed: '4294967296' }],
    ['seed', { seed: '-1' }],
    ['seed', { seed: '1.5' }],
    ['seed', { seed: '' }],
    ['cause-1', { 'cause-1': 'no-such-cause' }],
    ['cause-2', { 'cause-1': 'worn-brushes', 'cause-2': 'worn-brushes' }],
    ['cause-1', { 'cause-1': 'swollen-pack' }],
    ['complaint', { complaint: 'ab' }],
    ['complaint', { complaint: 'x'.repeat(301) }],
  ])('a slip at %s is said there, and nothing is set: %o', async (field, slip) => {
    await me.post(at, { ...fields, hidePrices: 'yes', ...slip, do: 'set' })
    expect(me.status).toBe(422)
    expect(me.html).toContain(`id="${field}-wrong"`)
    expect(me.html).toMatch(/name="hidePrices" value="yes" checked/)
    expect(await sets()).toEqual([])
  })

  it('nothing wrong stands alone', async () => {
    const none = knowledge.causes.find(({ exclusive, shares }) => exclusive && shares[kind] !== undefined)!
    await me.post(at, { ...fields, 'cause-1': 'worn-brushes', 'cause-2': none.id, do: 'set' })
    expect(me.status).toBe(422)
    expect(me.words).toContain('excludes all others')
  })
})

it('causes that show nothing are refused in words, not with a broken page', async () => {
  const mute = knowledge.findings.map(({ strengths, ...finding }) => ({
    ...finding,
    leak: 0,
    strengths: Object.fromEntries(Object.entries(strengths).filter(([cause]) => cause !== 'dull-blade')),
  }))
  const silent = await benchWith({ knowledge: { ...knowledge, findings: mute } })
  const { id: ofClass } = await silent.register.addClass({ name: 'Silent', at: '2026-03-02T09:00:00Z' })
  const visitor = new Visitor(silent.app)
  const sent = { ...fields, 'cause-1': 'dull-blade', do: 'set' }
  await visitor.post(`/practice/classes/${ofClass}/set`, sent)
  expect(visitor.status).toBe(422)
  expect(visitor.words).toContain('show nothing that a client would complain of: choose others')
  expect(visitor.html).toContain('id="cause-1-wrong"')
})

it('set by mistake, it is taken back while nobody has begun it; so is the class', async () => {
  const setting = { hideSuspects: false, hidePrices: false }
  const one = { class: id, kind, level, seed: 5, setting, at: '2026-03-02T09:00:00Z' }
  const [mistake, begun] = [
    await bench.register.addSetExercise(one),
    await bench.register.addSetExercise({ ...one, seed: 6 }),
  ]
  const home = `/practice/classes/${id}`
  await me.open(home)
  await me.post(`${at}/${mistake.id}/remove`, {})
  expect(me.words).toContain('Removed.')
  expect(me.words).toMatch(
    /Who changed it.*somebody: an exercise removed.*snap-on blade, .* set .*somebody: added/,
  )
  const { id: learner } = await bench.register.addLearner({ name: 'Ann', class: id, at: one.at })
  await bench.register.begin({ ...one, learner, setAs: begun.id })
  await me.open(home)
  expect(me.html).not.toMatch(/\/remove"/)
  await me.post(`${at}/${begun.id}/remove`, {})
  expect(me.status).toBe(422)
  await me.post(`${home}/remove`, {})
  expect([me.status, me.words]).toEqual([422, expect.stringContaining('practised')])
  const { id: empty } = await bench.register.addClass({ name: 'Twice by a slip', at: one.at })
  await me.open(`/practice/classes/${empty}`)
  await me.post(`/practice/classes/${empty}/remove`, {})
  expect(me.html).not.toContain(`href="/practice/classes/${empty}"`)
  expect(me.words).toContain('“Twice by a slip” removed')
})
