import { describe, expect, it } from 'vitest'
import { openCaseStore } from '../cases/open-case-store.js'
import { conflictWith, eventProblems, kindProblems } from '../../server/cases/acceptable.js'
import { caseStateOf } from '../../server/cases/fold.js'
import { demoCases as storiesOf, putDemoCases } from '../../server/demo/demo-cases.js'
import { CaseState } from '../../shared/case.js'
import { knowledge } from '../the-rulebook.js'

const demoCases = storiesOf(knowledge)

describe('the demo', () => {
  it('says and does only what the rulebook knows and a case can take', () => {
    for (const { kind, tool, events } of demoCases) {
      expect(kindProblems(knowledge, kind)).toEqual([])
      events.forEach(([, event], place) => {
        expect([tool, eventProblems(knowledge, kind, event)]).toEqual([tool, []])
        const before = events.slice(0, place).map(([, it]) => it)
        expect(conflictWith({ events: before }, event, { stops: [], unsettled: [] })).toBeNull()
        if (event.type === 'answered' && event.step !== 'complaint') {
          expect(knowledge.steps.map(({ id }) => id)).toContain(event.step)
        }
      })
    }
  })
  it('shows cases in every state, several at different stages of the bench', () => {
    expect(demoCases.length).toBeGreaterThanOrEqual(8)
    const states = demoCases.map(({ events }) => caseStateOf({ events: events.map(([, event]) => event) }))
    expect(new Set(states)).toEqual(new Set(CaseState.options))
    expect(states.filter((state) => state === 'on-the-bench').length).toBeGreaterThanOrEqual(3)
  })
  it('happened before now, in order', async () => {
    const now = new Date('2026-03-02T09:00:00.000Z')
    const store = await openCaseStore({
      file: ':memory:',
      newId: () => Math.random().toString(36),
    })
    await putDemoCases(store, knowledge, now)
    const listed = await store.list()
    expect(listed).toHaveLength(demoCases.length)
    for (const { begunAt, changedAt } of listed) {
      expect(begunAt <= changedAt).toBe(true)
      expect(changedAt < now.toISOString()).toBe(true)
    }
    for (const { events } of demoCases) {
      const minutes = events.map(([minute]) => minute)
      expect(minutes).toEqual([...minutes].sort((a, b) => a - b))
    }
    await store.close()
  })
})
