/** The door, a learner's own start and the record, as they are served; and what is sent there by mistake. */
import request from 'supertest'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { loadKnowledge } from '../../server/knowledge/load.js'
import { causesOf } from '../../server/practice/level-book.js'
import type { PracticeClass } from '../../shared/practice.js'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { day } from '../practice/results.js'
import { keepOver } from './kept-exercises.js'
import { Visitor } from './visitor.js'

const knowledge = loadKnowledge()
const none = { hideSuspects: false, hidePrices: false }
const levels = [...knowledge.levels].sort((a, b) => a.order - b.order)
const level = levels[0]!
const kind = (level.kinds as string[])[0]!
const may = causesOf(knowledge, level, kind, none)
const confusion = knowledge.confusions[0]!

const open: Bench[] = []
/** An empty shop. */
const opened = async (): Promise<Bench & { me: Visitor }> => {
  const bench = await benchWith({ knowledge })
  open.push(bench)
  return { ...bench, me: new Visitor(bench.app) }
}
afterAll(() => Promise.all(open.map((bench) => bench.close())))

let shared: Bench
let classes = 0
beforeAll(async () => void (shared = await opened()))
/** Ana, alone in a class of her own, in a shop that has other classes too. */
const withLearner = async () => {
  const bench = { ...shared, me: new Visitor(shared.app) }
  const ofClass = await bench.register.addClass({ name: `Wednesday ${++classes}`, at: OPENED })
  const learner = await bench.register.addLearner({ name: 'Ana', class: ofClass.id, at: OPENED })
  const over = (days: number, points: number, more: object = {}) => {
    const cause = may[Math.abs(days) % 3]!
    const wrong = may[(Math.abs(days) % 3) + 1]!
    const given = {
      ...(points > 0 && { [cause]: points }),
      ...(points < 100 && { [wrong]: 100 - points }),
    }
    return keepOver(
      bench.register,
      { learner: learner.id, kind, level: level.id, suspects: may },
      { at: day(OPENED, days), causes: [cause], spread: { points: given, other: 0 }, ...more },
    )
  }
  return { ...bench, ofClass, learner, over, home: `/practice/people/${learner.id}` }
}

describe('the door', () => {
  it('of an empty shop takes the first name and makes a class of its own', async () => {
    const { me, register } = await opened()
    await me.open('/practice')
    expect(me.status).toBe(200)
    expect(me.heading).toBe('Who practises?')
    expect(me.words).toContain('You come into the class “This shop”.')
    for (const way of ['lessons', 'cards', 'classes']) expect(me.html).toContain(`href="/practice/${way}"`)
    await me.post('/practice/people', { name: '  Ana   Maria ', class: '' })
    expect(me.status).toBe(200)
    expect(me.heading).toMatch(/^Ana Maria/)
    expect((await register.classes()).map(({ name }) => name)).toEqual(['This shop'])
    await me.post('/practice/people', { name: 'Bo', class: '' })
    expect((await register.learners()).map(({ name }) => name)).toEqual(['Ana Maria', 'Bo'])
    await me.open('/practice')
    expect(me.html).toMatch(/<a class="name-tape" href="\/practice\/people\/[a-z0-9-]+">Ana Maria<\/a>/)
  })

  it('lets ten newcomers in at once, into one class', async () => {
    const { app, register } = await opened()
    const answers = await Promise.all(
      Array.from({ length: 10 }, (_, k) =>
        request(app)
          .post('/practice/people')
          .type('form')
          .send({ name: `Learner ${k}`, class: '' }),
      ),
    )
    expect(answers.map(({ status }) => status)).toEqual(Array.from({ length: 10 }, () => 303))
    expect(await register.classes()).toHaveLength(1)
    expect(await register.learners()).toHaveLength(10)
  })

  it('carries a lesson on: to whoever is chosen, and with a newcomer', async () => {
    const { me, register, ofClass } = await withLearner()
    const lesson = `confusions/${confusion.id}`
    await me.open(`/practice?lesson=${lesson}&kind=${kind}`)
    expect(me.words).toContain(confusion.name)
    expect(me.html).toMatch(
      new RegExp(
        `action="/practice/exercises">\\s*<input type="hidden" name="learner" value="[a-z0-9-]+" />\\s*<input type="hidden" name="lesson" value="${lesson}" />\\s*<input type="hidden" name="kind" value="${kind}" />`,
      ),
    )
    await me.post('/practice/people', { name: 'Bo', class: ofClass.id, lesson, kind })
    const bo = (await register.learners(ofClass.id)).find(({ name }) => name === 'Bo')!
    expect(me.at).toBe(`/practice/people/${bo.id}?${new URLSearchParams({ lesson, kind }).toString()}`)
    expect(me.words).toContain(`The exercise after “${confusion.name}”`)
    expect(me.html.match(/class="go"/g)).toHaveLength(1)
  })

  it('drops a lesson that there is not', async () => {
    const { me } = await withLearner()
    await me.open('/practice?lesson=confusions/no-such-thing&kind=<b>')
    expect(me.status).toBe(200)
    expect(me.html).not.toContain('no-such-thing')
    await me.open('/practice?lesson=a&lesson=b')
    expect(me.status).toBe(200)
  })
})

