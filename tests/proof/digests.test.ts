/** What makes the figures stale, and what does not. */
import { describe, expect, it } from 'vitest'
import type { Knowledge } from '../../shared/knowledge.js'
import { kindDigest } from '../../server/proof/kind-digest.js'
import {
  allOf,
  cause,
  finding,
  fix,
  is,
  KIND,
  question,
  rulebook,
  step,
} from '../diagnosis/small-rulebook.js'

const book = rulebook({
  causes: [cause('worn', 60), cause('dirty', 40)],
  findings: [finding('slow', { worn: 0.7, elsewhere: 0.5 })],
  steps: [step('look', [question('slow', { sense: 'eyes' })])],
  fixes: [fix('renew', { worn: 0.9, elsewhere: 0.9 })],
})

/** The rulebook with one entry of a folder changed. */
function changed<F extends 'causes' | 'findings' | 'steps' | 'fixes'>(
  folder: F,
  more: Partial<Knowledge[F][number]>,
): Knowledge {
  const [first, ...others] = book[folder]
  return { ...book, [folder]: [{ ...first, ...more }, ...others] }
}

describe('the digest of a kind’s rules', () => {
  it.each([
    ['a share', changed('causes', { shares: { [KIND]: 61 } })],
    ['what a service can do', changed('causes', { service: 'retire' })],
    ['a strength', changed('findings', { strengths: { worn: 0.71, elsewhere: 0.5 } })],
    ['a leak', changed('findings', { leak: 0.06 })],
    ['a condition', changed('findings', { when: allOf(is('slow', 'no')) })],
    ['a topic', changed('findings', { topic: 'speed' })],
    ['minutes', changed('steps', { minutes: 3 })],
    ['skill', changed('steps', { skill: 'S4' })],
    ['whether people tell it unasked', changed('steps', { questions: [question('slow')] })],
    ['a cure', changed('fixes', { cures: { worn: 0.8 } })],
    ['what a part costs', changed('fixes', { parts: [{ name: 'brush', cost: 3 }] })],
    ['a cause more', { ...book, causes: [...book.causes, cause('torn', 1)] }],
  ])('changes with %s', (_, other) => {
    expect(kindDigest(other, KIND)).not.toBe(kindDigest(book, KIND))
  })

  it.each([
    ['a name', changed('causes', { name: 'Another name' })],
    ['why it points there', changed('findings', { because: 'Said better' })],
    ['a source and a note', changed('findings', { source: 'another', note: 'For the next editor' })],
    [
      'a question’s words',
      changed('steps', { questions: [question('slow', { sense: 'eyes', words: ['lazy'] })] }),
    ],
    ['what the hands do', changed('fixes', { steps: [{ do: 'Do it otherwise' }] })],
    ['a drawing', changed('fixes', { drawing: 'another' })],
    ['the share in another kind', changed('causes', { shares: { [KIND]: 60, other: 5 } })],
    [
      'a strength for a cause of another kind',
      changed('findings', { strengths: { worn: 0.7, elsewhere: 0.9 } }),
    ],
    ['a cure of a cause of another kind', changed('fixes', { cures: { worn: 0.9, elsewhere: 0.1 } })],
    [
      'a cause of another kind',
      { ...book, causes: [...book.causes, cause('else', 9, { shares: { other: 9 } })] },
    ],
  ])('does not change with %s', (_, other) => {
    expect(kindDigest(other, KIND)).toBe(kindDigest(book, KIND))
  })
})
