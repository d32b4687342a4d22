/**
 * Proves that the rules engine is used so that no rule is lost: runs that overlap keep to themselves, only
 * what holds fires, an unknown fact fires nothing, and the order is that of the rules. What the engine's
 * operators mean is its own documentation's (json-rules-engine, "Conditions").
 */
import { describe, expect, it } from 'vitest'
import { firedRules } from '../../server/diagnosis/fired-rules.js'
import type { Condition } from '../../shared/conditions.js'
import { Conditions } from '../../shared/conditions.js'

const is = (fact: string, value: string | number): Condition => ({ fact, operator: 'equal', value })
const rule = (id: string, ...all: Condition[]) => ({ id, when: { all } })

describe('two runs at once', () => {
  // 60 rules over 6 facts; run k has fact k mod 6 as yes, so the rules of that fact hold
  const rules = Array.from({ length: 60 }, (_, k) => rule(`rule-${k}`, is(`fact-${k % 6}`, 'yes')))
  const factsOf = (k: number) =>
    Object.fromEntries(Array.from({ length: 6 }, (_, f) => [`fact-${f}`, f === k % 6 ? 'yes' : 'no']))
  const expected = (k: number) => rules.filter((_, r) => r % 6 === k % 6).map((r) => r.id)

  it('lose nothing', async () => {
    const runs = await Promise.all(Array.from({ length: 30 }, (_, k) => firedRules(rules, factsOf(k))))
    runs.forEach((held, k) => expect(held, `run ${k}`).toEqual(expected(k)))
  })
  it('nor do runs that begin while another is under way', async () => {
    const first = firedRules(rules, factsOf(1))
    await Promise.resolve()
    const second = firedRules(rules, factsOf(2))
    expect(await second).toEqual(expected(2))
    expect(await first).toEqual(expected(1))
  })
})

describe('what holds', () => {
  it.each([
    ['equal', 'yes', 'yes', true],
    ['equal', 'yes', 'no', false],
    ['in', ['yes', 'cant-tell'], 'cant-tell', true],
    ['in', ['yes', 'cant-tell'], 'unknown', false],
    ['lessThan', 6, 5.99, true],
    ['lessThan', 6, 6, false],
    ['lessThanInclusive', 6, 6, true],
    ['greaterThan', 6, 6, false],
    ['greaterThan', 6, 6.01, true],
    ['greaterThanInclusive', 6, 6, true],
    ['greaterThanInclusive', 6, 5.9, false],
  ])('%s %j over %j: %s', async (operator, value, fact, holds) => {
    const when = { all: [{ fact: 'it', operator, value } as Condition] }
    expect(await firedRules([{ id: 'one', when }], { it: fact })).toEqual(holds ? ['one'] : [])
  })

  it('an unknown or untold number is on neither side of a threshold', async () => {
    const sides = [
      { id: 'under', when: { all: [{ fact: 'it', operator: 'lessThan', value: 6 } as Condition] } },
      {
        id: 'over',
        when: { all: [{ fact: 'it', operator: 'greaterThanInclusive', value: 6 } as Condition] },
      },
    ]
    expect(await firedRules(sides, { it: 'unknown' })).toEqual([])
    expect(await firedRules(sides, { it: 'cant-tell' })).toEqual([])
  })

  it('any within all', async () => {
    const nested = { id: 'n', when: { all: [is('a', 'yes'), { any: [is('b', 'yes'), is('c', 'yes')] }] } }
    expect(await firedRules([nested], { a: 'yes', b: 'no', c: 'yes' })).toEqual(['n'])
    expect(await firedRules([nested], { a: 'yes', b: 'no', c: 'no' })).toEqual([])
    expect(await firedRules([nested], { a: 'no', b: 'yes', c: 'yes' })).toEqual([])
  })

  it('comes in the order of the rules, not of the facts', async () => {
    const rules = ['zebra', 'ant', 'moth'].map((id) => rule(id, is(id, 'yes')))
    expect(await firedRules(rules, { moth: 'yes', ant: 'yes', zebra: 'yes' })).toEqual([
      'zebra',
      'ant',
      'moth',
    ])
  })

  it('a fact that nobody has even named is an error, not a no', async () => {
    await expect(firedRules([rule('one', is('forgotten', 'yes'))], {})).rejects.toThrow(/forgotten/)
  })
})

describe('what a rule may say', () => {
  it.each(['notEqual', 'notIn', 'doesNotContain'])(
    'not %s: it would hold for what nobody has told',
    (operator) => {
      expect(Conditions.safeParse({ all: [{ fact: 'it', operator, value: 'yes' }] }).success).toBe(false)
    },
  )
  it('no "not", no empty list, no two lists', () => {
    const one = is('it', 'yes')
    expect(Conditions.safeParse({ not: one }).success).toBe(false)
    expect(Conditions.safeParse({ all: [] }).success).toBe(false)
    expect(Conditions.safeParse({ all: [one], any: [one] }).success).toBe(false)
    expect(Conditions.safeParse({ all: [one] }).success).toBe(true)
  })
})