describe('a name that cannot be', () => {
  const refused = async (
    bench: Awaited<ReturnType<typeof withLearner>>,
    fields: { name: string; class?: string },
  ): Promise<Visitor> => {
    const before = await bench.register.learners()
    await bench.me.post('/practice/people', { class: bench.ofClass.id, ...fields })
    expect(bench.me.status).toBe(422)
    expect(bench.me.title).toMatch(/^Error: /)
    expect(await bench.register.learners()).toEqual(before)
    return bench.me
  }

  it.each([
    ['empty', '', 'Say by which name you go'],
    ['spaces', '   ', 'Say by which name you go'],
    ['a space without width', '\u200b', 'Say by which name you go'],
    ['of 200 letters', 'a'.repeat(200), 'Use a shorter name, of at most 80 letters'],
    ['there already', 'Ana', 'has somebody called'],
    ['there already in capitals and spaces', ' ANA ', 'has somebody called'],
  ])('%s', async (_, name, message) => {
    const me = await refused(await withLearner(), { name })
    expect(me.html).toContain(message)
    expect(me.html).toMatch(/href="#name"[\s\S]*id="name"/)
    expect(me.field('name')).toBe(name.trim())
  })

  it('is given back as it was typed, harmless', async () => {
    const me = await refused(await withLearner(), { name: '"><b>x', class: 'no-such-class' })
    expect(me.html).toContain('value="&#34;&gt;&lt;b&gt;x"')
    expect(me.words).toContain('Choose the class that you are in')
  })

  it('in the other class is another person', async () => {
    const bench = await withLearner()
    const other = await bench.register.addClass({ name: `Thursday ${classes}`, at: OPENED })
    await refused(bench, { name: 'Bo', class: '' })
    expect(bench.me.html).toMatch(/href="#class"[\s\S]*id="class"/)
    expect(bench.me.field('name')).toBe('Bo')
    await bench.me.post('/practice/people', { name: 'Ana', class: other.id })
    expect(bench.me.status).toBe(200)
    expect(await bench.register.learners(other.id)).toHaveLength(1)
  })

  it('in more than one script is a name like any other', async () => {
    const { me, register, ofClass } = await withLearner()
    await me.post('/practice/people', { name: 'Zoë 李', class: ofClass.id })
    expect((await register.learners(ofClass.id)).map(({ name }) => name)).toContain('Zoë 李')
  })
})

