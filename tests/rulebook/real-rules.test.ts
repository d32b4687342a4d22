/** The project's own rulebook: in order, and of the size that the kinds it covers call for. */
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { reportOnRules } from '../../server/rulebook/check-rules.js'
import { loadKnowledge, readRulebook } from '../../server/rulebook/load.js'

const rules = fileURLToPath(new URL('../../rules/', import.meta.url))

it('passes every check', () => {
  expect(() => loadKnowledge()).not.toThrow()
})

it('is reported by npm run check:rules in one line of counts', () => {
  expect(reportOnRules(rules)).toEqual({
    ok: true,
    text: expect.stringMatching(/^rules\/ is in order: \d+ kinds, \d+ setups, \d+ causes, [^\n]*$/),
  })
})

// the counts that the work on this kind set out to reach: causes with a base rate, findings, stops, hands' steps
it('covers the universal motor: at least 65 causes, 143 findings, 12 stops, about 50 steps and a few readings', () => {
  const { knowledge } = readRulebook()
  const kind = 'universal-motor'
  const ofKind = (list: readonly { kinds: readonly string[] }[]) =>
    list.filter((it) => it.kinds.includes(kind)).length
  expect(knowledge.causes.filter((it) => it.shares[kind] !== undefined).length).toBeGreaterThanOrEqual(65)
  expect(ofKind(knowledge.findings)).toBeGreaterThanOrEqual(143)
  expect(ofKind(knowledge.stops)).toBeGreaterThanOrEqual(12)
  expect(ofKind(knowledge.steps)).toBeGreaterThanOrEqual(45)
  expect(ofKind(knowledge.steps)).toBeLessThanOrEqual(62)
})

// outside checks use these names
it('keeps the ids that others rely on', () => {
  const { knowledge } = readRulebook()
  const causes = knowledge.causes.map((it) => it.id)
  const questions = knowledge.steps.flatMap((step) => step.questions.map((it) => it.id))
  expect(knowledge.kinds.map((it) => it.id)).toContain('universal-motor')
  expect(causes).toEqual(
    expect.arrayContaining([
      'worn-brushes',
      'dry-bearing',
      'rounded-drive-lever',
      'blocked-vents',
      'stiff-gear-grease',
      'broken-cord',
      'dull-blade',
      'dead-outlet',
    ]),
  )
  expect(questions).toEqual(
    expect.arrayContaining([
      'cuts-in-and-out',
      'cord-flex-changes-it',
      'wont-start',
      'hot-near-head',
      'hot-all-over',
      'slows-down',
      'blade-wobbles',
      'tingle-or-shock',
      'smoke-or-burning-smell',
      'cord-damaged',
    ]),
  )
})
