/** The line that asks to look once more: it says what was said, and leads to where that is changed. */
import { expect, it } from 'vitest'
import type { Doubt } from '../../shared/diagnosis.js'
import type { Answer } from '../../shared/situation.js'
import type { OnBench } from '../../server/bench/on-bench.js'
import { secondLook } from '../../server/pages/case/second-look.js'
import { cause, finding, KIND, rulebook, step } from '../diagnosis/small-rulebook.js'

const knowledge = rulebook({
  causes: [cause('worn', 1000)],
  findings: [finding('tip-worn', { worn: 0.9 })],
  steps: [step('look', ['tip-worn'])],
})
const text = knowledge.steps[0]!.questions[0]!.text
const on = (doubt: Doubt | null, answers: Record<string, Answer>) =>
  ({
    knowledge,
    bench: { id: '7', kind: KIND },
    assessment: { doubt },
    situation: { answers },
  }) as unknown as OnBench
const doubt: Doubt = { finding: 'tip-worn', question: 'tip-worn', said: false, slip: 0.4, leads: 'worn' }

it('says the answer and the question, and leads to where it is changed', () => {
  const look = secondLook(on(doubt, { 'tip-worn': 'no' }))!
  expect(look.words).toContain('No')
  expect(look.words).toContain(text)
  expect(look.href).toBe('/cases/7/answers/tip-worn')
})

it('is silent where nothing is doubted, or the answer stands no more', () => {
  expect(secondLook(on(null, { 'tip-worn': 'no' }))).toBeNull()
  expect(secondLook(on(doubt, {}))).toBeNull()
})
