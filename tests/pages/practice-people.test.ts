/** A learner's own start and the record, as they are served. */
import { describe, expect, it } from 'vitest'
import { benchWith, OPENED } from '../api/bench.js'
import { day } from '../practice/results.js'
import { keepOver } from './kept-exercises.js'
import { kind, knowledge, level, levels, may, none, practiceShops } from './practice-shop.js'
import { Visitor } from './visitor.js'

const { withLearner } = practiceShops()
const confusion = knowledge.confusions[0]!

describe('a learner’s own start', () => {
  it('of somebody new has one main act: a first one that shows the bench; it is on no record', async () => {
    const { me, home, learner, register } = await withLearner()
    await me.open(home)
    expect(me.heading).toMatch(/^Ana/)
    expect(me.words).toContain('A new one.')
    expect(me.html.match(/class="go"/g)).toHaveLength(1)
    expect(me.html).toMatch(
      new RegExp(
        `name="learner" value="${learner.id}" />\\s*<input type="hidden" name="level" value="${level.id}" />\\s*<button class="go" name="guided"`,
      ),
    )
    for (const it of levels) expect(me.words).toContain(it.says)
    expect(me.words).toContain('Nothing finished yet')
    await me.post('/practice/exercises', { learner: learner.id, level: level.id, guided: 'yes' })
    expect(me.words).toContain('A good next move:')
    const [shown] = await register.exercises({ learner: learner.id })
    await me.send(`/practice/exercises/${shown!.id}/moves`, { move: 'ended/set-aside' })
    await me.open(`${home}/record`)
    expect(me.words).not.toMatch(/1 exercise\b/)
    await me.open(home)
    expect(me.html).not.toContain('name="guided"')
    expect(me.html).toMatch(/<button class="go">Practise/)
  })

  it('a first one is the same harmless tool for everybody, and begins with the plug', async () => {
    const { me, learner, register } = await withLearner()
    const hint = () => /class="guide"[^]*?name="move" value="([^"]+)"/.exec(me.html)?.[1]
    for (const guided of ['yes', 'yes']) {
      await me.post('/practice/exercises', { learner: learner.id, level: level.id, guided })
      expect(hint()).toBe('stood/plug-out')
    }
    const [first, second] = await register.exercises({ learner: learner.id })
    expect(second!.seed).toBe(first!.seed)
    for (const move of ['stood/plug-out', 'looked/danger-signs'])
      await me.send(`/practice/exercises/${first!.id}/moves`, { move })
    // no danger sign: the way goes on to a fix
    expect(hint()).toMatch(/^(stood|looked|tried)/)
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
    const { me, home, register, ofClass } = await withLearner()
    const other = await register.addClass({ name: `Thursday beside ${ofClass.name}`, at: OPENED })
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
    expect(me.words).toMatch(/: not named .*stopped by a slip/)
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
  expect(me.words).toMatch(/: not named .*(nothing|minutes?) lost, today/)
  await me.open(`${home}/record`)
  expect(me.words).toContain('1 exercise finished.')
})

describe('nobody of that name', () => {
  it.each([
    '/practice/people/nobody',
    '/practice/people/nobody/record',
    '/practice/people/..%2f..',
    '/practice/people/%00',
  ])('%s', async (path) => {
    const { me } = await withLearner()
    await me.open(path)
    expect(me.status).toBe(404)
    expect(me.html).not.toMatch(/at .*\.ts:/)
  })
})

it('a rulebook without levels has nothing to practise, and says so', async () => {
  const bench = await benchWith()
  const me = new Visitor(bench.app)
  await me.post('/practice/people', { name: 'Ana', class: '' })
  expect(me.status).toBe(200)
  expect(me.words).toContain('The rulebook has no levels')
  expect(me.html).not.toContain('class="go"')
  await bench.close()
})
