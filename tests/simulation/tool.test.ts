import { describe, expect, it } from 'vitest'
import fc from 'fast-check'
import type { ToolModel } from '../../server/simulation/tool.js'
import { drawTool, mainShares } from '../../server/simulation/tool.js'

const model = (priors: number[], more: Partial<ToolModel> = {}): ToolModel => ({
  priors,
  exclusive: priors.map(() => false),
  causes: priors.map((_, i) => ({ id: `cause-${i}` })),
  findings: [],
  leaks: [],
  strengths: [],
  ...more,
})

/** P(set | in trouble) of every set that can be, one after the other: the definition, with no trick. */
function trueShares({ priors, exclusive }: ToolModel): Map<string, number> {
  const shares = new Map<string, number>()
  for (let mask = 1; mask < 1 << priors.length; mask++) {
    const there = [...priors.keys()].filter((i) => mask & (1 << i))
    if (there.length > 1 && there.some((i) => exclusive[i])) continue
    shares.set(
      there.join(),
      priors.reduce((p, q, i) => p * (there.includes(i) ? q : 1 - q), 1),
    )
  }
  const total = [...shares.values()].reduce((sum, p) => sum + p, 0)
  return new Map([...shares].map(([set, p]) => [set, p / total]))
}

describe('causes', () => {
  it.each([
    ['three causes', model([0.3, 0.1, 0.02])],
    ['one that excludes the others', model([0.3, 0.2, 0.25], { exclusive: [false, false, true] })],
    ['two that do', model([0.2, 0.15, 0.1, 0.3], { exclusive: [true, false, true, false] })],
  ])('come as often as the model says, at least one: %s', (_, it) => {
    const n = 40_000
    const counts = new Map<string, number>()
    for (let number = 0; number < n; number++) {
      const set = drawTool(it, number).causes.join()
      counts.set(set, (counts.get(set) ?? 0) + 1)
    }
    const expected = trueShares(it)
    for (const set of counts.keys()) expect(expected.has(set), `the set ${set} cannot be`).toBe(true)
    for (const [set, p] of expected) {
      const se = Math.sqrt((p * (1 - p)) / n)
      expect(Math.abs((counts.get(set) ?? 0) / n - p), set).toBeLessThan(4 * se + 1e-9)
    }
  })

  it('with a main cause given, weighted by its share, come as often as without', () => {
    const it = model([0.3, 0.2, 0.1, 0.25], { exclusive: [false, false, false, true] })
    const shares = mainShares(it)
    expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12)
    const n = 20_000
    const weights = new Map<string, number>()
    let without = 0
    shares.forEach((share, main) => {
      for (let number = 0; number < n; number++) {
        const { causes } = drawTool(it, number, main)
        if (!causes.includes(main)) without++
        weights.set(causes.join(), (weights.get(causes.join()) ?? 0) + share / n)
      }
    })
    expect(without).toBe(0)
    for (const [set, p] of trueShares(it)) expect(weights.get(set) ?? 0).toBeCloseTo(p, 1.8)
  })

  it('stay what they are when another cause is added that is rare, in nearly every tool', () => {
    const few = model([0.05, 0.04, 0.03])
    const more = model([0.05, 0.04, 0.03, 0.0001])
    const n = 2000
    let same = 0
    for (let number = 0; number < n; number++)
      if (drawTool(few, number).causes.join() === drawTool(more, number).causes.join()) same++
    expect(same / n).toBeGreaterThan(0.995)
  })

  it('do not depend on the order in the rulebook', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.01, max: 0.6, noNaN: true }), { minLength: 2, maxLength: 6 }),
        fc.nat(),
        (priors, number) => {
          const forward = model(priors)
          const backward = model([...priors].reverse(), { causes: [...forward.causes].reverse() })
          const ids = (it: ToolModel) => drawTool(it, number).causes.map((i) => it.causes[i]!.id)
          expect(ids(backward).sort()).toEqual(ids(forward).sort())
        },
      ),
    )
  })
})

describe('findings', () => {
  const one = model([0.2, 0.2], {
    findings: [{ id: 'slow' }, { id: 'hot' }],
    leaks: [0.1, 0.02],
    strengths: [
      [0.5, 0.4],
      [0, 0.9],
    ],
  })

  // Leaky noisy-OR (Pearl 1988; Henrion 1989), by hand: 1 − 0.9·0.5·0.6 = 0.73, 1 − 0.9·0.5 = 0.55, and so on.
  it.each([
    [0, [], 0.1],
    [0, [0], 0.55],
    [0, [0, 1], 0.73],
    [1, [0], 0.02],
    [1, [0, 1], 0.902],
  ] as const)('finding %i with causes %j is true in %d of the tools', (finding, causes, p) => {
    const n = 30_000
    let count = 0
    for (let number = 0; number < n; number++) if (drawTool(one, number).shows(finding, causes)) count++
    expect(Math.abs(count / n - p)).toBeLessThan(4 * Math.sqrt((p * (1 - p)) / n))
  })

  it('never go away when a cause comes, nor come back when looked at again', () => {
    for (let number = 0; number < 500; number++) {
      const { shows } = drawTool(one, number)
      for (const finding of [0, 1]) {
        expect(shows(finding, [0, 1])).toBe(shows(finding, [0, 1]))
        if (shows(finding, [0]) || shows(finding, [1])) expect(shows(finding, [0, 1])).toBe(true)
      }
    }
  })

  it('come more often when a strength is raised, tool by tool', () => {
    const raised = { ...one, strengths: [[0.6, 0.4], one.strengths[1]!] }
    for (let number = 0; number < 500; number++)
      if (drawTool(one, number).shows(0, [0])) expect(drawTool(raised, number).shows(0, [0])).toBe(true)
  })
})

it('a fix cures as often as it says, and the same tool alike each time', () => {
  const it = model([0.5])
  const n = 20_000
  let cured = 0
  for (let number = 0; number < n; number++) {
    const { cures } = drawTool(it, number)
    if (cures('oil-it', 0, 0.7)) cured++
    expect(cures('oil-it', 0, 0.7)).toBe(cures('oil-it', 0, 0.7))
  }
  expect(cured / n).toBeCloseTo(0.7, 1.8)
})
