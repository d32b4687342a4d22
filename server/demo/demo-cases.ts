/** The cases of an invented shop, told relative to the hour in which the demo starts. */
import { readFileSync } from 'node:fs'
import { z } from 'zod'
import { bookOf } from '../../shared/book-of-kind.js'
import { CaseEvent } from '../../shared/case.js'
import { Id } from '../../shared/ids.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Answer } from '../../shared/situation.js'
import type { CaseStore } from '../cases/case-store.js'

/** What was said or done; the short forms stand for an event each. */
const Told = z.union([
  z.strictObject({ told: z.string(), seen: z.array(Id) }).describe('a complaint, with what was ticked'),
  z
    .strictObject({ danger: z.array(Id) })
    .describe('every danger sign answered: these with yes, the others with no'),
  CaseEvent,
])

/** One tool's story: each entry is how many minutes after the beginning, and what was said or done. */
const DemoCases = z.array(
  z.strictObject({
    tool: z.string(),
    kind: Id,
    begunMinutesAgo: z.number().min(0),
    events: z.array(z.tuple([z.number().min(0), Told])),
  }),
)

export interface DemoCase {
  readonly tool: string
  readonly kind: string
  readonly begunMinutesAgo: number
  readonly events: readonly (readonly [minute: number, event: CaseEvent])[]
}

/** The stories as events of a rulebook, which knows the danger signs of each kind. */
export function demoCases(knowledge: Knowledge): readonly DemoCase[] {
  const file = new URL('./demo-cases.json', import.meta.url)
  return DemoCases.parse(JSON.parse(readFileSync(file, 'utf8'))).map((story) => ({
    ...story,
    events: story.events.map(([minute, it]) => [minute, eventOf(it, bookOf(knowledge, story.kind))] as const),
  }))
}

function eventOf(it: z.infer<typeof Told>, { steps }: Knowledge): CaseEvent {
  if ('told' in it) {
    const answers = Object.fromEntries(it.seen.map((question): [string, Answer] => [question, 'yes']))
    return { type: 'answered', step: 'complaint', answers, when: 'now', words: it.told }
  }
  if (!('danger' in it)) return it
  const step = steps.find(({ form }) => form === 'danger')
  const answers = (step?.questions ?? []).map(({ id }): [string, Answer] => [
    id,
    it.danger.includes(id) ? 'yes' : 'no',
  ])
  return { type: 'answered', step: step?.id ?? 'danger', answers: Object.fromEntries(answers), when: 'now' }
}

/** Puts the stories into a store, oldest change last in time. */
export async function putDemoCases(cases: CaseStore, knowledge: Knowledge, now: Date): Promise<void> {
  for (const { tool, kind, begunMinutesAgo, events } of demoCases(knowledge)) {
    const at = (minute: number) => new Date(now.getTime() - (begunMinutesAgo - minute) * 60_000).toISOString()
    const { id } = await cases.begin({ kind, tool, at: at(0) })
    for (const [minute, event] of events) await cases.append(id, event, at(minute))
  }
}
