/** The invented shop is one that the rulebook knows, and that has lived. */
import { expect, it } from 'vitest'
import { demoShop, putDemoShop } from '../../server/demo/demo-shop.js'
import { openStores } from '../../server/store/stores.js'
import { knowledge } from '../the-rulebook.js'

const ids = (list: readonly { readonly id: string }[]) => new Set(list.map(({ id }) => id))

it('names kinds, care and parts that there are', () => {
  const [kinds, care] = [ids(knowledge.kinds), ids(knowledge.care)]
  const parts = new Set(knowledge.fixes.flatMap((fix) => fix.parts.map(({ name }) => name)))
  expect(demoShop.tools.filter(({ kind }) => !kinds.has(kind))).toEqual([])
  expect(demoShop.parts.flatMap(({ details }) => details.care).filter((id) => !care.has(id))).toEqual([])
  expect(
    demoShop.parts.filter(({ details }) => details.is.length > 0 && !details.is.some((it) => parts.has(it))),
  ).toEqual([])
  expect(care).toContain(demoShop.leftUndone.task)
})

it('is put there whole: every tool of every kind, parts counted, and one tool left undone for months', async () => {
  let made = 0
  const stores = await openStores({
    file: ':memory:',
    newId: () => `id${++made}`,
    newKey: () => `key${++made}`,
  })
  const now = new Date('2026-03-02T09:00:00.000Z')
  await putDemoShop(stores, knowledge, 'Europe/London', now)
  const tools = await stores.tools.list()
  expect(tools).toHaveLength(12)
  expect((await stores.parts.list()).map(({ stock }) => stock).sort()).toEqual(
    demoShop.parts.map(({ stock }) => stock).sort(),
  )
  const { tool, task, days } = demoShop.leftUndone
  const done = async (name: string) => {
    const { id } = tools.find((it) => it.name === name)!
    return (await stores.care.lastDone()).get(id)?.get(task) ?? ''
  }
  const limit = new Date(now.getTime() - (days - 1) * 86_400_000).toISOString().slice(0, 10)
  expect((await done(tool)) < limit).toBe(true)
  expect((await done('Chair 3')) > limit).toBe(true)
})