describe('a learner’s own start', () => {
  it('of somebody new has one main act: a new one of the first level', async () => {
    const { me, home, learner } = await withLearner()
    await me.open(home)
    expect(me.heading).toMatch(/^Ana/)
    expect(me.words).toContain('A new one.')
    expect(me.html.match(/class="go"/g)).toHaveLength(1)
    expect(me.html).toMatch(
      new RegExp(
        `name="learner" value="${learner.id}" />\\s*<input type="hidden" name="next" value="yes" />\\s*<input type="hidden" name="level" value="${level.id}" />\\s*<button class="go">Practise`,
      ),
    )
    for (const it of levels) expect(me.words).toContain(it.says)
    expect(me.words).toContain('Nothing finished yet')
  })

  it('never names what comes next, in words or behind them', async () => {
    const { me, home, over } = await withLearner()
    await over(-60, 100)
    await over(-30, 0)
    await me.open(home)
    expect(me.words).toMatch(/One that you (have not met for a while|mixed up with another)\./)
    // the ids of causes; the page is sent with none, wherever one might look for it
    for (const { id } of knowledge.causes) if (id.includes('-')) expect(me.html).not.toContain(id)
    expect(me.html).not.toMatch(/name="about"|name="seed"/)
  })

  const [a, b] = may as [string, string]
  const sure = (days: number, cause: string) => [days, cause, cause] as const
  it.each([
    ['One that you have not met for a while.', [sure(-60, a), sure(-59, b)]],
    // a was missed for b and is known since; b never came
    ['One that you mixed up with another.', [[-40, a, b] as const, sure(-39, a)]],
    ['A new one.', [sure(-1, a)]],
    [
      'Nothing is due: the one that you are least sure of.',
      may.map((cause, place) => sure(-1 - place / 100, cause)),
    ],
  ])('says why: %s', async (words, exercises) => {
    const { me, home, register, learner } = await withLearner()
    for (const [days, cause, on] of exercises)
      await keepOver(
        register,
        { learner: learner.id, kind, level: level.id, suspects: may },
        { causes: [cause], at: day(OPENED, days), spread: { points: { [on]: 100 }, other: 0 } },
      )
    expect((await me.open(home)).words).toContain(words)
  })

  it('goes on with what is under way, before what is set, before what comes next', async () => {
    const { me, home, register, learner, ofClass } = await withLearner()
    const set = await register.addSetExercise({
      class: ofClass.id,
      kind,
      level: levels[1]!.id,
      seed: 7,
      setting: { hideSuspects: true, hidePrices: true, complaint: 'It <hums> & stops', causes: [may[3]!] },
      at: day(OPENED, -1),
    })
    await me.open(home)
    expect(me.html).toMatch(/name="set" value="[a-z0-9-]+" \/>[\s\S]*?<button class="go">Begin it/)
    expect(me.html).toContain('It &lt;hums&gt; &amp; stops')
    expect(me.words).toContain('without the list of suspects, without prices, set yesterday')
    expect(me.html).not.toContain(may[3]!)
    const { id } = await register.begin({
      learner: learner.id,
      kind,
      level: levels[1]!.id,
      seed: 7,
      setting: set.setting,
      setAs: set.id,
      at: OPENED,
    })
    await me.open(home)
    expect(me.html).toMatch(new RegExp(`<a class="go" href="/practice/exercises/${id}">Go on with it`))
    expect(me.words).toContain('set by the instructor, no move made yet')
    expect(me.html).not.toContain('name="set"')
    expect(me.html.match(/class="go"/g)).toHaveLength(1)
    // what is set for a class does not become the level that the learner chose
    expect(me.html).toMatch(
      new RegExp(`name="next" value="yes" />\\s*<input type="hidden" name="level" value="${level.id}"`),
    )
  })

  it('each of its forms begins an exercise: what comes next, a level, a kind of it, a lesson’s, and a set one', async () => {
    const { me, home, learner, register, ofClass } = await withLearner()
    const set = await register.addSetExercise({
      class: ofClass.id,
      kind,
      level: level.id,
      seed: 1,
      setting: none,
      at: OPENED,
    })
    await me.open(home)
    const lesson = `confusions/${confusion.id}`
    for (const fields of [
      { next: 'yes', level: level.id },
      { level: levels[1]!.id },
      { level: levels[1]!.id, kind: knowledge.kinds.at(-1)!.id },
      { lesson, kind },
      { set: set.id },
    ]) {
      await me.post('/practice/exercises', { learner: learner.id, ...fields })
      expect([me.status, me.at]).toEqual([200, expect.stringMatching(/^\/practice\/exercises\/[a-z0-9-]+$/)])
    }
    await me.open(home)
    expect(me.html.match(/>Go on with it</g)).toHaveLength(5)
    await me.post('/practice/exercises', { lesson, kind })
    expect(me.at).toBe(`/practice?${new URLSearchParams({ lesson, kind }).toString()}`)
  })

  it('shows what is set for the own class only', async () => {
    const { me, home, register } = await withLearner()
    const other: PracticeClass = await register.addClass({ name: `Thursday ${classes}`, at: OPENED })
    await register.addSetExercise({
      class: other.id,
      kind,
      level: level.id,
      seed: 1,
      setting: none,
      at: OPENED,
    })
    expect((await me.open(home)).words).not.toContain('Set by the instructor')
  })

  it('offers a step up after three well done in a row, and stays where the learner is', async () => {
    const { me, home, over } = await withLearner()
    for (const n of [-4, -3]) await over(n, 80)
    expect((await me.open(home)).words).not.toContain('Three well done')
    await over(-2, 80)
    await me.open(home)
    expect(me.words).toContain(`You could go up to “${levels[1]!.name}”`)
    expect(me.html).toMatch(new RegExp(`value="${level.id}" />\\s*<button class="go">Practise`))
    await over(-1, 80, { level: levels[1]!.id })
    await me.open(home)
    expect(me.html).toMatch(new RegExp(`value="${levels[1]!.id}" />\\s*<button class="go">Practise`))
  })

  it('lists the last three with ways to their debriefs; what is not worked out says so', async () => {
    const { me, home, over } = await withLearner()
    await over(-5, 100)
    const ids = [
      await over(-4, 100, { lostMinutes: 12 }),
      await over(-3, 60, { over: 'slip', slips: [knowledge.slips[0]!.id], score: 0 }),
      await over(-2, 20, { score: null, lostMinutes: null }),
    ]
    await me.open(home)
    const debriefs = [...me.html.matchAll(/href="\/practice\/exercises\/([a-z0-9-]+)\/debrief"/g)].map(
      ([, id]) => id,
    )
    expect(debriefs).toEqual([...ids].reverse())
    expect(me.words).toMatch(/: nearly .*being worked out, 2 days ago/)
    expect(me.words).toMatch(/: missed .*stopped by a slip/)
    expect(me.words).toMatch(/: found and sure .*about 12 minutes lost, 4 days ago/)
  })
})

