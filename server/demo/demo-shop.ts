/** The invented shop's own: twelve tools, a year of care, what lies on the shelf. Told relative to the hour of the start. */
import { readFileSync } from 'node:fs'
import { z } from 'zod'
import type { Knowledge } from '../../shared/knowledge.js'
import { PartDetails } from '../../shared/part.js'
import { Tool } from '../../shared/tool.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { CareLog } from '../care/care-log.js'
import { dayIn, dueAfter, plusDays, rhythmOf } from '../care/rhythm.js'
import type { CaseStore } from '../cases/case-store.js'
import type { PartShelf } from '../parts/part-shelf.js'
import type { ToolBook } from '../tools/tool-book.js'

interface DemoStores {
  readonly cases: CaseStore
  readonly tools: ToolBook
  readonly care: CareLog
  readonly parts: PartShelf
}

const DemoShop = z.strictObject({
  tools: z.array(Tool.pick({ name: true, kind: true, place: true, details: true })),
  parts: z.array(z.strictObject({ name: z.string(), stock: z.int().min(0), details: PartDetails })),
  /** left undone of late, so that the diagnosis has something to say */
  leftUndone: z.strictObject({ tool: z.string(), task: z.string(), days: z.int() }),
})
/** Every id in it is one of the rulebook, a test holds. */
export const demoShop = DemoShop.parse(
  JSON.parse(readFileSync(new URL('demo-shop.json', import.meta.url), 'utf8')),
)

const lived = 365

/** Puts tools, care and parts into the stores, and ties the cases that are there to their tools. */
export async function putDemoShop(
  stores: DemoStores,
  knowledge: Knowledge,
  zone: string,
  now: Date,
): Promise<void> {
  const start = new Date(now.getTime() - lived * 86_400_000)
  const tools = await stores.tools.add(demoShop.tools, start.toISOString())
  for (const { id, tool: name, kind } of await stores.cases.list()) {
    const owner = tools.find((it) => it.name === name && it.kind === kind)
    if (owner) await stores.tools.tie(id, owner.id)
  }
  await putCare(stores.care, knowledge, tools, zone, dayIn(zone, now.toISOString()))
  for (const { stock, ...part } of demoShop.parts) {
    const { id } = await stores.parts.add(part)
    const move = { key: id, partId: id, change: stock, why: { for: 'counted' } as const }
    await stores.parts.move(`demo-${id}`, [move], start.toISOString())
  }
}

/** A year in which care was mostly done on the day it was due or a little later, by the one who was there. */
async function putCare(
  care: CareLog,
  knowledge: Knowledge,
  tools: readonly Tool[],
  zone: string,
  today: string,
): Promise<void> {
  const { leftUndone } = demoShop
  const people = ['Ana', 'Ben', 'Caro']
  const kept = tools.filter(({ place }) => place !== 'retired')
  const first = plusDays(today, -lived)
  const jobs = kept.flatMap((it, t) =>
    bookOf(knowledge, it.kind).care.flatMap(({ id: task, everyDays }, c) => {
      if (everyDays === undefined) return []
      const grid = { rhythm: rhythmOf(everyDays), anchor: '2024-01-01', zone }
      return [
        { it, task, grid, late: (t * 7 + c * 5) % 3, due: everyDays > 150 ? plusDays(first, 9 * c) : first },
      ]
    }),
  )
  const wet = knowledge.care.find((it) => it.disinfects)?.id
  for (let ago = lived - 1; ago >= 1; ago--) {
    const day = plusDays(today, -ago)
    // closed on Sundays
    if (new Date(`${day}T12:00:00Z`).getUTCDay() === 0) continue
    const done: { toolId: string; task: string; day: string }[] = []
    for (const job of jobs) {
      const { it, task, grid, late, due } = job
      if (day < plusDays(due, grid.rhythm.every === 'days' ? 0 : late)) continue
      if (it.name === leftUndone.tool && task === leftUndone.task && ago < leftUndone.days) continue
      done.push({ toolId: it.id, task, day })
      job.due = dueAfter(grid, day)
    }
    const who = people[ago % people.length]!
    const at = `${day}T18:30:00.000Z`
    await care.log(`demo-${day}`, done, { who, at })
    if (wet === undefined || ago > 30 || ago % 6 === 0) continue
    const disinfected = kept.slice(0, 4).map(({ id }) => ({ toolId: id, task: wet, day }))
    const details = { product: 'Blade wash, as labelled', contactMinutes: 10 }
    await care.log(`demo-wet-${day}`, disinfected, { who, at, details })
  }
}
