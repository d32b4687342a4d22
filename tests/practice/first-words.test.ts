/**
 * What is said of a tool that comes in, on 200 drawn tools of each level. Common practice, no source; the tone and how
 * much people tell were read off repair stories of Open Repair Data (tests/bench-cases/).
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import { misleads } from '../../server/practice/agreeing.js'
import { drawnFor, kindFor } from '../../server/practice/drawn.js'
import { levelBook } from '../../server/practice/level-book.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const draws = 200
const setting = { hideSuspects: false, hidePrices: false }

let prepared: Prepared
beforeAll(async () => {
  prepared = await preparedRulebook()
})

describe.each(knowledge.levels.map((level) => [level.id, level] as const))('%s', (id, level) => {
  let once: ReturnType<typeof draw> | undefined
  const drawn = () => (once ??= draw())
  const draw = () =>
    Array.from({ length: draws }, (_, k) => {
      const kind = kindOf(
        levelBook(prepared, id, kindFor(knowledge, level, k), setting),
        kindFor(knowledge, level, k),
      )
      return { kind, ...drawnFor(kind, level, knowledge.chains, { seed: k, setting }) }
    })

  it('is one thing that troubles somebody, and at most one more; nothing that only a bench finds', () => {
    for (const { kind, tool, complaint, heard } of drawn()) {
      expect(heard.length).toBeGreaterThan(0)
      expect(heard.length).toBeLessThanOrEqual(Math.min(2, level.told))
      const steps = complaint.map((q) =>
        kind.model.steps.find(({ questions }) => questions.some((it) => it.id === q))!,
      )
      expect(steps.every(({ form }) => form !== 'check')).toBe(true)
      if (kind.model.exclusive[tool.main]) expect(complaint).toEqual([])
      else expect(steps[0]!.opens).toBe(true)
    }
  })

  it('shows no two signs that exclude each other', () => {
    for (const { kind, tool } of drawn()) {
      const { findings, findingIndex } = kind.model
      const shown = (f: number) => tool.shows(f, tool.causes)
      const both = findings.flatMap(({ id: one, excludes = [] }, f) =>
        excludes
          .filter((other) => shown(f) && findingIndex.has(other) && shown(findingIndex.get(other)!))
          .map((other) => `${one} and ${other}`),
      )
      expect(both).toEqual([])
    }
  })

  it.runIf(level.faults === 'one' && level.wrongAnswers === 0)(
    'shows nothing that speaks very strongly for a fault that is not there',
    () => {
      for (const { kind, tool } of drawn())
        expect(
          kind.model.findings.filter(
            (_, f) => tool.shows(f, tool.causes) && misleads(kind.model, f, tool.causes),
          ),
        ).toEqual([])
    },
  )
})
