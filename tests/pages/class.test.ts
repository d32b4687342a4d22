/** The instructor's pages: what they tell, counted by hand; what they keep back; forms that refuse in words. */
import { beforeAll, beforeEach, describe, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import type { ClassAtWork } from './class-at-work.js'
import { classAtWork, names, outcomeWith, points, usualHistory } from './class-at-work.js'
import { Visitor } from './visitor.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
let work: ClassAtWork
let me: Visitor
let home: string

let ofClass: string
let others = 0
const otherClass = () =>
  bench.register.addClass({ name: `Second years, ${++others}`, at: '2026-03-02T09:00:00Z' })

beforeAll(async () => {
  bench = await benchWith({ knowledge })
})
beforeEach(async (test) => {
  ofClass = `First years, ${test.task.id.slice(-20)}`
  work = await classAtWork(bench.register, ofClass)
  me = new Visitor(bench.app)
  home = `/practice/classes/${work.id}`
})

/** The words between two headings. */
const between = (from: string, to: string): string => me.words.split(from)[1]?.split(to)[0] ?? ''
const rowOf = (table: string, name: string): string =>
  me.html
    .split(table)[1]!
    .split('</table>')[0]!
    .split('<tr>')
    .find((row) => row.includes(name))!
    .replace(/<[^>]+>/g, ' ')
    .replace(/\s+/g, ' ')
const each = 'The class, one row each'
const tries = 'How each got on'

describe('the page of a class', () => {
  it('tells the address to type, large, and where that only works here', async () => {
    await me.open(home)
    expect(me.html).toMatch(/door-address">http:\/\/127\.0\.0\.1:\d+\/practice</)
    expect(me.words).toContain('works on this machine only')
  })

  it('names what hurts first: who opened a plugged-in tool, and how often the class did', async () => {
    await usualHistory(work)
    await me.open(home)
    const slip = knowledge.slips.find(({ id }) => id === 'opened-while-plugged-in')!
    const teach = between('What to teach next', 'One by one')
    expect(teach.indexOf(slip.name)).toBeGreaterThan(0)
    expect(teach.indexOf(slip.name)).toBeLessThan(teach.indexOf('taken for'))
    expect(teach).toContain('In 2 exercises, by 2 people.')
    // each opens by its name, and so does who is one by one
    const unfolded = me.html.replace(/<details[\s\S]*?<\/details>/g, '')
    expect(unfolded).not.toMatch(/class="teach-lessons"|class-each/)
    // the right order is the rulebook's own
    for (const line of slip.right) expect(teach).toContain(line.replaceAll("'", '’'))
    expect(rowOf(each, 'Bö')).toContain(slip.name)
    expect(rowOf(each, 'Ana')).not.toContain(slip.name)
  })

  it('says what is taken for what, by how much, from own exercises only while the set one goes on', async () => {
    await usualHistory(work)
    await me.open(home)
    // by hand: 20, 70, 70 and 70 of 100 points went to the cord
    expect(me.words).toContain('58 of 100 points went to the wrong one, in 4 exercises')
    expect(me.words).toContain('1 set exercise is left out')
    expect(me.words).toContain('when all have ended it, or when you close it: 1 to go')
    await me.open(`${home}?all=yes`)
    // and three times 20, six times 70 more: 710 of 13
    expect(me.words).toContain('55 of 100 points went to the wrong one, in 13 exercises')
    expect(me.words).toContain('What was wrong: Worn carbon brushes.')
  })

  it('names what nobody found, with a lesson', async () => {
    await usualHistory(work)
    await me.open(home)
    const missed = between('Found by nobody', 'Read from')
    expect(missed).toContain(knowledge.causes.find(({ id }) => id === 'dry-bearing')!.name)
    expect(missed).toContain('Was there twice, and nobody found it.')
    expect(me.html.split('Found by nobody')[1]).toMatch(/href="\/practice\/lessons\//)
  })

  it('counts found and minutes of each: two of three, 6, 6 and 14 minutes are about 9', async () => {
    await usualHistory(work)
    await me.open(home)
    expect(rowOf(each, 'Ana')).toMatch(/ 3 2 of 3 about 9 minutes each /)
    // one is still being worked out, one cost 14
    expect(rowOf(each, 'ليلى')).toMatch(/ 2 0 of 2 about 14 minutes /)
    expect(rowOf(each, 'José')).toMatch(/ 0 – – at one now –/)
  })

  it('lays all tries at a set exercise side by side', async () => {
    await usualHistory(work)
    await me.open(home)
    expect(me.words).toContain('9 of 10 have done it.')
    expect(rowOf(tries, 'Ana')).toContain('found and sure Handed it back, running about 6 minutes 80 of 100')
    expect(rowOf(tries, 'Bö')).toContain('nearly Handed it back, running about 14 minutes 30 of 100')
    expect(rowOf(tries, 'José')).toContain('– at it, 0 moves – –')
    expect(me.words).not.toContain('Not begun')
    await bench.register.addLearner({ name: 'Late', class: work.id, at: '2026-03-02T09:00:00Z' })
    await me.open(home)
    expect(me.words).toContain('9 of 11 have done it.')
    expect(me.words).toContain('Not begun: Late .')
  })

  it('of a tool with two faults neither counts as taken for the other', async () => {
    const both = outcomeWith({
      causes: ['worn-brushes', 'broken-cord'],
      spread: points({ 'worn-brushes': 50, 'broken-cord': 40 }),
    })
    await work.ended(0, 10, both)
    await work.ended(1, 12, both)
    await me.open(home)
    expect(me.words).not.toMatch(/taken for (?!each other)/)
    expect(me.words).toContain('Nothing stands out yet')
  })
})

describe('a danger', () => {
  it('is taught after its first time, before what only recurs; a small slip when it comes again', async () => {
    const with1 = (slips: string[]) => outcomeWith({ causes: ['worn-brushes'], slips })
    await work.ended(0, 10, { ...with1(['opened-while-plugged-in']), over: 'slip' })
    for (const minute of [20, 30]) await work.ended(1, minute, with1(['handed-back-not-disinfected']))
    await work.ended(2, 40, with1(['mended-before-looking']))
    await me.open(home)
    const teach = between('What to teach next', 'One by one')
    const at = (id: string) => teach.indexOf(knowledge.slips.find((slip) => slip.id === id)!.name)
    expect(at('opened-while-plugged-in')).toBeGreaterThan(0)
    expect(at('handed-back-not-disinfected')).toBeGreaterThan(at('opened-while-plugged-in'))
    expect(at('mended-before-looking')).toBe(-1)
  })
})

describe('what a class’s page keeps back', () => {
  it('the causes of a set exercise that somebody still has before them stand nowhere in the source', async () => {
    await work.ended(
      0,
      10,
      outcomeWith({ causes: ['dull-blade'], spread: points({ 'dull-blade': 100 }) }),
      work.set.id,
    )
    const secret = knowledge.causes.find(({ id }) => id === 'dull-blade')!.name
    for (const at of [home, `${home}/results.csv`]) {
      await me.open(at)
      expect(me.status).toBe(200)
      expect(me.html).not.toContain(secret)
      expect(me.html).not.toContain('dull-blade')
    }
    for (let who = 1; who < 10; who++)
      await work.ended(who, 20, outcomeWith({ causes: ['dull-blade'] }), work.set.id)
    await me.open(home)
    expect(me.words).toContain(`What was wrong: ${secret}.`)
  })

  it('setting the same again carries all that was set; chosen causes only once they may be told', async () => {
    const setting = { causes: ['dull-blade'], complaint: 'It pulls.', hideSuspects: false, hidePrices: true }
    const about = { class: work.id, kind: 'universal-motor', level: 'sweeping-the-floor', seed: 5 }
    await bench.register.addSetExercise({ ...about, setting, at: '2026-03-03T09:00:00Z' })
    const again = () => /href="([^"]*seed=5[^"]*)"/.exec(me.html)![1]!.replaceAll('&amp;', '&')
    await me.open(home)
    expect(again()).not.toContain('dull-blade')
    await me.open(`${home}?all=yes`)
    await me.open(again())
    expect(me.status).toBe(200)
    expect(me.html).toMatch(/value="dull-blade" selected/)
    expect(me.html).toMatch(/name="hidePrices" value="yes" checked/)
    expect(me.words).toContain('It pulls.')
  })

  it('an exercise under way tells nothing but that it is', async () => {
    await work.begun(0, 10)
    await me.open(home)
    for (const { id } of knowledge.causes) expect(me.html).not.toContain(`"${id}"`)
    expect(rowOf(each, 'Ana')).toContain('at one now')
  })
})

describe('people', () => {
  it('are added, renamed and moved, with all they have done', async () => {
    await usualHistory(work)
    const other = await otherClass()
    await me.post(`${home}/people`, { add: '  Zoë   Nur ' })
    expect(me.words).toContain('Added.')
    const zoe = (await bench.register.learners(work.id)).find(({ name }) => name === 'Zoë Nur')!
    await me.post(`${home}/people`, { learner: zoe.id, name: 'Zoë N.', class: work.id })
    expect((await bench.register.learner(zoe.id)).name).toBe('Zoë N.')
    const ana = work.people[0]!
    await me.post(`${home}/people`, { learner: ana.id, name: 'Ana', class: other.id })
    expect(me.words).toContain('Moved')
    expect((await bench.register.learner(ana.id)).class).toBe(other.id)
    await me.open(`/practice/classes/${other.id}`)
    expect(rowOf(each, 'Ana')).toContain('2 of 3')
  })

  it.each([
    ['nothing', '   '],
    ['signs that nobody sees', '\u200b\u200e'],
    ['81 letters', 'a'.repeat(81)],
    ['a name that is there, in capitals', 'ANA'],
  ])('%s is no new name: said at the field, and kept there', async (_, name) => {
    await me.post(`${home}/people`, { add: name })
    expect(me.status).toBe(422)
    expect(me.html).toMatch(/class="wrong-here" id="add-wrong"/)
    expect(await bench.register.learners(work.id)).toHaveLength(names.length)
  })

  it('a slip in a name opens the fold at its field, with what was typed', async () => {
    await me.post(`${home}/people`, { learner: work.people[0]!.id, name: 'José María', class: work.id })
    expect(me.status).toBe(422)
    expect(me.html).toMatch(new RegExp(`id="name-${work.people[0]!.id}" name="name" value="José María"`))
    expect(me.html).toMatch(/<details class="more" open>\s*<summary>Names and classes/)
  })

  it('names are shown as typed and do nothing', async () => {
    const hostile = '"><script>alert(1)</script>'
    await me.post(`${home}/people`, { add: hostile })
    await me.open(home)
    expect(me.html).not.toContain('<script>alert')
    expect(me.html).toContain('&lt;script&gt;alert')
  })
})

describe('another class', () => {
  it('cannot rename, move, read or sign for a learner of this one', async () => {
    const other = await otherClass()
    const ana = work.people[0]!
    const theirs = `/practice/classes/${other.id}`
    await me.post(`${theirs}/people`, { learner: ana.id, name: 'Anna', class: other.id })
    expect([me.status, me.heading]).toEqual([403, 'Not from this page'])
    expect(me.words).toContain('Ana is not in Second years,')
    await me.open(`${theirs}/people/${ana.id}/skills`)
    expect(me.status).toBe(403)
    await me.post(`${theirs}/people/${ana.id}/skills`, {
      by: 'Somebody',
      sign: 'found|universal-motor|worn-brushes',
    })
    expect(me.status).toBe(403)
    expect(await bench.register.learner(ana.id)).toMatchObject({ name: 'Ana', class: work.id })
    expect(await bench.register.signedOff(ana.id)).toEqual([])
  })

  it.each([
    '/practice/classes/nobody-knows',
    '/practice/classes/nobody-knows/set',
    '/practice/classes/x/results.csv',
  ])('%s is not there, in words', async (at) => {
    await me.open(at)
    expect([me.status, me.heading]).toEqual([404, 'Not on this bench'])
  })

  it('a class is made once under a name, whatever its capitals', async () => {
    await me.post('/practice/classes', { name: 'Evening course' })
    expect([me.status, me.heading]).toEqual([200, '<bdi>Evening course</bdi>'])
    await me.post('/practice/classes', { name: 'EVENING course' })
    expect(me.status).toBe(422)
    expect(me.html).toContain('value="EVENING course"')
    await me.open('/practice/classes')
    expect(me.words).toContain(`${ofClass} 10 people, 1 exercise set`)
  })
})

it('a kind and a level that were renamed since stand under their new names', async () => {
  const moved = {
    ...knowledge.moved,
    kinds: { 'old-kind': 'universal-motor' },
    levels: { 'old-level': 'sweeping-the-floor' },
  }
  const renamed = await benchWith({ knowledge: { ...knowledge, moved } })
  const at = '2026-03-02T09:00:00Z'
  const { id } = await renamed.register.addClass({ name: 'Old hands', at })
  const setting = { hideSuspects: false, hidePrices: false }
  await renamed.register.addSetExercise({
    class: id,
    kind: 'old-kind',
    level: 'old-level',
    seed: 1,
    setting,
    at,
  })
  const visitor = await new Visitor(renamed.app).open(`/practice/classes/${id}`)
  const kind = knowledge.kinds.find((it) => it.id === 'universal-motor')!
  const level = knowledge.levels.find((it) => it.id === 'sweeping-the-floor')!
  expect(visitor.words).toContain(`${kind.plainName}, ${level.name}`)
})