describe('the record', () => {
  it('of somebody new says what to do', async () => {
    const { me, home } = await withLearner()
    await me.open(`${home}/record`)
    expect(me.words).toContain('Nothing is finished yet.')
    expect(me.html).toContain(`class="go" href="${home}"`)
  })

  it('says all of it without decimals, ids or the scheduler’s own words', async () => {
    const { me, home, over } = await withLearner()
    for (let n = 1; n <= 20; n++) await over(-n * 2, (n * 30) % 110, { lostMinutes: n * 1.37 })
    await me.open(`${home}/record`)
    for (const heading of [
      'What you mix up most',
      'Where your points went',
      'Over time',
      'How sure, and how right',
      'What you know',
      'What comes back when',
    ])
      expect(me.html).toContain(heading)
    expect(me.words).not.toMatch(/\d[.,]\d/)
    for (const { id } of knowledge.causes)
      if (id.includes('-')) expect(` ${me.words} `).not.toContain(` ${id} `)
    // the four answers that people give about themselves in other uses of the scheduler
    expect(me.html).not.toMatch(/\b(again|hard|good|easy)\b/i)
    const drawings = me.html.match(/<svg [^>]*role="img" aria-label="[^"]{30,}"/g)
    expect(drawings!.length).toBeGreaterThanOrEqual(3)
    for (const drawing of drawings!) expect(drawing).not.toMatch(/aria-label="[^"]*\d\.\d/)
    expect(me.html).toMatch(/<a class="plain" href="\/practice\/lessons\/[a-z]+\/[^"]+for=/)
  })

  it('still reads when the rulebook has dropped a kind, a level and a cause', async () => {
    const { me, home, register, learner } = await withLearner()
    await keepOver(
      register,
      { learner: learner.id, kind: 'gone-kind', level: 'gone-level', suspects: ['gone-cause', 'x'] },
      { at: OPENED, causes: ['gone-cause'], spread: { points: { x: 50 }, other: 50 } },
    )
    await keepOver(
      register,
      { learner: learner.id, kind, level: 'gone-level', suspects: ['gone-cause', may[0]!] },
      { at: OPENED, causes: ['gone-cause'], spread: { points: { [may[0]!]: 50 }, other: 50 } },
    )
    for (const path of [home, `${home}/record`]) {
      await me.open(path)
      expect(me.status).toBe(200)
      expect(me.words).not.toMatch(/gone-(kind|level|cause)|undefined|NaN/)
    }
  })
})

it('an exercise that is played to its end stands in the last ones at once, and its minutes soon after', async () => {
  const { me, home, learner } = await withLearner()
  await me.post('/practice/exercises', { learner: learner.id, next: 'yes', level: level.id })
  const at = me.at
  await me.send(`${at}/points`, { move: 'ended/send-in', other: '100' })
  await me.open(home)
  expect(me.words).not.toContain('Go on with it')
  expect(me.html).toContain(`href="${at}/debrief"`)
  await me.open(`${at}/debrief`)
  await me.open(home)
  expect(me.words).toMatch(/: missed .*(nothing|minutes?) lost, today/)
  await me.open(`${home}/record`)
  expect(me.words).toContain('1 exercise finished.')
}, 60_000)

describe('nobody of that name', () => {
  it.each([
    '/practice/people/nobody',
    '/practice/people/nobody/record',
    '/practice/people/..%2f..',
    '/practice/people/%00',
  ])('%s', async (path) => {
    const me = new Visitor(shared.app)
    await me.open(path)
    expect(me.status).toBe(404)
    expect(me.html).not.toMatch(/at .*\.ts:/)
  })
})

it('a rulebook without levels has nothing to practise, and says so', async () => {
  const bench = await benchWith()
  open.push(bench)
  const me = new Visitor(bench.app)
  await me.post('/practice/people', { name: 'Ana', class: '' })
  expect(me.status).toBe(200)
  expect(me.words).toContain('The rulebook has no levels')
  expect(me.html).not.toContain('class="go"')
})
