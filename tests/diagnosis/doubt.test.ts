/** The answer to look at once more: worked out by hand from sums over all states. */
import { describe, expect, it } from 'vitest'
import { assess, prepare } from '../../server/diagnosis/assess.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { modelOf } from '../../server/diagnosis/model.js'
import { enumerated } from './brute-force.js'
import { anyOf, cause, finding, fix, is, KIND, rulebook, step, stop } from './small-rulebook.js'

const findings = [
  finding('cuts-out', { cord: 0.9 }, { leak: 0.05 }),
  finding('flex', { cord: 0.95 }, { leak: 0.01 }),
  finding('nudge', { cord: 0.9 }, { leak: 0.01 }),
  finding('short', { brushes: 0.95 }, { leak: 0.01 }),
]
const book = rulebook({
  causes: [cause('brushes', 500), cause('cord', 500)],
  findings,
  steps: [step('look', ['cuts-out', 'flex', 'nudge', 'short'])],
  fixes: [fix('new-cord', { cord: 0.9 }), fix('new-brushes', { brushes: 0.9 })],
})
const shop = ShopSettings.parse({})

async function doubtAbout(answers: Record<string, Answer>, knowledge = book, sure: string[] = []) {
  return (await assess(await prepare(knowledge), Situation.parse({ kind: KIND, answers, sure }), shop)).doubt
}

describe('the answer to look at once more', () => {
  it('is the one that the others contradict, with the chance of a slip that follows from the definition', async () => {
    const doubt = await doubtAbout({ 'cuts-out': 'yes', flex: 'no' })
    const model = modelOf(book, KIND)
    const cutsOut = { finding: 0, present: true, after: 0 }
    const held = { finding: 1, present: false, after: 0 }
    const p = enumerated(model, [cutsOut, held], []).trouble / enumerated(model, [cutsOut], []).trouble
    expect(doubt).toMatchObject({ finding: 'flex', question: 'flex', said: false, leads: 'cord' })
    expect(doubt!.slip).toBeCloseTo((0.05 * (1 - p)) / (0.05 * (1 - p) + 0.95 * p), 9)
  })

  it('is none where the answers fit each other', async () => {
    expect(await doubtAbout({})).toBeNull()
    expect(await doubtAbout({ 'cuts-out': 'yes', flex: 'yes', nudge: 'yes', short: 'no' })).toBeNull()
  })

  it('is a rare sign that nothing else bears out, but not a common one', async () => {
    const rare = { ...book, causes: [cause('brushes', 100), cause('cord', 900)] }
    expect(await doubtAbout({ short: 'yes' }, rare)).toMatchObject({ question: 'short', leads: 'cord' })
    const common = { ...book, causes: [cause('brushes', 400), cause('cord', 600)] }
    expect(await doubtAbout({ short: 'yes' }, common)).toBeNull()
  })

  it('is none that was told unasked, or looked at twice', async () => {
    expect(await doubtAbout({ 'cuts-out': 'yes', flex: 'no' }, book, ['flex'])).toBeNull()
  })

  it('is none where the other cause takes the same fix', async () => {
    const oneFix = { ...book, fixes: [fix('overhaul', { cord: 0.9, brushes: 0.9 })] }
    expect(await doubtAbout({ 'cuts-out': 'yes', flex: 'no' }, oneFix)).toBeNull()
  })

  it('is none where the other answer would put the same cause first', async () => {
    expect(await doubtAbout({ 'cuts-out': 'yes', flex: 'yes', nudge: 'no' })).toBeNull()
  })

  it('is never a danger sign: that has a question of its own', async () => {
    const dangerous = { ...book, stops: [stop('bare', 'set-aside', anyOf(is('flex')))] }
    const doubt = await doubtAbout({ 'cuts-out': 'yes', flex: 'no' }, dangerous)
    expect(doubt?.finding).not.toBe('flex')
  })
})
