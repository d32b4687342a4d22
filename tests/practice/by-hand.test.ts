/** Losses, weights and cards over rulebooks so small that a pencil does. The plan is exact there. */
import { describe, expect, it } from 'vitest'
import { kindOf, prepare } from '../../server/diagnosis/prepare.js'
import type { CardNode } from '../../server/practice/card.js'
import { compileCard } from '../../server/practice/card.js'
import { cardCosts } from '../../server/practice/card-cost.js'
import { cardFigure } from '../../server/practice/card-figures.js'
import { debriefOf } from '../../server/practice/debrief.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import { drawnFor } from '../../server/practice/drawn.js'
import { practiceShop } from '../../server/practice/level-book.js'
import { playOut } from '../../server/practice/played.js'
import { worthOf } from '../../server/practice/worth.js'
import type { Knowledge, Level } from '../../shared/knowledge.js'
import { folders } from '../../shared/knowledge.js'
import type { PracticeMove } from '../../shared/practice.js'
import { cause, finding, fix, KIND, question, rulebook, step } from '../diagnosis/small-rulebook.js'
import { exerciseOf } from './bench.js'

const level: Level = {
  id: 'first',
  ...folders.levels.parse({
    name: 'First',
    says: 'One fault, told once.',
    kinds: 'all',
    causes: 'all',
    faults: 'one',
    told: 1,
    skill: 'S3',
    order: 1,
    source: 'made-up',
  }),
}

/** Two faults, four in five and one in five; both are complained of alike; each has its repair of three minutes. */
const twoFaults = (more: Partial<Knowledge> = {}): Knowledge =>
  rulebook({
    levels: [level],
    causes: [cause('common', 800), cause('rare', 200)],
    findings: [finding('bad', { common: 0.9, rare: 0.9 }, { leak: 0.01 })],
    steps: [step('story', [question('bad', { sense: 'eyes' })], { form: 'ask', minutes: 0.5, opens: true })],
    fixes: [fix('mend-common', { common: 0.999 }), fix('mend-rare', { rare: 0.999 })],
    ...more,
  })

/** One question that tells them apart: yes in 81 of 100 of the one, in 5 of 100 of the other. */
const telling = (minutes: number, strength = 0.8): Partial<Knowledge> => ({
  findings: [
    finding('bad', { common: 0.9, rare: 0.9 }, { leak: 0.01 }),
    finding('is-common', { common: strength }, { leak: 0.05 }),
  ],
  steps: [
    step('story', [question('bad', { sense: 'eyes' })], { form: 'ask', minutes: 0.5, opens: true }),
    step('look', ['is-common'], { minutes }),
  ],
})

const exercise = exerciseOf({ kind: KIND, level: 'first', seed: 4 })
/** What a minute costs at the practice bench. */
const { rate } = practiceShop(level)

async function deskOf(knowledge: Knowledge) {
  const desk = await layOut(await prepare(knowledge), exercise)
  const loss = async (move: PracticeMove) => (await worthOf(desk, startOf(desk), move)).loss
  return { desk, loss }
}

describe('what a move loses', () => {
  it('the rarer repair first: one more repair in 3 of 5 tools', async () => {
    const { loss } = await deskOf(twoFaults())
    expect(await loss({ type: 'tried', fix: 'mend-common' })).toBe(0)
    // 3 min · (1 + 4/5) against 3 min · (1 + 1/5)
    expect(await loss({ type: 'tried', fix: 'mend-rare' })).toBeCloseTo(3 * rate * 0.6, 1)
  })

  it('a look that tells nothing new: its price', async () => {
    const { loss } = await deskOf(twoFaults())
    expect(await loss({ type: 'looked', step: 'story' })).toBeCloseTo(0.5 * rate, 9)
  })

  it('sending in what two repairs would settle: the fee less the repairs', async () => {
    const { desk, loss } = await deskOf(twoFaults())
    expect(await loss({ type: 'ended', way: 'send-in' })).toBeCloseTo(desk.shop.sendIn - 3 * rate * 1.2, 0)
    expect(await loss({ type: 'ended', way: 'set-aside' })).toBeCloseTo(desk.shop.replace - 3 * rate * 1.2, 0)
  })

  it('not asking what is worth asking: the price of knowing less', async () => {
    const { loss } = await deskOf(twoFaults(telling(0.1)))
    expect(await loss({ type: 'looked', step: 'look' })).toBe(0)
    // after it: yes in .8·.81 + .2·.05 = .658, then rare with .01/.658; no in .342, then common with .152/.342
    const asked = 0.1 + 3 * (1 + 0.658 * (0.01 / 0.658) + 0.342 * (0.152 / 0.342))
    // without: the common repair first, the other one in 1 of 5
    expect(await loss({ type: 'tried', fix: 'mend-common' })).toBeCloseTo(rate * (3 * 1.2 - asked), 1)
  })

  it('the same question where it costs more than it saves', async () => {
    const { loss } = await deskOf(twoFaults(telling(2)))
    const asked = 2 + 3 * (1 + 0.01 + 0.152)
    expect(await loss({ type: 'tried', fix: 'mend-common' })).toBe(0)
    expect(await loss({ type: 'looked', step: 'look' })).toBeCloseTo(rate * (asked - 3 * 1.2), 1)
  })
})

