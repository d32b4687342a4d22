import { describe, expect, it } from 'vitest'
import { findingsFrom } from '../../server/diagnosis/findings.js'
import { historyOf, modelOf } from '../../server/diagnosis/model.js'
import { proofAsker } from '../../server/proof/proof-asker.js'
import { askerOf, interview } from '../../server/simulation/interview.js'
import { drawTool } from '../../server/simulation/tool.js'
import { Situation } from '../../shared/situation.js'
import {
  allOf,
  anyOf,
  cause,
  finding,
  is,
  KIND,
  relevance,
  rulebook,
  step,
} from '../diagnosis/small-rulebook.js'
import { knowledge } from '../the-rulebook.js'

const always = { leak: 0.999 }
const never = { leak: 0.001 }
const book = (dead: boolean) =>
  modelOf(
    rulebook({
      causes: [cause('a', 60), cause('b', 40)],
      findings: [
        finding('dead', {}, dead ? always : never),
        finding('hums', {}, { ...always, running: true }),
        finding('hot', {}, { ...always, topic: 'heat' }),
        finding('warm', {}, { ...always, topic: 'heat' }),
        finding('where-hot', {}, always),
        finding('hidden-skill', {}, always),
      ],
      steps: [step('ask', ['dead', 'hums', 'hot', 'warm', 'where-hot']), step('dear', ['hidden-skill'])],
      relevance: [
        relevance('dead-tool', allOf(is('dead')), { running: true }),
        relevance('not-hums', allOf(is('hums')), { questions: ['where-hot'] }),
        relevance('odd', anyOf(is('of-another-kind')), { questions: ['hot'] }),
      ],
    }),
    KIND,
  )

/** A tool in which every finding comes out as its leak is likely to have it. */
async function asked(dead: boolean, wrong = 0) {
  const model = book(dead)
  const asker = await askerOf(model, new Set(['dear']))
  const tool = { ...drawTool(model, 1), shows: (f: number) => model.leaks[f]! > 0.5 }
  return { model, told: await interview(asker, tool, wrong) }
}

describe('a whole interview', () => {
  it('leaves out what a dead tool hides, then what the rest makes pointless, and what may not be asked', async () => {
    expect((await asked(true)).told.answers).toEqual({
      dead: 'yes',
      hot: 'yes',
      warm: 'yes',
      'where-hot': 'yes',
    })
    expect((await asked(false)).told.answers).toEqual({ dead: 'no', hums: 'yes', hot: 'yes', warm: 'yes' })
  })

  it('takes one finding of a topic', async () => {
    const { told } = await asked(true)
    expect(told.observations.map(({ finding, present }) => [finding, present])).toEqual([
      [0, true],
      [2, true],
      [4, true],
    ])
  })

  it('turns round the share of answers that are wrong: all of them', async () => {
    const { told } = await asked(false, 1)
    expect(told.answers).toMatchObject({ dead: 'yes', hot: 'no' })
  })

  it('turns round about the share of answers that it is told', async () => {
    const model = book(true)
    const asker = await askerOf(model, new Set())
    let turned = 0
    const n = 3000
    for (let number = 0; number < n; number++) {
      const tool = { ...drawTool(model, number), shows: () => true }
      if ((await interview(asker, tool, 0.1)).answers['hot'] === 'no') turned++
    }
    expect(turned / n).toBeCloseTo(0.1, 1.5)
  })
})

describe('over the real rulebook', () => {
  it.each(knowledge.kinds.map(({ id }) => id))(
    'the product reads from the answers the very evidence that the interview counts: %s',
    async (kind) => {
      const asker = await proofAsker(knowledge, kind)
      for (let number = 0; number < 12; number++) {
        const told = await interview(asker, drawTool(asker.model, number))
        const { evidence } = await findingsFrom(asker.model, Situation.parse({ kind, answers: told.answers }))
        expect(told.observations).toEqual(
          historyOf(asker.model, evidence, []).observations.map(({ finding, present }) => ({
            finding,
            present,
            after: 0,
          })),
        )
      }
    },
  )
})
