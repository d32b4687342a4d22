import { describe, expect, it } from 'vitest'
import {
  aboutMoney,
  answerWords,
  countOf100,
  inHundred,
  inThousand,
  listWords,
  minutes,
  money,
  strength,
} from '../../server/pages/layout/words.js'

describe('counts instead of shares', () => {
  it.each([
    [0.62, '62 in 100'],
    [0.0949, '9 in 100'],
    [0.5, '50 in 100'],
    [0.01, '1 in 100'],
  ])('%f is %s', (share, words) => {
    expect(inHundred(share)).toBe(words)
  })

  // Lindley, Making Decisions (1971): Cromwell's rule. Nothing that can still be learned is certain.
  it.each([0.9999, 1])('never calls %f certain', (share) => {
    expect(inHundred(share)).toBe('more than 99 in 100')
  })
  it.each([0, 0.0001])('never calls %f impossible', (share) => {
    expect(inHundred(share)).toBe('fewer than 1 in 100')
    expect(inThousand(share)).toMatch(/^fewer than 1 in 1000$/)
  })

  it('keeps a count of dots between 0 and 100', () => {
    expect([-0.1, 0, 0.004, 0.5, 0.999, 1.1].map(countOf100)).toEqual([0, 0, 0, 50, 100, 100])
  })
})

describe('the weight of an answer', () => {
  // Good, Probability and the Weighing of Evidence (1950): ten decibans make the odds ten times as high,
  // three about twice, and one is about the least change that can be perceived.
  it('says nothing loud below what can be perceived', () => {
    expect(strength(0.9)).toBe('hardly speaks for')
    expect(strength(-0.9)).toBe('hardly speaks against')
  })
  it('grows louder with the weight, on both sides alike', () => {
    const words = [0.5, 2, 5, 10, 20].map(strength)
    expect(new Set(words).size).toBe(5)
    expect([-0.5, -2, -5, -10, -20].map(strength)).toEqual(
      words.map((word) => word.replace('for', 'against')),
    )
  })
})

describe('minutes and money', () => {
  it.each([
    [0.3, 'under a minute'],
    [1, 'about a minute'],
    [4.4, 'about 4 minutes'],
    [60, 'about 60 minutes'],
    [90, 'about 1½ hours'],
    [120, 'about 2 hours'],
  ])('%f minutes are %s', (count, words) => {
    expect(minutes(count)).toBe(words)
  })
  it.each([
    [6, '6'],
    [3.2, '3.20'],
    [0.8, '0.80'],
  ])('the sum %f is %s', (sum, words) => {
    expect(money(sum)).toBe(words)
  })
  it('is no finer about a sum than its estimate', () => {
    expect([0.01, 3.24, 36.4].map(aboutMoney)).toEqual(['nothing', 'about 3.20', 'about 36'])
  })
})

it('says an answer as it is said at the bench', () => {
  expect([answerWords('yes'), answerWords('cant-tell'), answerWords(9.5, 'mm')]).toEqual([
    'Yes',
    'Can’t tell',
    '9.5 mm',
  ])
})

it('lists names as one speaks them', () => {
  expect([[], ['a'], ['a', 'b'], ['a', 'b', 'c']].map(listWords)).toEqual(['', 'a', 'a and b', 'a, b and c'])
})