describe('the debrief', () => {
  it('tells move by move what the plan would have done, what was lost, and what the answer said', async () => {
    const prepared = await prepare(twoFaults(telling(0.1)))
    const { tool } = drawnFor(kindOf(prepared, KIND), level, [], exercise)
    const truth = tool.main === 0 ? 'common' : 'rare'
    const moves: PracticeMove[] = [
      { type: 'spread', spread: { points: { [truth]: 80 }, other: 20 } },
      { type: 'looked', step: 'look' },
      { type: 'tried', fix: `mend-${truth}` },
      { type: 'disinfected' },
      { type: 'ended', way: 'hand-back' },
    ]
    const debrief = await debriefOf(await playOut(prepared, { ...exercise, moves }))
    expect(debrief.steps.map(({ plan }) => plan.type)).toEqual([
      'looked',
      'looked',
      'tried',
      'disinfected',
      'ended',
    ])
    expect(debrief.causes).toEqual([truth])
    expect(debrief.left).toEqual([])
    expect(debrief.losses).toBe(0)
    expect(debrief.score).toBe(100)
    const look = debrief.steps[1]!
    const said = look.done.told[0]!.answer === 'yes'
    const weight = look.tells.find(({ cause: id }) => id === 'common')!.decibans
    // Good's weight of evidence: ten times the logarithm of the ratio of the two chances
    expect(weight).toBeCloseTo(10 * Math.log10(said ? 0.81 / 0.05 : 0.19 / 0.95), 0)
    expect(debrief.planSpread).toEqual({ points: { common: 80, rare: 20 }, other: 0 })
  })

  it('an exercise that goes on has no score yet, and a refused move changes nothing', async () => {
    const prepared = await prepare(twoFaults())
    const moves: PracticeMove[] = [{ type: 'tried', fix: 'no-such-thing' }]
    const debrief = await debriefOf(await playOut(prepared, { ...exercise, moves }))
    expect(debrief.score).toBeUndefined()
    expect(debrief.losses).toBe(0)
    expect(debrief.steps[0]!.done.refused).toBeDefined()
  })
})

describe('the card', () => {
  const shop = practiceShop(level)
  const words = (node: CardNode): string =>
    node.is === 'question'
      ? `${node.finding}? (${words(node.yes)}) (${words(node.no)})`
      : node.is === 'fix'
        ? `${node.fix}, ${words(node.next)}`
        : node.is

  it('asks what tells, then fixes the likelier first and the other next', async () => {
    const prepared = await prepare(twoFaults(telling(0.1, 0.98)))
    const card = await compileCard(kindOf(prepared, KIND), 'bad', shop)
    expect(words(card.root)).toMatch(
      /^is-common\? \(mend-common, mend-rare, .*\) \(mend-rare, mend-common, .*\)$/,
    )
    expect(card.questions).toBe(1)
  })

  it('asks nothing where nothing pays, and draws no more questions than fit', async () => {
    const prepared = await prepare(twoFaults(telling(2)))
    expect(words((await compileCard(kindOf(prepared, KIND), 'bad', shop)).root)).toMatch(
      /^mend-common, mend-rare/,
    )
    const none = await compileCard(kindOf(await prepare(twoFaults(telling(0.1, 0.98))), KIND), 'bad', shop, 0)
    expect(none.questions).toBe(0)
  })

  it('costs what the full plan costs where the paper holds all of it', async () => {
    const prepared = await prepare(twoFaults(telling(0.1, 0.98)))
    const card = await compileCard(kindOf(prepared, KIND), 'bad', shop)
    const { tools, full, more, lost } = cardFigure(card, await cardCosts(prepared, card, shop, 40))
    expect(tools).toBe(40)
    expect(full).toBeGreaterThan(0)
    expect(more.mean).toBeCloseTo(0, 9)
    expect(more.se).toBeCloseTo(0, 9)
    expect(lost.mean).toBeCloseTo(0, 9)
  })

  it('does not know a complaint that the kind does not have', async () => {
    const prepared = await prepare(twoFaults())
    await expect(compileCard(kindOf(prepared, KIND), 'no-such-thing', shop)).rejects.toThrow(RangeError)
  })
})
