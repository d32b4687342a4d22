/** The invented shop's own: twelve tools, a year of care, what lies on the shelf. Told relative to the hour of the start. */
import type { Knowledge } from '../../shared/knowledge.js'
import type { NewTool, Tool } from '../../shared/tool.js'
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

const corded = { volts: '220-240', hertz: '50', watts: 45 }
const tool = (
  name: string,
  kind: string,
  details: NewTool['details'],
  place: NewTool['place'] = 'in-use',
): NewTool => ({
  name,
  kind,
  place,
  details,
})
const demoTools: readonly NewTool[] = [
  tool('Chair 2, black', 'universal-motor', { ...corded, usedBy: 'Ana', clientsADay: 11, price: 18_900 }),
  tool('Chair 4, the heavy one', 'universal-motor', { ...corded, usedBy: 'Ben', clientsADay: 9 }),
  tool('Chair 3', 'universal-motor', { ...corded, usedBy: 'Ana', clientsADay: 10 }),
  tool('Chair 5, old faithful', 'universal-motor', { ...corded, usedBy: 'Caro', clientsADay: 8 }),
  tool('Spare from the drawer', 'universal-motor', corded, 'spare'),
  tool('Window chair', 'universal-motor', { ...corded, usedBy: 'Ben', clientsADay: 12 }),
  tool('Evening class, number 3', 'universal-motor', corded, 'away'),
  tool('Window chair, the loud one', 'magnetic-motor', {
    volts: '230',
    hertz: '50',
    watts: 10,
    usedBy: 'Ben',
  }),
  tool('Evening class, quiet one', 'pivot-motor', { volts: '230', hertz: '50', watts: 15 }),
  tool('Reception trimmer', 'rotary-corded', { usedBy: 'Caro', clientsADay: 4 }),
  tool('Chair 1, little trimmer', 'rotary-cordless', { usedBy: 'Ana', clientsADay: 9, price: 7900 }),
  tool('Chair 2, neck trimmer', 'brushless-cordless', { usedBy: 'Ana' }, 'retired'),
]

const demoParts = [
  {
    name: 'Brushes, a pair',
    stock: 2,
    shelf: 'drawer 3',
    price: 850,
    is: ['pair of brushes with springs', 'pair of brushes'],
  },
  { name: 'Drive lever', stock: 1, shelf: 'drawer 3', price: 620, is: ['drive lever'] },
  { name: 'Hinge with screws', stock: 0, shelf: 'drawer 4', price: 900, is: ['hinge with screws'] },
  {
    name: 'Blade oil, 100 ml',
    stock: 3,
    shelf: 'wash basin',
    price: 690,
    perUse: 0.0005,
    care: ['after-every-client'],
  },
  {
    name: 'Bearing oil, 20 ml',
    stock: 1,
    shelf: 'drawer 3',
    price: 480,
    perUse: 0.0025,
    care: ['monthly-ball-oiler'],
  },
  {
    name: 'Gear grease, a tube',
    stock: 1,
    shelf: 'drawer 3',
    price: 1100,
    perUse: 0.05,
    care: ['twice-yearly-grease'],
  },
] as const

const lived = 365
/** Left unoiled of late, so that the diagnosis has something to say. */
const unoiled = { tool: 'Chair 2, black', task: 'monthly-ball-oiler', days: 120 }

/** Puts tools, care and parts into the stores, and ties the cases that are there to their tools. */
export async function putDemoShop(
  stores: DemoStores,
  knowledge: Knowledge,
  zone: string,
  now: Date,
): Promise<void> {
  const start = new Date(now.getTime() - lived * 86_400_000)
  const tools = await stores.tools.add(demoTools, start.toISOString())
  for (const { id, tool: name, kind } of await stores.cases.list()) {
    const owner = tools.find((it) => it.name === name && it.kind === kind)
    if (owner) await stores.tools.tie(id, owner.id)
  }
  await putCare(stores.care, knowledge, tools, zone, dayIn(zone, now.toISOString()))
  for (const { name, stock, ...details } of demoParts) {
    const about = { perUse: 1, is: [], care: [], supplierDays: 7, ...details }
    const { id } = await stores.parts.add({
      name,
      details: { ...about, is: [...about.is], care: [...about.care] },
    })
    const move = { key: id, partId: id, change: stock, why: { for: 'counted' } as const }
    await stores.parts.move(`demo-${id}`, [move], start.toISOString())
  }
}

/** A year in which care was mostly done on the day it was due or a little later, by whoever was there. */
async function putCare(
  care: CareLog,
  knowledge: Knowledge,
  tools: readonly Tool[],
  zone: string,
  today: string,
): Promise<void> {
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
      if (it.name === unoiled.tool && task === unoiled.task && ago < unoiled.days) continue
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
