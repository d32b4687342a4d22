/** All of the proof on a small rulebook: jobs, results, and the figures that they come to. */
import { beforeAll, describe, expect, it } from 'vitest'
import { KindFigures, ProofSettings } from '../../shared/proof.js'
import type { Bench } from './jobs.js'
import { proofBench, runJob } from './jobs.js'
import type { Done } from './kind-figures.js'
import { jobsOf, kindFigures, sampleSize } from './kind-figures.js'
import { quickMarks } from '../../server/proof/quick-marks.js'
import {
  allOf,
  cause,
  finding,
  fix,
  is,
  KIND,
  question,
  rulebook,
  setup,
  step,
  stop,
} from '../diagnosis/small-rulebook.js'

const told = (id: string) => question(id, { sense: 'eyes' })
const book = rulebook({
  setups: [setup('plug-out')],
  causes: [cause('a', 50), cause('b', 30), cause('c', 17), cause('d', 3)],
  findings: [
    finding('x', { a: 0.8, b: 0.3 }),
    finding('y', { b: 0.7, c: 0.4 }),
    finding('z', { c: 0.9, d: 0.3 }),
    finding('shock', { d: 0.5 }, { leak: 0.01 }),
    finding('near', { a: 0.9 }),
  ],
  steps: [
    step('danger', ['shock'], { form: 'danger' }),
    step('ask', [told('x'), told('y')], { form: 'ask' }),
    step('look', ['z', 'near'], { setups: ['plug-out'] }),
  ],
  fixes: [fix('mend-a', { a: 0.9 }), fix('mend-b', { b: 0.9 }), fix('mend-c', { c: 0.9 })],
  stops: [stop('live-case', 'set-aside', allOf(is('shock')))],
})
const settings = ProofSettings.parse({
  tools: 400,
  courses: 30,
  offTools: 120,
  offCourses: 15,
  spread: 0.7,
  seeds: 'numbered',
})

let bench: Bench
let done: Done[]
let figures: KindFigures
beforeAll(async () => {
  bench = await proofBench(book, KIND)
  done = []
  for (const job of jobsOf(bench, KIND, settings))
    done.push({ job, result: await runJob(bench, job) } as Done)
  figures = kindFigures(bench, KIND, '0'.repeat(64), settings, done)
})

describe('the jobs', () => {
  it('take every tool once', () => {
    const stretches = done.flatMap(({ job }) => (job.do === 'isolation' ? [[job.from, job.to]] : []))
    expect(stretches).toEqual([
      [0, 250],
      [250, 400],
    ])
  })

  it('can be done by another process: what goes in and out is plain data', () => {
    expect(JSON.parse(JSON.stringify(done))).toEqual(done)
  })
})

describe('the figures', () => {
  it('have the shape that the page reads', () => {
    expect(KindFigures.parse(figures)).toEqual(figures)
  })

  it('end every tool one way or another', () => {
    for (const { mended, sentIn, setAside } of [
      figures.work,
      ...Object.values(figures.causes).map((c) => c.work),
    ])
      expect(mended.mean + sentIn.mean + setAside.mean).toBeCloseTo(1, 9)
  })

  it('weigh the causes by their shares, which make up the whole', () => {
    const causes = Object.values(figures.causes)
    expect(causes.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 9)
    const cost = causes.reduce((sum, { share, work }) => sum + share * work.cost.mean, 0)
    expect(figures.work.cost.mean).toBeCloseTo(cost, 9)
    // of so many tools each cause has its share, but three at least
    expect(causes.map(({ tools }) => tools)).toEqual([15, 9, 5, 3])
  })

  it('agree with the quick marks of the same tools', async () => {
    const marks = await quickMarks(book, KIND, { tools: settings.tools })
    expect(figures.isolation).toEqual(marks.isolation)
    expect(figures.causeFirst).toEqual(marks.causeFirst)
    expect(figures.sample.within).toEqual(marks.within.slice(0, sampleSize.tools))
  })

  it('never isolate more than knowing everything would', () => {
    figures.isolation.forEach((share, k) => {
      expect(share.mean).toBeLessThanOrEqual(figures.atBest[k]!.mean + 1e-12)
      expect(share.mean).toBeLessThanOrEqual(figures.inTurn[k]!.mean + 1e-12)
    })
  })

  it('hold each row of trouble against the same tools undisturbed', () => {
    const [plain, off, five, again, ten] = figures.robust
    expect(plain!.dearer).toEqual({ mean: 0, se: 0 })
    expect([off!.off, five!.wrong, ten!.wrong]).toEqual([true, 0.05, 0.1])
    expect([five!.again, again!.again, again!.wrong]).toEqual([false, true, 0.05])
    expect(ten!.lost!.mean).toBeGreaterThan(five!.lost!.mean)
    expect(again!.lost!.mean).toBeLessThanOrEqual(ten!.lost!.mean)
    expect(ten!.isolation[0].mean).toBeLessThan(plain!.isolation[0].mean)
    expect(off!.dearer!.mean).toBeCloseTo(off!.work!.cost.mean - plain!.work!.cost.mean, 9)
  })

  it('name ten confusions at most, costliest first, none of a cause with itself', () => {
    expect(figures.confusions.length).toBeGreaterThan(0)
    figures.confusions.forEach(({ cause: was, takenFor, cost }, k) => {
      expect(was).not.toBe(takenFor)
      expect(cost).toBeLessThanOrEqual(figures.confusions[k - 1]?.cost ?? Infinity)
    })
  })

  it('find the cause that no question confirms', () => {
    expect(figures.unconfirmed).toContain('d')
    expect(figures.unreached).toEqual([])
  })
})
