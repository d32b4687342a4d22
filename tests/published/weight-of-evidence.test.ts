/**
 * Proves that the weights behind "for" and "against" are Turing's decibans as Good (1950) defined them.
 */
import { describe, expect, it } from 'vitest'
import { weigh } from '../../server/diagnosis/posterior.js'
import { decibans } from '../../server/diagnosis/weights.js'
import { oneCause, seen } from './noisy-or-network.js'

/** Of a finding, from the weights of a one-cause network with it and without it. */
function weightOf(ifThere: number, ifNot: number, present: boolean): number {
  const model = oneCause(0.2, [{ ifThere, ifNot }])
  const having = weigh(model, seen(present), [])
  const lacking = weigh(model, [], [])
  return decibans(having.there[0]!, lacking.there[0]!, having.none, lacking.none)
}

describe('a coin with two heads or a fair one (General Report on Tunny, 1945)', () => {
  it('a head is worth 3 decibans, twenty of them 60', () => {
    expect(Math.round(weightOf(1, 0.5, true))).toBe(3)
    expect(Math.round(20 * weightOf(1, 0.5, true))).toBe(60)
  })
  it('20 heads on odds of 1 to 10000: 20 decibans exactly 20.206, odds 104.8576', () => {
    const twenty = Array.from({ length: 20 }, () => ({ ifThere: 1, ifNot: 0.5 }))
    // more heads than the tables take at once: ten are counted into the odds first
    const ten = weigh(oneCause(1 / 10_001, twenty.slice(0, 10)), seen(...Array<boolean>(10).fill(true)), [])
    const half = ten.there[0]! / (ten.there[0]! + ten.none)
    const rest = weigh(oneCause(half, twenty.slice(10)), seen(...Array<boolean>(10).fill(true)), [])
    expect(rest.there[0]! / rest.none).toBeCloseTo(104.8576, 8)
    expect(10 * Math.log10(rest.there[0]! / rest.none)).toBeCloseTo(20.206, 5)
  })
})

// Good 1985 and Jaynes, Probability Theory, ch. 4; from memory
describe('a die that shows six every third time, or a fair one', () => {
  it('a six: +3.0103 decibans', () => expect(weightOf(1 / 3, 1 / 6, true)).toBeCloseTo(3.0103, 4))
  it('no six: −0.9691 decibans', () => expect(weightOf(1 / 3, 1 / 6, false)).toBeCloseTo(-0.9691, 4))
})

// 10 db is 10 to 1, 20 db 100 to 1 (an encyclopedia's page on the deciban); the others are 10^(db/10) to 1
describe('from decibans back to probabilities, even odds before', () => {
  it.each([
    [0, 0.5],
    [1, 0.557312],
    [3, 0.666139],
    [6, 0.79924],
    [10, 0.909091],
    [20, 0.990099],
    [30, 0.999001],
  ])('%d decibans: %d', (db, p) => {
    expect(decibans(p, 0.5, 1 - p, 0.5)).toBeCloseTo(db, db < 30 ? 3 : 2)
  })
  it('−10 decibans: .090909', () => {
    expect(decibans(0.090909, 0.5, 1 - 0.090909, 0.5)).toBeCloseTo(-10, 4)
  })
})

describe('where nothing can be said', () => {
  it('is 0, never a NaN', () => {
    expect(decibans(0, 0, 1, 1)).toBe(0)
    expect(decibans(1, 1, 0, 0)).toBe(0)
  })
  it('is infinite where the finding excludes one side', () => {
    expect(decibans(0, 0.5, 0.5, 0.5)).toBe(-Infinity)
    expect(decibans(0.5, 0.5, 0, 0.5)).toBe(Infinity)
  })
})
