/**
 * The recorded figures hold for the rulebook and the code as they are, and nothing made a mark worse since. A fixed
 * sample of each kind is simulated again, tool by tool on the same draws; `npm run prove` does the whole.
 */
import { describe, expect, it } from 'vitest'
import type { KindFigures } from '../../shared/proof.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { readFigures } from '../../server/proof/figures-file.js'
import { proofBench, runJob } from '../../server/proof/jobs.js'
import { sampleOf } from '../../server/proof/kind-figures.js'
import { kindDigest } from '../../server/proof/kind-digest.js'
import { codeDigest } from './code-digest.js'
import { comparedSamples } from './compared-samples.js'
import { storiesDigest, storiesOf } from './told-stories.js'
import { knowledge } from '../the-rulebook.js'

const figures = readFigures()
const kinds = knowledge.kinds.map(({ id }) => id)
const again = 'run npm run prove, and commit server/proof/figures.json with the change'

describe('the recorded figures', () => {
  it('are there, for every kind', () => {
    expect(figures, again).not.toBeNull()
    expect(Object.keys(figures!.kinds), again).toEqual(kinds)
  })

  it.each(kinds)('are of the rules of %s as they are', (kind) => {
    expect(
      figures!.kinds[kind]?.rulebook,
      `the rules of ${kind} have changed: run npm run prove -- --kind ${kind}, and commit server/proof/figures.json with the change`,
    ).toBe(kindDigest(knowledge, kind))
  })

  it('are of the code as it is', () => {
    expect(figures!.code, `the code that the figures rest on has changed: ${again}`).toBe(codeDigest())
  })

  it('are of the stories as they are', () => {
    expect(
      figures!.told.digest,
      'the told repairs have changed: run npm run prove -- --told, and commit server/proof/figures.json with the change',
    ).toBe(storiesDigest(storiesOf(knowledge)))
  })
})

describe('a fixed sample, simulated again', () => {
  it.each(kinds)('shows no mark of %s worse than recorded', async (kind) => {
    const before = figures!.kinds[kind]
    expect(before, again).toBeDefined()
    const { worse, report } = comparedSamples(before!.sample, await simulatedAgain(kind, before!.sample))
    expect(worse, `${kind} ${report}\nIf that is meant, ${again}`).toEqual([])
  })
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
