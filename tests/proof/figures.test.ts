/**
 * The recorded figures are of the rules as they are, and the code makes no mark worse than it was when they were taken.
 * A fixed sample of each kind is simulated again, tool by tool on the same draws; `npm run prove` does the whole.
 */
import { describe, expect, it } from 'vitest'
import type { KindFigures } from '../../shared/proof.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { readFigures } from '../../server/proof/figures-file.js'
import { kindDigest } from '../../server/proof/kind-digest.js'
import { knowledge } from '../the-rulebook.js'
import { comparedSamples } from './compared-samples.js'
import { proofBench, runJob } from './jobs.js'
import { sampleOf } from './kind-figures.js'
import { storiesDigest, storiesOf } from './told-stories.js'

const figures = readFigures()
const kinds = knowledge.kinds.map(({ id }) => id)
const again = 'run npm run prove, and commit server/proof/figures.json with the change'

describe('the recorded figures', () => {
  it('are there, for every kind', () => {
    expect(figures, again).not.toBeNull()
    expect(Object.keys(figures!.kinds), again).toEqual(kinds)
  })

  it.each(kinds)('are of the rules of %s as they are', (kind) => {
    expect(figures!.kinds[kind]?.rulebook, `the rules of ${kind} have changed: ${again}`).toBe(
      kindDigest(knowledge, kind),
    )
  })

  it('are of the stories as they are', () => {
    expect(figures!.told.digest, `the told repairs have changed: ${again}`).toBe(
      storiesDigest(storiesOf(knowledge)),
    )
  })
})

it('a fixed sample, simulated again, shows no mark worse than recorded', async () => {
  // where rules have changed it is for the figures to be taken anew, which the tests above ask for
  const known = Object.entries(figures!.kinds).filter(
    ([kind, { rulebook }]) => kinds.includes(kind) && rulebook === kindDigest(knowledge, kind),
  )
  const before = Object.fromEntries(known.map(([kind, { sample }]) => [kind, beginningOf(sample)]))
  const after: Record<string, KindFigures['sample']> = {}
  for (const kind of Object.keys(before)) after[kind] = await simulatedAgain(kind, before[kind]!)
  const { worse, report } = comparedSamples(before, after)
  expect(worse, `${report}\nIf that is meant, run npm run prove -- --all, and commit the figures`).toEqual([])
})

/** The half of what is on file: enough to see a mark get worse, in half the time. */
const beginningOf = ({ within, causeFirst, costs }: KindFigures['sample']): KindFigures['sample'] => ({
  within: within.slice(0, within.length / 2),
  causeFirst: causeFirst.slice(0, causeFirst.length / 2),
  costs: costs.slice(0, costs.length / 2),
})

async function simulatedAgain(
  kind: string,
  { within, costs }: KindFigures['sample'],
): Promise<KindFigures['sample']> {
  const bench = await proofBench(bookOf(knowledge, kind), kind)
  const trouble = { sd: 0, wrong: 0 }
  const marked = await runJob(bench, { do: 'robust-isolation', kind, trouble, from: 0, to: within.length })
  const work = await runJob(bench, { do: 'robust-work', kind, trouble, from: 0, to: costs.length })
  return sampleOf(marked.tools, work.done)
}
