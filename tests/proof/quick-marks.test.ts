/** The marks for the rule lab: the same as in the proof, and moved by what is changed. */
import { describe, expect, it } from 'vitest'
import { proofBench, runJob } from './jobs.js'
import { quickMarks } from '../../server/proof/quick-marks.js'
import { cause, finding, fix, KIND, rulebook, step } from '../diagnosis/small-rulebook.js'

const withStrength = (strength: number) =>
  rulebook({
    causes: [cause('a', 45), cause('b', 35), cause('c', 20)],
    findings: [
      finding('x', { a: strength }, { leak: 0.1 }),
      finding('y', { b: 0.6 }, { leak: 0.1 }),
      finding('z', { c: 0.6 }, { leak: 0.1 }),
    ],
    steps: [step('look', ['x', 'y', 'z'])],
    fixes: ['a', 'b', 'c'].map((id) => fix(`mend-${id}`, { [id]: 0.9 })),
  })
const book = withStrength(0.6)

describe('quick marks', () => {
  it('are those of the proof’s first tools', async () => {
    const marks = await quickMarks(book, KIND, { tools: 60 })
    const trouble = { sd: 0, wrong: 0 }
    const proof = await runJob(await proofBench(book, KIND), {
      do: 'robust-isolation',
      kind: KIND,
      trouble,
      from: 0,
      to: 60,
    })
    expect(marks.within).toEqual(proof.tools.map(({ within }) => within))
    expect(marks.isolation[0].mean).toBeCloseTo(marks.within.filter((n) => n === 1).length / 60, 12)
  })

  it('are the same each time', async () => {
    expect(await quickMarks(book, KIND, { tools: 50 })).toEqual(await quickMarks(book, KIND, { tools: 50 }))
  })

  it('rise when a sign grows more telling', async () => {
    const [before, after] = [await quickMarks(book, KIND), await quickMarks(withStrength(0.98), KIND)]
    expect(after.tools).toBe(200)
    expect(after.isolation[0].mean).toBeGreaterThan(before.isolation[0].mean)
    expect(after.causeFirst.mean).toBeGreaterThan(before.causeFirst.mean)
  })

  it('fall when the rulebook strays from tools that stay as they are', async () => {
    const wrong = await quickMarks(withStrength(0.01), KIND, { world: book })
    expect(wrong.isolation[0].mean).toBeLessThan((await quickMarks(book, KIND)).isolation[0].mean)
  })

  it('refuse a kind that is not there', async () => {
    await expect(quickMarks(book, 'steam-engine')).rejects.toThrow('there is no kind steam-engine')
  })
})
