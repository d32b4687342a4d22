/** Proves that the file of every kind is valid XMLBIF 0.3 and holds the model of the kind whole and unchanged. */
import { describe, expect, it } from 'vitest'
import { modelFile } from '../../server/interchange/model-file.js'
import { generator } from '../study/random-rulebook.js'
import { kinds, wholeModel } from './cuts.js'
import type { ReadNetwork, ReadNode } from './xmlbif-reader.js'
import { chanceOfYes, readXmlbif } from './xmlbif-reader.js'

const byRole = (network: ReadNetwork, role: string): ReadNode[] =>
  [...network.nodes.values()].filter(({ properties }) => properties.get('role') === role)

/** The links from a finding up to its leak, as cause → strength, and the leak. */
function noisyOrAt(network: ReadNetwork, finding: ReadNode) {
  const strengths = new Map<string, number>()
  let node = finding
  while (node.parents.length > 0) {
    const [before, cause] = node.parents.map((parent) => network.nodes.get(parent)!)
    expect(cause!.properties.get('role')).toBe('cause')
    const [bothYes, beforeYes, causeYes, neither] = node.rows.map((row) => row[0])
    expect([bothYes, beforeYes, neither], `an OR at ${node.name}`).toEqual([1, 1, 0])
    strengths.set(cause!.properties.get('id')!, causeYes!)
    node = before!
  }
  return { leak: node.rows[0]![0]!, strengths }
}

describe.each(kinds)('the file of %s', (kind) => {
  const model = wholeModel(kind)
  const text = modelFile(model, 'ab12')
  // the parser and its check against the published declarations throw where the file is at fault
  const network = readXmlbif(text)
  const nodes = [...network.nodes.values()]

  it('is the same each time', () => {
    expect(modelFile(wholeModel(kind), 'ab12')).toBe(text)
  })

  it('says what it is, from which rulebook, and what to set', () => {
    const comment = /<!--([\s\S]*?)-->/.exec(text)![1]!
    for (const said of [kind, 'ab12', 'XMLBIF 0.3', 'Set in_trouble to yes']) expect(comment).toContain(said)
  })

  it('has names that every reader takes', () => {
    for (const name of [network.name, ...network.nodes.keys()]) expect(name).toMatch(/^[a-z][a-z0-9_]*$/)
  })

  it('has tables of chances that sum to 1, over two outcomes', () => {
    for (const { name, rows, outcomes } of nodes) {
      expect(outcomes, name).toEqual(['yes', 'no'])
      for (const row of rows) {
        for (const p of row) expect(p >= 0 && p <= 1, name).toBe(true)
        expect(Math.abs(row.reduce((sum, p) => sum + p, 0) - 1), name).toBeLessThanOrEqual(1e-15)
      }
    }
  })

  it('has at most two parents a node, all of them before it, so that nothing goes in circles', () => {
    const before = new Set<string>()
    for (const { name, parents } of nodes) {
      expect(parents.length, name).toBeLessThanOrEqual(2)
      expect(new Set(parents).size, name).toBe(parents.length)
      for (const parent of parents) expect(before, `${name} needs ${parent}`).toContain(parent)
      before.add(name)
    }
  })

  it('has every cause with its prior', () => {
    const causes = byRole(network, 'cause')
    expect(causes.map(({ properties }) => properties.get('id'))).toEqual(model.causes.map(({ id }) => id))
    causes.forEach(({ rows, parents, properties }, i) => {
      expect(parents).toEqual([])
      expect(Math.abs(rows[0]![0]! - model.priors[i]!)).toBeLessThanOrEqual(1e-12)
      expect(properties.get('name')).toBe(model.causes[i]!.name)
      expect(properties.has('exclusive')).toBe(model.exclusive[i])
    })
  })

  it('has every finding with its leak and strengths', () => {
    const findings = byRole(network, 'finding')
    expect(findings.map(({ properties }) => properties.get('id'))).toEqual(model.findings.map(({ id }) => id))
    findings.forEach((node, f) => {
      const { leak, strengths } = noisyOrAt(network, node)
      expect(Math.abs(leak - model.leaks[f]!)).toBeLessThanOrEqual(1e-12)
      model.causes.forEach(({ id }, i) => {
        expect(Math.abs((strengths.get(id) ?? 0) - model.strengths[f]![i]!), id).toBeLessThanOrEqual(1e-12)
      })
      expect(node.properties.get('says')).toBe(model.findings[f]!.says)
      expect(node.properties.get('topic')).toBe(model.findings[f]!.topic)
    })
  })

  it('comes to the leaky noisy-OR for sets of causes, and to trouble where a set can be', () => {
    const random = generator(4711)
    const causes = byRole(network, 'cause').map(({ name }) => name)
    const [trouble] = byRole(network, 'condition')
    for (let round = 0; round < 12; round++) {
      const share = [0, 0.02, 0.1, 0.6][round % 4]!
      const there = causes.map((_, i) => random() < share && !(round < 8 && model.exclusive[i]))
      const set = new Set(causes.filter((_, i) => there[i]))
      const excluded = there.some((is, i) => is && model.exclusive[i]) && set.size > 1
      expect(chanceOfYes(network, trouble!.name, set)).toBe(set.size > 0 && !excluded ? 1 : 0)
      byRole(network, 'finding').forEach(({ name }, f) => {
        // Pearl 1988 and Henrion 1989, as the method states it
        const missed = model.strengths[f]!.reduce((q, s, i) => (there[i] ? q * (1 - s) : q), 1)
        const expected = 1 - (1 - model.leaks[f]!) * missed
        expect(Math.abs(chanceOfYes(network, name, set) - expected), name).toBeLessThanOrEqual(1e-12)
      })
    }
    model.exclusive.forEach((isAlone, i) => {
      if (!isAlone) return
      const ordinary = causes[model.exclusive.indexOf(false)]!
      expect(chanceOfYes(network, trouble!.name, new Set([causes[i]!]))).toBe(1)
      expect(chanceOfYes(network, trouble!.name, new Set([causes[i]!, ordinary]))).toBe(0)
    })
  })
})
