/** How cases are kept, listed and handed out, whatever they stand on. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { CaseEvent } from '../../shared/case.js'
import { newCaseId } from '../../server/cases/case-id.js'
import type { CaseStore } from '../../server/cases/case-store.js'
import { casesOfToday } from '../../server/cases/moved-ids.js'
import { BadRequest, CaseNotFound, StaleForm, UnreadableCase } from '../../server/errors.js'
import type { Stores } from '../../server/store/stores.js'
import type { Ground, NewGround } from './grounds.js'

const at = (minute: number) => new Date(Date.UTC(2026, 2, 2, 9, minute)).toISOString()
const hot = {
  type: 'answered',
  step: 'how-it-runs',
  answers: { hot: 'yes' },
  when: 'now',
} satisfies CaseEvent
const finished: CaseEvent = { type: 'finished', state: 'boxed-for-service' }
const reopened: CaseEvent = { type: 'reopened' }

export function caseLaws(newGround: NewGround): void {
  let ground: Ground
  let stores: Stores
  let store: CaseStore
  let ids: string[]

  const open = async () => {
    stores = await ground.open(() => ids.shift() ?? newCaseId())
    store = stores.cases
  }
  beforeEach(async () => {
    ground = await newGround()
    ids = ['one', 'two', 'three']
    await open()
  })
  afterEach(async () => {
    await stores.close()
    await ground.end()
  })

  const begin = (tool = 'Chair 2', minute = 0) => store.begin({ kind: 'bench-motor', tool, at: at(minute) })

  describe('a stored case', () => {
    it('begins without events', async () => {
      const begun = await begin()
      expect(begun).toEqual({
        id: 'one',
        kind: 'bench-motor',
        tool: 'Chair 2',
        begunAt: at(0),
        changedAt: at(0),
        events: [],
      })
      expect(await store.get('one')).toEqual(begun)
    })
    it('takes another id when one is taken', async () => {
      ids = ['one', 'one', 'one', 'two']
      expect([(await begin()).id, (await begin()).id]).toEqual(['one', 'two'])
    })
    it('keeps its events in the order in which they came, over a restart', async () => {
      const { id } = await begin()
      await store.append(id, hot, at(1))
      await store.append(id, [finished, reopened], at(7))
      await stores.close()
      await open()
      expect(await store.get(id)).toMatchObject({
        events: [hot, finished, reopened],
        begunAt: at(0),
        changedAt: at(7),
      })
    })
    it.each(["Robert'); DROP TABLE bench_case;--", '<script>alert(1)</script>', 'Chair \u0000 2 💈', '"\\'])(
      'keeps the name %j as it is',
      async (tool) => {
        const { id } = await begin(tool)
        expect((await store.get(id)).tool).toBe(tool)
        expect(await store.list()).toHaveLength(1)
      },
    )
    it('is not there under another id', async () => {
      await expect(store.get('nine')).rejects.toThrow(CaseNotFound)
      await expect(store.append('nine', hot, at(1))).rejects.toThrow(CaseNotFound)
      await expect(store.get("' OR 1=1 --")).rejects.toThrow(CaseNotFound)
    })
    it('takes no event that is none, and then keeps nothing of it', async () => {
      const { id } = await begin()
      const wrong = { ...hot, colour: 'red' } as unknown as CaseEvent
      await expect(store.append(id, [finished, wrong], at(1))).rejects.toThrow(/colour/)
      expect(await store.get(id)).toMatchObject({ events: [], changedAt: at(0) })
    })
    it('says which event cannot be read back, rather than leave it out', async () => {
      const { id } = await begin()
      await store.append(id, hot, at(1))
      await ground.raw(`update case_event set event = '{"type":"sung"}'`)
      await expect(store.get(id)).rejects.toThrow(UnreadableCase)
      await expect(store.get(id)).rejects.toThrow(`Entry 1 of case "${id}"`)
      // and hides no other case
      await begin('Chair 3', 2)
      expect((await store.list()).map(({ tool }) => tool)).toEqual(['Chair 3', 'Chair 2'])
    })
  })

  describe('a form filled in on an old page', () => {
    it('is refused and changes nothing', async () => {
      const { id } = await begin()
      await store.append(id, hot, at(1), 0)
      await expect(store.append(id, finished, at(2), 0)).rejects.toThrow(StaleForm)
      expect(await store.get(id)).toMatchObject({ events: [hot], changedAt: at(1) })
    })
    it('wins once only when it is sent twice at the same moment', async () => {
      const { id } = await begin()
      const sent = await Promise.allSettled(
        [1, 2, 3, 4].map((minute) => store.append(id, hot, at(minute), 0)),
      )
      expect(sent.map(({ status }) => status).sort()).toEqual([
        'fulfilled',
        'rejected',
        'rejected',
        'rejected',
      ])
      expect((await store.get(id)).events).toHaveLength(1)
    })
  })

  describe('the list', () => {
    it('tells open from finished, lately changed first, with the words of the complaint', async () => {
      await begin('first', 0)
      await begin('second', 1)
      await begin('third', 2)
      await store.append('one', { ...hot, words: 'runs hot' }, at(5))
      await store.append('two', finished, at(6))
      await store.append('three', finished, at(3))
      await store.append('three', reopened, at(4))
      const brief = async (filter?: { open?: boolean; most?: number }) =>
        (await store.list(filter)).map(({ id, state, words }) => [id, state, words])
      expect(await brief()).toEqual([
        ['two', 'boxed-for-service', null],
        ['one', 'on-the-bench', 'runs hot'],
        ['three', 'on-the-bench', null],
      ])
      expect(await brief({ open: true, most: 1 })).toEqual([['one', 'on-the-bench', 'runs hot']])
      expect(await brief({ open: false })).toEqual([['two', 'boxed-for-service', null]])
    })
  })

  it('reads a list of many in pages, tells what was only begun, and finds a tool by name and complaint', async () => {
    ids = Array.from({ length: 40 }, (_, k) => `case-${k}`)
    await begin('The real one', 0)
    await store.append('case-0', { ...hot, words: 'Läuft HEISS' }, at(1))
    for (let k = 1; k < 25; k++) await begin(`Slip ${k}`, k)
    const pages = await Promise.all([0, 10, 20].map((skip) => store.list({ most: 10, skip })))
    expect(pages.map((page) => page.length)).toEqual([10, 10, 5])
    expect(new Set(pages.flat().map(({ id }) => id)).size).toBe(25)
    expect(await store.count()).toBe(25)
    expect((await store.list({ said: true })).map(({ id }) => id)).toEqual(['case-0'])
    expect(await store.count({ said: false })).toBe(24)
    expect(await store.list({ find: 'SLIP 2' })).toHaveLength(6)
    expect((await store.list({ find: 'läuft heiss' })).map(({ id }) => id)).toEqual(['case-0'])
    for (const find of ['%', '_', '\\', "' or 1=1"]) expect(await store.count({ find })).toBe(0)
    await store.change('case-0', { tool: '100 % _ok_ \\' }, at(2))
    for (const find of ['%', '_ok', '\\']) expect(await store.count({ find })).toBe(1)
  })

  it('takes so many entries and no more, but for its end', async () => {
    const { id } = await begin()
    await store.append(
      id,
      Array.from({ length: 499 }, () => hot),
      at(1),
    )
    await store.append(id, hot, at(2))
    await expect(store.append(id, hot, at(3))).rejects.toThrow(BadRequest)
    expect((await store.get(id)).events).toHaveLength(500)
    expect((await store.append(id, finished, at(4))).events).toHaveLength(501)
    expect(await store.list({ open: false })).toHaveLength(1)
  })

  describe('ids that have moved', () => {
    it('are read as those of today, renames of renames included, and stay in the file as they were', async () => {
      const { id } = await begin()
      await store.append(id, [hot, { type: 'tried', fix: 'grease', outcome: 'no' }], at(1))
      const moved = {
        kinds: { 'bench-motor': 'corded-motor' },
        steps: { 'how-it-runs': 'running' },
        questions: { hot: 'warm', warm: 'too-hot' },
        fixes: { grease: 'regrease', regrease: 'grease' },
      }
      const today = casesOfToday(store, moved)
      expect(await today.get(id)).toMatchObject({
        kind: 'corded-motor',
        events: [{ step: 'running', answers: { 'too-hot': 'yes' } }, { fix: 'grease' }],
      })
      expect((await today.list())[0]).toMatchObject({ kind: 'corded-motor', words: null })
      expect((await store.get(id)).events[0]).toEqual(hot)
    })
    it('come as one object for each version of a case, so that what is computed from it is kept', async () => {
      const { id } = await begin()
      const moved = { kinds: { 'bench-motor': 'corded-motor' } }
      const first = await casesOfToday(store, moved).get(id)
      expect(await casesOfToday(store, moved).get(id)).toBe(first)
      await casesOfToday(store, moved).append(id, hot, at(1))
      expect((await casesOfToday(store, moved).get(id)).events).toEqual([hot])
    })
  })

  describe('a case that is remembered', () => {
    const said = (value: 'yes' | 'no'): CaseEvent => ({
      type: 'answered',
      step: 'complaint',
      when: 'now',
      answers: { hot: value },
    })
    let other: Stores
    let here: CaseStore
    let there: CaseStore
    beforeEach(async () => {
      other = await ground.open(newCaseId)
      here = store
      there = other.cases
      await begin()
    })
    afterEach(() => other.close())

    it('hands out one object until something is written', async () => {
      const first = await here.get('one')
      expect(await here.get('one')).toBe(first)
    })

    it('hands out a new one after a write of its own', async () => {
      const first = await here.get('one')
      await here.append('one', said('yes'), at(1))
      expect((await here.get('one')).events).toEqual([said('yes')])
      expect(first.events).toEqual([])
    })

    it('sees at once what another program has written to the file', async () => {
      await here.get('one')
      await there.append('one', said('yes'), at(1))
      expect((await here.get('one')).events).toEqual([said('yes')])
      await there.append('one', said('no'), at(1))
      expect((await here.get('one')).events).toHaveLength(2)
    })

    it('is never behind a write that has come back, however reads and writes overlap', async () => {
      for (let count = 1; count <= 20; count++) {
        const reads = [here.get('one'), here.get('one')]
        const write = here.append('one', said(count % 2 === 0 ? 'yes' : 'no'), at(1))
        reads.push(here.get('one'))
        await write
        expect((await here.get('one')).events).toHaveLength(count)
        await Promise.all(reads)
        expect((await here.get('one')).events).toHaveLength(count)
      }
    })

    it('still sees every write when it was refused one', async () => {
      await here.get('one')
      await there.append('one', said('yes'), at(1))
      await expect(here.append('one', said('no'), at(1), 0)).rejects.toThrow()
      expect((await here.get('one')).events).toEqual([said('yes')])
    })
  })
}
