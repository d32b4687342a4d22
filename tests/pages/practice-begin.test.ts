/** Beginning an exercise, and the points that are spread in it, through their pages. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { OPENED } from '../api/bench.js'
import type { Classroom } from './practice-classroom.js'
import { KIND, LEVEL, addressOf, knowledge, make, openClassroom, shown } from './practice-classroom.js'

let { bench, learner, ofClass, begun, stored, visitor } = {} as Classroom

beforeAll(async () => {
  ;({ bench, learner, ofClass, begun, stored, visitor } = await openClassroom())
})
afterAll(() => bench.close())

describe('beginning', () => {
  const begin = async (fields: Record<string, string>) => {
    const it = visitor()
    await it.post('/practice/exercises', fields)
    return it
  }
  const latest = async () => (await bench.register.exercises({ learner })).map(({ id }) => id)

  it('puts the same set exercise in front of everybody, once each', async () => {
    const other = (await bench.register.addLearner({ name: 'Ben', class: ofClass, at: OPENED })).id
    const set = await bench.register.addSetExercise({
      class: ofClass,
      kind: KIND,
      level: LEVEL,
      seed: 77,
      setting: { ...shown, complaint: 'It eats the neck hair' },
      at: OPENED,
    })
    const one = await begin({ learner, set: set.id })
    const two = await begin({ learner: other, set: set.id })
    const again = await begin({ learner, set: set.id })
    expect(again.at).toBe(one.at)
    expect(two.at).not.toBe(one.at)
    expect(one.words).toContain('“It eats the neck hair”')
    const bare = (html: string) => html.replaceAll(/key\d+/g, '…').replaceAll(/Ana|Ben/g, '…')
    expect(bare(two.html)).toBe(bare(one.html))
  })

  it('asks who practises, and carries the lesson on', async () => {
    const it = await begin({ lesson: `parts/${KIND}/brushes`, kind: KIND })
    expect(it.at).toBe(
      `/practice?${new URLSearchParams({ lesson: `parts/${KIND}/brushes`, kind: KIND }).toString()}`,
    )
  })

  it('takes a tool after a lesson that has a trouble of that lesson', async () => {
    const { at } = await begin({ learner, lesson: `parts/${KIND}/brushes`, kind: KIND })
    const exercise = await bench.register.exercise(at.split('/').at(-1)!)
    const about = knowledge.causes.find(({ id }) => id === exercise.setting.about)
    expect(about?.part).toBe('brushes')
  })

  it('takes what is due next, within the level', async () => {
    const { at } = await begin({ learner, next: 'yes', level: LEVEL })
    const { setting, kind } = await bench.register.exercise(at.split('/').at(-1)!)
    expect(kind).toBe(KIND)
    expect(setting.about).toBeDefined()
  })

  it.each([
    [{ level: 'no-such-level' }, 'no such level'],
    [{ level: LEVEL, kind: 'rotary-cordless' }, 'no tools of that kind'],
    [{ level: LEVEL, kind: 'no-such-kind' }, 'no such kind'],
    [{ lesson: 'parts/nothing/here' }, 'no exercise to this lesson'],
    [{ level: '../../etc' }, 'something that is not here'],
    [{}, 'Say what to practise'],
  ])('tells in words what cannot be begun: %o', async (fields, words) => {
    const before = await latest()
    const it = await begin({ learner, ...fields } as Record<string, string>)
    expect(it.status).toBe(422)
    expect(it.words).toContain(words)
    expect(await latest()).toEqual(before)
  })

  it('keeps one class’s exercise from another’s people', async () => {
    const elsewhere = (await bench.register.addClass({ name: 'Evenings', at: OPENED })).id
    const set = await bench.register.addSetExercise({
      class: elsewhere,
      kind: KIND,
      level: LEVEL,
      seed: 5,
      setting: shown,
      at: OPENED,
    })
    const it = await begin({ learner, set: set.id })
    expect(it.status).toBe(422)
    expect(it.words).toContain('another class')
    expect((await begin({ learner: 'nobody-here', level: LEVEL })).status).toBe(404)
    expect((await begin({ learner, set: 'nothing-set' })).status).toBe(404)
  })
})

describe('points', () => {
  it('are asked for before the first repair, which is made right after', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(home)
    await make(it, home, 'stood/plug-out')
    await make(it, home, 'tried/clear-vents')
    expect(it.at).toBe(`${home}/points?move=tried%2Fclear-vents`)
    expect(it.words).toContain('Before “Brush out filter and vents”')
    await it.send(`${home}/points`, {
      move: it.field('move')!,
      'p-blocked-vents': '60',
      'p-dry-bearing': '30',
      other: '10',
    })
    const { moves } = await stored(exercise)
    expect(moves.map(({ type }) => type)).toEqual(['stood', 'spread', 'tried'])
    expect(moves[1]).toEqual({
      type: 'spread',
      spread: { points: { 'blocked-vents': 60, 'dry-bearing': 30 }, other: 10 },
    })
    expect(it.words).toMatch(/It runs as it should|The trouble goes on/)
    // from now on they stand
    expect((await it.open(`${home}/points`)).at).toBe(`${home}#last`)
    expect(it.words).toContain('Your suspects stand: Blocked vents or filter, likely (60 of 100)')
  })

  it('are asked for before sending in, and neither before setting aside nor before handing back', async () => {
    const sent = addressOf(await begun())
    const it = await visitor().open(sent)
    await make(it, sent, 'ended/send-in')
    expect(it.at).toContain('/points')
    for (const way of ['set-aside', 'hand-back']) {
      const home = addressOf(await begun())
      await it.open(home)
      await make(it, home, `ended/${way}`)
      expect(it.at).toBe(`${home}/debrief`)
    }
  })

  it.each([
    [{ 'p-dry-blade': '60', other: '30' }, '90 given, 10 left'],
    [{ 'p-dry-blade': '60', other: '60' }, '120 given, 20 too many'],
    [{ 'p-dry-blade': '55', other: '45' }, 'steps of 10'],
    [{ 'p-no-such-cause': '50', other: '50' }, 'not in the rulebook'],
    [{}, '0 given, 100 left'],
  ])('that do not come to 100 in tens are told, and nothing is stored: %o', async (fields, words) => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(`${home}/points?move=tried/clear-vents`)
    await it.send(`${home}/points`, { move: 'tried/clear-vents', ...(fields as Record<string, string>) })
    expect(it.status).toBe(422)
    expect(it.words).toContain(words)
    expect(it.field('move')).toBe('tried/clear-vents')
    expect((await stored(exercise)).moves).toEqual([])
  })

  it('are remembered, and changed as often as one likes', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(`${home}/points`)
    for (const sure of ['nearly-sure', 'likely']) {
      await it.send(`${home}/points`, { 'pick-1': 'dry-blade', 'sure-1': sure })
      await it.open(`${home}/points`)
      expect(it.html).toMatch(/id="pick-1"[\s\S]*?value="dry-blade" selected/)
      expect(it.html).toMatch(new RegExp(`name="sure-1" value="${sure}" checked`))
    }
    // two likely ones share what one may have at most: common practice, no source
    await it.send(`${home}/points`, {
      'pick-1': 'dry-blade',
      'sure-1': 'likely',
      'pick-2': 'blocked-vents',
      'sure-2': 'likely',
    })
    const { moves } = await stored(exercise)
    expect(moves.at(-1)).toEqual({
      type: 'spread',
      spread: { points: { 'dry-blade': 50, 'blocked-vents': 40 }, other: 10 },
    })
  })

  it('stand by the parts of the tool, the names in their order, never by how likely they are', async () => {
    const home = addressOf(await begun({ level: 'own-chair' }))
    const it = await visitor().open(`${home}/points`)
    const list = it.html.split('id="pick-1"')[1]!.split('</select>')[0]!
    const fields = [...list.matchAll(/<option value="([a-z-]+)"/g)].map(([, id]) => id!)
    const parts = knowledge.kinds.find(({ id }) => id === KIND)!.parts.map(({ id }) => id)
    const own = knowledge.causes.filter(({ shares }) => shares[KIND] !== undefined)
    const expected = parts.flatMap((part) =>
      own
        .filter((cause) => cause.part === part)
        .sort((a, b) => a.name.localeCompare(b.name, 'en'))
        .map(({ id }) => id),
    )
    expect(fields).toEqual(expected)
  })
})
