/** What a rulebook lacks: causes that nothing tells apart or confirms, stops out of reach, questions without use. */
import { describe, expect, it } from 'vitest'
import { modelOf } from '../../server/diagnosis/model.js'
import { confirmedShare } from './confirmed.js'
import { idleQuestions } from './idle-questions.js'
import { repairItems } from '../../server/proof/repair-items.js'
import { unreachedStops } from './stops-reached.js'
import { alikePairs, askable } from './told-apart.js'
import { askerOf, interview } from '../../server/simulation/interview.js'
import { drawTool } from '../../server/simulation/tool.js'
import {
  allOf,
  anyOf,
  cause,
  finding,
  fix,
  is,
  KIND,
  question,
  relevance,
  rulebook,
  step,
  stop,
} from '../diagnosis/small-rulebook.js'

const causes = [cause('a', 40), cause('b', 35), cause('c', 25)]
const fixes = [fix('mend-a', { a: 0.9 }), fix('mend-b', { b: 0.9 }), fix('mend-c', { c: 0.9 })]

describe('causes told apart', () => {
  const findings = [
    finding('x', { a: 0.8, b: 0.7 }, { leak: 0.1 }),
    finding('y', { c: 0.9 }, { leak: 0.1 }),
    finding('dear', { a: 0.9 }, { leak: 0.1 }),
  ]
  const book = rulebook({
    causes,
    findings,
    fixes,
    steps: [step('look', ['x', 'y']), step('open', ['dear'])],
  })
  const model = modelOf(book, KIND)

  it('lists a pair that only a barred look separates, with the greatest difference', async () => {
    const asker = await askerOf(model, new Set(['open']))
    // by hand: P(x|a) − P(x|b) = 0.9·0.1 = 0.09 with the leak; c is apart by y
    expect(alikePairs(asker, repairItems(model))).toEqual([
      { causes: ['a', 'b'], apart: expect.closeTo(0.09, 12), sameRepair: false },
    ])
  })

  it('lists none once that look may be taken', async () => {
    expect(alikePairs(await askerOf(model, new Set()), repairItems(model))).toEqual([])
  })

  it('takes the first of a topic only', async () => {
    const tied = modelOf(
      rulebook({
        causes,
        findings: [finding('x', { a: 0.9 }, { topic: 't' }), finding('y', { b: 0.9 }, { topic: 't' })],
        steps: [step('look', ['x', 'y'])],
      }),
      KIND,
    )
    expect(askable(await askerOf(tied, new Set()))).toEqual([0])
  })
})

describe('causes confirmed', () => {
  const clear = finding('clear', { a: 0.98 }, { leak: 0.002 })
  const vague = finding('vague', { b: 0.6, c: 0.6 }, { leak: 0.3 })
  it('by a sign that only they show, and not by one that others share', async () => {
    const model = modelOf(
      rulebook({ causes, findings: [clear, vague], fixes, steps: [step('look', ['clear', 'vague'])] }),
      KIND,
    )
    const asker = await askerOf(model, new Set())
    expect(await confirmedShare(asker, 0, 200)).toBeGreaterThan(0.9)
    expect(await confirmedShare(asker, 1, 200)).toBe(0)
  })
})

describe('stops', () => {
  const findings = [
    finding('shock', { a: 0.5 }),
    finding('nobody-asks', { b: 0.5 }),
    finding('hot', { c: 0.5 }, { when: allOf({ fact: 'heat', operator: 'greaterThan', value: 60 }) }),
  ]
  const steps = [
    step('danger', ['shock'], { form: 'danger' }),
    step('measure', [question('heat', { kind: 'number', unit: 'degC', min: 0, max: 150 })]),
  ]
  it.each([
    ['a sign that is asked for', allOf(is('shock')), true],
    ['a reading over its threshold', allOf(is('hot')), true],
    ['one of two signs', anyOf(is('nobody-asks'), is('shock')), true],
    ['a sign that nobody asks for', allOf(is('nobody-asks')), false],
    ['two signs, one of them never asked for', allOf(is('shock'), is('nobody-asks')), false],
    ['a sign of another kind of tool', allOf(is('swollen-pack')), false],
    ['what contradicts itself', allOf(is('shock'), is('shock', 'no')), false],
    ['can’t tell', allOf(is('shock', 'cant-tell')), true],
  ])('reached by %s', async (_, when, reached) => {
    const model = modelOf(
      rulebook({ causes, findings, steps, stops: [stop('it-hurts', 'set-aside', when)] }),
      KIND,
    )
    expect(await unreachedStops(model)).toEqual(reached ? [] : ['it-hurts'])
  })
})

describe('idle questions', () => {
  const findings = [
    finding('tells', { a: 0.9, b: 0.1 }, { leak: 0.05 }),
    finding('hardly', { a: 0.002 }, { leak: 0.3 }),
    finding('same-repair', { a: 0.9 }, { leak: 0.05 }),
    finding('opens-a-way', {}, { leak: 0.1 }),
    finding('danger', {}, { leak: 0.1 }),
  ]
  const steps = [step('look', ['tells', 'hardly', 'same-repair', 'opens-a-way', 'danger'])]
  const rules = {
    stops: [stop('it-hurts', 'off-the-client', allOf(is('danger')))],
    relevance: [relevance('r', allOf(is('opens-a-way')), { fixes: ['mend-c'] })],
  }

  async function idleOf(own: typeof fixes) {
    const model = modelOf(
      rulebook({ causes: causes.slice(0, 2), findings, steps, fixes: own, ...rules }),
      KIND,
    )
    const asker = await askerOf(model, new Set())
    const search = idleQuestions(asker, repairItems(model))
    for (let number = 0; number < 200; number++) {
      const tool = drawTool(model, number)
      search.see(await interview(asker, tool), [])
    }
    return search.left()
  }

  it('are those that move no repair, stop nothing and open nothing', async () => {
    expect(await idleOf(fixes)).toEqual(['hardly'])
  })

  it('are all but those where one repair does for everything', async () => {
    expect(await idleOf([fix('mend', { a: 0.9, b: 0.9 })])).toEqual(['tells', 'hardly', 'same-repair'])
  })
})
