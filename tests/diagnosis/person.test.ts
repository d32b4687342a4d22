/** What somebody can tell: how it starts, how it moves within a case. The sums are done once more, the slow way. */
import { beforeAll, describe, expect, it } from 'vitest'
import { tellChances } from '../../server/diagnosis/person.js'
import type { PreparedKind } from '../../server/diagnosis/prepare.js'
import { kindOf, prepare } from '../../server/diagnosis/prepare.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { toldBy } from '../../shared/telling-file.js'
import { cause, finding, fix, KIND, question, rulebook, setup, situation, step } from './small-rulebook.js'

const usual = { memory: 0.75, look: 0.9, meter: 0.5 }
const ask = { form: 'ask' as const }
const book = rulebook({
  causes: [cause('worn', 600), cause('dry', 400)],
  findings: ['story-1', 'story-2', 'story-3', 'seen-1', 'seen-2', 'ohms-1', 'ohms-2'].map((id) =>
    finding(id, { worn: 0.8 }),
  ),
  fixes: [fix('mend', { worn: 0.9, dry: 0.9 })],
  steps: [
    step('told', ['story-1', 'story-2'], ask),
    step('told-more', ['story-3'], ask),
    step('seen', ['seen-1', 'seen-2']),
    step('measured', [question('ohms-1', { toldBy: 'meter' })]),
    step('measured-too', [question('ohms-2', { toldBy: 'meter' })]),
  ],
  telling: Object.entries(usual).map(([id, chance]) => ({
    id,
    what: 'It takes that.',
    chance,
    source: 'made-up',
  })),
})
let kind: PreparedKind
beforeAll(async () => {
  kind = kindOf(await prepare(book), KIND)
})
const after = (answers: Record<string, Answer>, more: Partial<Situation> = {}) =>
  tellChances(kind.person, kind.model, situation(answers, more))

/** A x = b by elimination. */
function solved(a: number[][], b: number[]): number[] {
  const rows = a.map((row, i) => [...row, b[i]!])
  rows.forEach((pivot, i) =>
    rows.forEach((row, j) => {
      if (j === i) return
      const factor = row[i]! / pivot[i]!
      row.forEach((_, k) => (row[k]! -= factor * pivot[k]!))
    }),
  )
  return rows.map((row, i) => row.at(-1)! / row[i]!)
}

/**
 * One Newton step from 0 for the log posterior of shifts u (all) and v (each way), u ~ N(0, 1), v ~ N(0, 1/2), where
 * an outcome of chance p and told share x adds (x − p) to the slope and p(1 − p) to the bend of u + v of its way.
 */
function shifts(outcomes: readonly { way: number; p: number; x: number }[]): number[] {
  const ways = 3
  const bend = Array.from({ length: ways + 1 }, (_, i) =>
    Array.from({ length: ways + 1 }, (__, j) => (i === j ? (i === 0 ? 1 : 2) : 0)),
  )
  const slope = new Array<number>(ways + 1).fill(0)
  for (const { way, p, x } of outcomes)
    for (const i of [0, way + 1]) {
      slope[i]! += x - p
      for (const j of [0, way + 1]) bend[i]![j]! += p * (1 - p)
    }
  const [inAll, ...own] = solved(bend, slope)
  return own.map((by) => inAll! + by)
}
const moved = (p: number, by: number) => 1 / (1 + ((1 - p) / p) * Math.exp(-by))

describe('what somebody can tell', () => {
  it('is as the rulebook has it while nothing was asked', () => {
    expect(Object.fromEntries(after({}))).toEqual({
      'story-1': 0.75,
      'story-2': 0.75,
      'story-3': 0.75,
      'seen-1': 0.9,
      'seen-2': 0.9,
      'ohms-1': 0.5,
      'ohms-2': 0.5,
    })
  })

  it('moves with what was told of what was asked, most in the same way of telling', () => {
    const now = after({
      'story-1': 'cant-tell',
      'story-2': 'cant-tell',
      'seen-1': 'yes',
      'seen-2': 'cant-tell',
    })
    const [story, look, meter] = shifts([
      { way: 0, p: 0.75, x: 0 },
      { way: 1, p: 0.9, x: 0.5 },
    ])
    expect(now.get('story-3')).toBeCloseTo(moved(0.75, story!), 12)
    expect(now.get('seen-2')).toBeCloseTo(moved(0.9, look!), 12)
    expect(now.get('ohms-1')).toBeCloseTo(moved(0.5, meter!), 12)
    expect(story!).toBeLessThan(look!)
    expect(look!).toBeLessThan(meter!)
    expect(meter!).toBeLessThan(0)
  })

  it('rises where all is told', () => {
    for (const [id, chance] of after({ 'story-1': 'no', 'story-2': 'yes', 'seen-1': 'no', 'seen-2': 'no' }))
      expect(chance, id).toBeGreaterThan(after({}).get(id)!)
  })

  it('falls for every look with a meter once one cannot be done here', () => {
    const now = after({}, { cannotDo: ['measured'] })
    const [, look, meter] = shifts([{ way: 2, p: 0.5, x: 0 }])
    expect(now.get('ohms-2')).toBeCloseTo(moved(0.5, meter!), 12)
    expect(now.get('seen-1')).toBeCloseTo(moved(0.9, look!), 12)
    expect(meter!).toBeLessThan(look!)
  })
})

describe('how a question is told', () => {
  const setups = [setup('plug-out'), setup('body-open', { skill: 'S3' })]
  it.each([
    ['a number', question('q', { kind: 'number' }), step('look', ['q']), 'meter'],
    [
      'behind a set-up for a skilled hand',
      question('q', { sense: 'eyes' }),
      step('look', ['q'], { setups: ['plug-out', 'body-open'] }),
      'open-body',
    ],
    ['while it runs', question('q', { sense: 'ears' }), step('look', ['q'], { power: true }), 'run'],
    ['by its sense', question('q', { sense: 'ears' }), step('look', ['q']), 'ear'],
    ['by nose, in the hand', question('q', { sense: 'nose' }), step('look', ['q']), 'feel'],
    ['from memory, where it is only asked', question('q'), step('look', ['q'], ask), 'memory'],
    ['by a look, where it is checked', question('q'), step('look', ['q']), 'look'],
    ['as it says itself', question('q', { toldBy: 'spare' }), step('look', ['q'], { power: true }), 'spare'],
  ])('%s', (_, asked, by, way) => expect(toldBy(asked, by, setups)).toBe(way))
})
