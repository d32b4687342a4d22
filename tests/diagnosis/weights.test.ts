/**
 * Proves that "for" and "against" are what the definition says (Good 1950): the weight that a finding lends a
 * cause, the other findings given, worked out from sums over all states.
 */
import { describe, expect, it } from 'vitest'
import { modelOf } from '../../server/diagnosis/model.js'
import { weigh } from '../../server/diagnosis/posterior.js'
import { speakingAgainst, speakingFor, weightsOfEvidence } from '../../server/diagnosis/weights.js'
import type { Evidence } from '../../shared/diagnosis.js'
import { enumerated } from './brute-force.js'
import { cause, finding, KIND, rulebook } from './small-rulebook.js'

const model = modelOf(
  rulebook({
    causes: [cause('brushes', 400), cause('cord', 300), cause('bearing', 300)],
    findings: [
      finding('cuts-out', { brushes: 0.7, cord: 0.8 }),
      finding('hot', { bearing: 0.9 }),
      finding('flex', { cord: 0.95 }),
    ],
  }),
  KIND,
)
const evidence: Evidence[] = [
  { finding: 'cuts-out', present: true, after: 0 },
  { finding: 'hot', present: false, after: 1 },
  { finding: 'flex', present: false, after: 0 },
]
const observations = evidence.map((e, finding) => ({ finding, present: e.present, after: e.after }))
const tried = [[0.4, 0, 0]]
const table = weightsOfEvidence(model, evidence, observations, tried, weigh(model, observations, tried))

describe('the weight of each finding', () => {
  it.each(evidence.flatMap((e, k) => model.causes.map((c, i) => [e.finding, c.id, k, i] as const)))(
    '%s for %s',
    (id, _, k, i) => {
      const having = enumerated(model, observations, tried)
      const lacking = enumerated(model, observations.toSpliced(k, 1), tried)
      const ifThere = having.there[i]! / lacking.there[i]!
      const ifNot = (having.trouble - having.there[i]!) / (lacking.trouble - lacking.there[i]!)
      const expected = 10 * Math.log10(ifThere / ifNot)
      const shown = table[i]!.find((w) => w.finding === id)?.decibans ?? 0
      if (Math.abs(expected) > 0.25) expect(shown).toBeCloseTo(expected, 9)
      else expect(shown).toBe(0)
    },
  )
  it('the flexed cord acquits the cord and accuses the others; strongest first', () => {
    expect(speakingAgainst(table[1]!)[0]?.finding).toBe('flex')
    expect(speakingFor(table[0]!).map((w) => w.finding)).toContain('flex')
    for (const weights of table) {
      const strengths = [speakingFor(weights), speakingAgainst(weights)].map((l) =>
        l.map((w) => Math.abs(w.decibans)),
      )
      for (const list of strengths) expect(list).toEqual(list.toSorted((a, b) => b - a))
    }
  })
})
