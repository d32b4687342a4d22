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
    const [bothYes, beforeYes, causeYes, neither] = node.rows.map((row) => row[0])
    if (cause!.properties.get('role') !== 'cause' || bothYes !== 1 || beforeYes !== 1 || neither !== 0)
      throw new Error(`no OR of a cause at ${node.name}`)
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
    const names = [network.name, ...network.nodes.keys()]
    expect(names.filter((name) => !/^[a-z][a-z0-9_]*$/.test(name))).toEqual([])
  })

  it('has tables of chances that sum to 1, over two outcomes', () => {
    const isOne = (row: readonly number[]) => Math.abs(row.reduce((sum, p) => sum + p, 0) - 1) <= 1e-15
    const wrong = nodes.filter(
      ({ rows, outcomes }) =>
        outcomes.join() !== 'yes,no' || !rows.flat().every((p) => p >= 0 && p <= 1) || !rows.every(isOne),
    )
    expect(wrong).toEqual([])
  })

  it('has at most two parents a node, all of them before it, so that nothing goes in circles', () => {
    const before = new Set<string>()
    const wrong = nodes.filter(({ name, parents }) => {
      const right =
        parents.length <= 2 &&
        new Set(parents).size === parents.length &&
        parents.every((it) => before.has(it))
      before.add(name)
      return !right
    })
    expect(wrong).toEqual([])
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
      const off = model.causes.filter(
        ({ id }, i) => !(Math.abs((strengths.get(id) ?? 0) - model.strengths[f]![i]!) <= 1e-12),
      )
      expect(off).toEqual([])
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
      const off = byRole(network, 'finding').filter(({ name }, f) => {
        // Pearl 1988 and Henrion 1989, as the method states it
        const missed = model.strengths[f]!.reduce((q, s, i) => (there[i] ? q * (1 - s) : q), 1)
        const expected = 1 - (1 - model.leaks[f]!) * missed
        return !(Math.abs(chanceOfYes(network, name, set) - expected) <= 1e-12)
      })
      expect(off).toEqual([])
    }
    model.exclusive.forEach((isAlone, i) => {
      if (!isAlone) return
      const ordinary = causes[model.exclusive.indexOf(false)]!
      expect(chanceOfYes(network, trouble!.name, new Set([causes[i]!]))).toBe(1)
      expect(chanceOfYes(network, trouble!.name, new Set([causes[i]!, ordinary]))).toBe(0)
    })
  })
})
