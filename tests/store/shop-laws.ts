/** How tools, care, parts, people and figures are kept, whatever they stand on. */
import { afterEach, beforeEach, expect, it } from 'vitest'
import { BadRequest, NotFound, StaleShop } from '../../server/errors.js'
import { as } from '../../server/store/acting.js'
import type { Stores } from '../../server/store/stores.js'
import { usualRecord } from '../../shared/figures.js'
import { counting } from '../register/open-register.js'
import type { Ground, NewGround } from './grounds.js'

const at = (minute: number) => new Date(Date.UTC(2026, 2, 2, 9, minute)).toISOString()
const day = '2026-03-02'
const details = { supplierDays: 7, is: [], perUse: 1, care: [] }

export function shopLaws(newGround: NewGround): void {
  let ground: Ground
  let stores: Stores
  beforeEach(async () => {
    ground = await newGround()
    stores = await ground.open(counting())
  })
  afterEach(async () => {
    await stores.close()
    await ground.end()
  })
  const addTools = (...names: string[]) =>
    stores.tools.add(
      names.map((name) => ({ name, kind: 'bench-motor', place: 'in-use' as const, details: {} })),
      at(0),
    )

  it('tools keep name, place, moves, photo and cases; what hangs on one goes with it', async () => {
    const { tools, cases, care } = stores
    const [one, two] = await addTools('Chair 10', 'Chair 9')
    expect((await tools.list()).map(({ name }) => name)).toEqual(['Chair 9', 'Chair 10'])
    await tools.change(one!.id, { place: 'away' }, at(1))
    await tools.change(one!.id, { place: 'in-use' }, at(1))
    expect(await tools.moves(one!.id)).toEqual([
      { place: 'in-use', at: at(0) },
      { place: 'in-use', at: at(1) },
    ])
    expect((await tools.allMoves()).get(one!.id)).toEqual(await tools.moves(one!.id))
    const bench = await cases.begin({ kind: 'bench-motor', tool: 'Chair 10', at: at(2) })
    await tools.tie(bench.id, two!.id)
    await tools.tie(bench.id, one!.id)
    expect(await tools.ofCase(bench.id)).toMatchObject({ id: one!.id, name: 'Chair 10' })
    expect([await tools.casesOf(one!.id), await tools.casesOf(two!.id)]).toEqual([[bench.id], []])
    const photo = Buffer.from([0xff, 0xd8, 0, 1, 2])
    await tools.keepPhoto(one!.id, photo)
    expect(await tools.photo(one!.id)).toEqual(photo)
    await care.log('b1', [{ toolId: one!.id, task: 'oil', day }], { who: 'Ada', at: at(3) })
    await tools.remove(one!.id)
    expect([await tools.photo(one!.id), await tools.ofCase(bench.id), await care.lastDone()]).toEqual([
      null,
      null,
      new Map(),
    ])
    await expect(tools.get(one!.id)).rejects.toThrow(NotFound)
  })

  it('care is logged once, told by task and day, paged, and taken back', async () => {
    const { care } = stores
    const [one] = await addTools('Chair 1')
    const done = (task: string, of = day) => [{ toolId: one!.id, task, day: of }]
    const told = { who: 'Ada', at: at(1), details: { product: 'spray' } }
    await care.log('b1', done('oil'), told)
    await care.log('b1', done('oil'), told)
    await care.log('b2', done('oil', '2026-02-27'), { ...told, at: at(2) })
    await care.log('b3', done('brush'), { ...told, at: at(3) })
    expect(await care.daysDone(one!.id, '2026-01-01')).toEqual(
      new Map([
        ['brush', [day]],
        ['oil', ['2026-02-27', day]],
      ]),
    )
    expect(await care.daysDone(one!.id, '2026-03-01')).toEqual(
      new Map([
        ['brush', [day]],
        ['oil', [day]],
      ]),
    )
    expect((await care.lastDone()).get(one!.id)).toEqual(
      new Map([
        ['brush', day],
        ['oil', day],
      ]),
    )
    const [latest] = await care.history({ most: 1 })
    const rest = await care.history({ before: { at: latest!.at, id: latest!.id }, most: 9 })
    expect([latest!.batch, ...rest.map(({ batch }) => batch)]).toEqual(['b3', 'b2', 'b1'])
    expect(rest[1]).toMatchObject({ who: 'Ada', day, details: { product: 'spray' } })
    expect([await care.undo('b1', at(4)), await care.undo('b1', at(5))]).toEqual([1, 0])
    expect((await care.lastDone(one!.id)).get(one!.id)?.get('oil')).toBe('2026-02-27')
    await expect(
      care.log('b9', [{ toolId: 'gone', task: 'oil', day }], { who: '', at: at(1) }),
    ).rejects.toThrow(NotFound)
  })

  it('parts are taken as far as they are there, by one of two hands only, and put back', async () => {
    const other = await ground.open(counting(500))
    const { parts } = stores
    const { id } = await parts.add({
      name: 'Brush set',
      details: { supplierDays: 3, is: [], perUse: 1, care: [] },
    })
    const buy = { for: 'counted' as const }
    await parts.move('in', [{ key: 'a', partId: id, change: 3, why: buy }], at(0))
    const take = (shelf: typeof parts, batch: string) =>
      shelf.move(batch, [{ key: 'a', partId: id, change: -2, why: buy }], at(1))
    const short = await Promise.all([take(parts, 'x'), take(other.parts, 'y')])
    expect(short.map((all) => all.length).sort()).toEqual([0, 1])
    expect((await parts.get(id)).stock).toBe(0)
    await take(parts, 'x')
    expect((await parts.movesOf(['in', 'x', 'y'])).map(({ batch }) => batch).sort()).toEqual(['in', 'x', 'y'])
    expect(await parts.movesOf([])).toEqual([])
    expect(await parts.undo('x', at(2))).toBe(1)
    expect((await other.parts.list())[0]!.stock).toBeGreaterThan(0)
    await other.close()
  })

  it('the figures of two hands at once: the second is told', async () => {
    const other = await ground.open(counting(500))
    const kept = await Promise.allSettled(
      [stores, other].map(({ cases }) => cases.keepShop({ ...usualRecord, figures: { minute: 2 } }, 0)),
    )
    expect(kept.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected'])
    await expect(stores.cases.keepShop(usualRecord, 0)).rejects.toThrow(StaleShop)
    expect(await other.cases.shop()).toMatchObject({ version: 1, record: { figures: { minute: 2 } } })
    await stores.care.keepHabits({ zone: 'Europe/Paris', everyDays: {}, calendarKey: null, learns: true })
    expect(await other.care.habits()).toMatchObject({ zone: 'Europe/Paris' })
    await other.close()
  })

  it('each write says who, under the name that they have now; a merge keeps it, a removal says somebody', async () => {
    const { tools, parts, care, cases, people, written } = stores
    const ada = await people.add({ name: 'Ada', role: 'lead', at: at(0) })
    const twice = await people.add({ name: 'Aba', role: 'barber', at: at(0) })
    const [one] = await addTools('Chair 1')
    const oil = await as(twice.id, async () => {
      await tools.change(one!.id, { place: 'away' }, at(1))
      const made = await parts.add({ name: 'Oil', details })
      await parts.move('m1', [{ key: 'k', partId: made.id, change: 3, why: { for: 'bought' } }], at(1))
      await parts.undo('m1', at(2))
      await care.log('b1', [{ toolId: one!.id, task: 'oil', day }], { who: '', at: at(1) })
      await cases.keepShop({ ...usualRecord, figures: { minute: 90 } }, 0)
      return made.id
    })
    const of = async (...about: Parameters<typeof written.about>) =>
      (await written.about(...about)).map(({ did, by }) => [did, by])
    const history = async () => (await care.history({ most: 5 })).map(({ who }) => who)
    expect(await of('tool', one!.id, 9)).toEqual([
      ['place away', 'Aba'],
      ['added', null],
    ])
    expect(await of('part', oil, 9)).toEqual([
      ['stock -3', 'Aba'],
      ['stock 3', 'Aba'],
      ['added', 'Aba'],
    ])
    expect([await of('figures', '', 9), await history()]).toEqual([[['changed minute', 'Aba']], ['Aba']])
    await people.merge(twice.id, ada.id)
    await people.change(ada.id, { name: 'Ada of the front', role: 'lead' })
    expect([await of('part', oil, 1), await history()]).toEqual([
      [['stock -3', 'Ada of the front']],
      ['Ada of the front'],
    ])
    const lead = await people.add({ name: 'Eve', role: 'lead', at: at(0) })
    await people.remove(ada.id)
    expect(await of('part', oil, 1)).toEqual([['stock -3', null]])
    // somebody who is gone, and nobody who was ever named, are two things
    await care.log('b2', [{ toolId: one!.id, task: 'blade', day }], { who: '', at: at(2) })
    expect(await history()).toEqual(['', null])
    // what was refused is not written
    await expect(as(lead.id, () => cases.keepShop(usualRecord, 0))).rejects.toThrow(StaleShop)
    expect(await of('figures', '', 9)).toEqual([['changed minute', null]])
  })

  it('each write of a class, what is set for it and its lessons says who, once, and nothing that was refused', async () => {
    const { register, people, written } = stores
    const { id: ada } = await people.add({ name: 'Ada', role: 'lead', at: at(0) })
    const of = async (id: string) => (await written.about('class', id, 20)).map(({ did, by }) => [did, by])
    const [evening, morning, ann, set] = await as(ada, async () => {
      const [one, two] = [
        await register.addClass({ name: 'Evening', at: at(0) }),
        await register.addClass({ name: 'Morning', at: at(0) }),
      ]
      const learner = await register.addLearner({ name: 'Ann', class: one.id, at: at(1) })
      await expect(register.addLearner({ name: 'ANN', class: one.id, at: at(1) })).rejects.toThrow(BadRequest)
      await register.changeLearner(learner.id, { name: 'Anna', class: one.id })
      await register.changeLearner(learner.id, { name: 'Anna', class: one.id })
      const tool = {
        kind: 'bench-motor',
        level: 'first',
        setting: { hideSuspects: false, hidePrices: false },
      }
      const made = await register.addSetExercise({ ...tool, class: one.id, seed: 1, at: at(2) })
      await register.closeSetExercise(made.id, at(3))
      await register.closeSetExercise(made.id, at(4))
      await register.removeSetExercise(made.id)
      const lesson = await register.startLesson({
        class: one.id,
        startedAt: at(5),
        kind: tool.kind,
        level: tool.level,
        parts: [{ id: 'brief', at: at(5) }],
      })
      const on = { ...lesson, parts: [...lesson.parts, { id: 'over' as const, at: at(6) }] }
      await register.moveLesson(on, lesson)
      await expect(register.moveLesson(on, lesson)).rejects.toThrow()
      await register.changeLearner(learner.id, { name: 'Anna', class: two.id })
      return [one.id, two.id, learner.id, made.id]
    })
    const did = ['added', `joined ${ann}`, `renamed ${ann}`, `set ${set}`, `closed ${set}`, `unset ${set}`]
    const taught = ['lesson brief', 'lesson over', `left ${ann}`]
    expect(await of(evening!)).toEqual([...did, ...taught].reverse().map((it) => [it, 'Ada']))
    await register.changeLearner(ann!, { name: 'Ann', class: morning! })
    await as(ada, () => register.removeClass(morning!))
    expect(await of(morning!)).toEqual([
      ['removed Morning', 'Ada'],
      [`renamed ${ann}`, null],
      [`joined ${ann}`, 'Ada'],
      ['added', 'Ada'],
    ])
    expect((await stores.written.removed('class', 5)).map(({ did, by }) => [did, by])).toEqual([
      ['removed Morning', 'Ada'],
    ])
  })

  it('a phone that joined a class has its pass in any of the programs, until it is over', async () => {
    const other = await ground.open(counting())
    await stores.people.givePass('k'.repeat(32), ['ann1'], at(0), at(9))
    expect(await other.people.passOf('k'.repeat(32), at(8))).toEqual(['ann1'])
    expect(await other.people.passOf('k'.repeat(32), at(9))).toBeUndefined()
    expect(await other.people.passOf('j'.repeat(32), at(1))).toBeUndefined()
    await other.close()
  })

  it('people sign in on any of the programs, by a link once, and are nobody once they are removed', async () => {
    const other = await ground.open(counting(500))
    const { people, cases } = stores
    const ada = await people.add({ name: 'Ada', role: 'lead', at: at(0) })
    const ben = await other.people.add({ name: 'Ben', role: 'lead', at: at(0) })
    await expect(other.people.add({ name: ' ADA', role: 'barber', at: at(0) })).rejects.toThrow(BadRequest)
    await people.makeLink('code', ben.id, at(30))
    expect([await other.people.linkOf('code', at(1)), await people.linkOf('code', at(31))]).toEqual([
      ben.id,
      undefined,
    ])
    expect(await Promise.all([people.useLink('code'), other.people.useLink('code')])).toContain(false)
    await people.signIn(ben.id, 'key', at(1))
    expect(await other.people.signedIn('key', at(2), at(0))).toEqual(ben)
    const bench = await cases.begin({ kind: 'bench-motor', tool: '', at: at(1) })
    await as(ben.id, () => cases.append(bench.id, { type: 'reopened' }, at(2)))
    const by = async () => (await stores.exports.rows('case_event')).map((row) => row['by_person'])
    expect(await by()).toEqual([ben.id])
    // written twice: what was said under either is one person's
    const again = await people.add({ name: 'Benn', role: 'barber', at: at(3) })
    await as(again.id, () => cases.append(bench.id, { type: 'reopened' }, at(4)))
    await other.people.merge(again.id, ben.id)
    expect(await by()).toEqual([ben.id, ben.id])
    await expect(people.merge(again.id, ben.id)).rejects.toThrow(NotFound)
    await expect(people.merge(ben.id, 'nobody')).rejects.toThrow(NotFound)
    // each takes the other's place away at the same moment: one lead stays
    const removed = await Promise.allSettled([people.remove(ben.id), other.people.remove(ada.id)])
    expect(removed.filter(({ status }) => status === 'fulfilled')).toHaveLength(1)
    expect(await people.people()).toHaveLength(1)
    await other.close()
  })

  it('everything is handed out but what signs people in', async () => {
    await stores.people.keepPassphrase(
      (await stores.people.add({ name: 'Ada', role: 'lead', at: at(0) })).id,
      'scrypt secret',
    )
    const tables = await stores.exports.tables()
    expect(tables).toEqual([...tables].sort())
    expect(tables).toContain('case_event')
    expect(tables.filter((name) => /kysely|session|^door|habits/.test(name))).toEqual([])
    expect(JSON.stringify(await stores.exports.rows('person'))).not.toContain('secret')
  })
}
