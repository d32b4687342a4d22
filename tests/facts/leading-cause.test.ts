/**
 * Facts of the trade, from answers to the causes that lead.
 *
 * Source of every expected value here: common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import { preparedRulebook } from '../the-rulebook.js'

const shop = ShopSettings.parse({})
const prepared = await preparedRulebook()

interface Lead {
  /** cause ids, likeliest first */
  readonly order: readonly string[]
  /** how many times as likely as the next one the first is */
  readonly margin: number
  readonly chance: (cause: string) => number
  readonly firstTwo: readonly string[]
}

async function leads(answers: Record<string, Answer>, fixesTried: readonly string[] = []): Promise<Lead> {
  const situation = Situation.parse({ kind: 'universal-motor', answers, fixesTried })
  const { causes } = await assess(prepared, situation, shop)
  const order = causes.map(({ id }) => id)
  return {
    order,
    margin: causes[0]!.probability / causes[1]!.probability,
    chance: (cause) => causes.find(({ id }) => id === cause)!.probability,
    firstTwo: order.slice(0, 2).sort(),
  }
}

/** "By a clear margin": at least twice as likely as anything else. */
const clear = 2

describe('it comes and goes like a loose wire (common practice, no source)', () => {
  it('alone: worn brushes and a broken cord lead, and nothing else is near them', async () => {
    const alone = await leads({ 'cuts-in-and-out': 'yes' })
    expect(alone.firstTwo).toEqual(['broken-cord', 'worn-brushes'])
    expect(alone.chance(alone.order[1]!)).toBeGreaterThan(clear * alone.chance(alone.order[2]!))
  })
  it('the cord ruled out: the brushes, clearly', async () => {
    const ruledOut = await leads({ 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'no' })
    expect(ruledOut.order[0]).toBe('worn-brushes')
    expect(ruledOut.margin).toBeGreaterThan(clear)
  })
  it('the bend of the cord changes it: the cord, clearly', async () => {
    const cord = await leads({ 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'yes' })
    expect(cord.order[0]).toBe('broken-cord')
    expect(cord.margin).toBeGreaterThan(clear)
  })
  it('a meter that stays still says the same as a bend that changes nothing', async () => {
    const still = await leads({ 'cuts-in-and-out': 'yes', 'cord-meter-jumps': 'no' })
    expect(still.order[0]).toBe('worn-brushes')
  })
  it('sparks and a tap that brings it back make the brushes likelier still', async () => {
    const before = await leads({ 'cuts-in-and-out': 'yes' })
    const after = await leads({ 'cuts-in-and-out': 'yes', 'sparks-bright': 'yes', 'runs-after-tap': 'yes' })
    expect(after.chance('worn-brushes')).toBeGreaterThan(before.chance('worn-brushes'))
    expect(after.order.indexOf('worn-brushes')).toBeLessThan(after.order.indexOf('broken-cord'))
  })
  it('long brushes clear the brushes, and short ones settle it', async () => {
    const told = { 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'no' } as const
    const long = await leads({ ...told, 'brush-length': 11 })
    const short = await leads({ ...told, 'brush-length': 4 })
    expect(long.order[0]).not.toBe('worn-brushes')
    expect(short.order[0]).toBe('worn-brushes')
    expect(short.margin).toBeGreaterThan(5)
  })
})

describe('it does not start (common practice, no source)', () => {
  it('after it came on slowly, the brushes are among the first three', async () => {
    const dead = await leads({ 'wont-start': 'yes', 'came-on-slowly': 'yes' })
    expect(dead.order.slice(0, 3)).toContain('worn-brushes')
  })
  it('nothing else known: brushes and cord before anything inside', async () => {
    expect((await leads({ 'wont-start': 'yes' })).firstTwo).toEqual(['broken-cord', 'worn-brushes'])
  })
  it('runs on another outlet: the outlet, clearly', async () => {
    const outlet = await leads({ 'wont-start': 'yes', 'other-outlet-cures': 'yes' })
    expect(outlet.order[0]).toBe('dead-outlet')
    expect(outlet.margin).toBeGreaterThan(clear)
  })
  it('edge, oil and seat of the blade do not keep a motor from starting', async () => {
    const dead = await leads({ 'wont-start': 'yes' })
    for (const blade of [
      'dull-blade',
      'dry-blade',
      'wrong-blade-tension',
      'rounded-drive-lever',
      'worn-hinge',
    ])
      expect(dead.chance(blade), blade).toBeLessThan((await leads({})).chance(blade) / 2)
  })
})

describe('heat (common practice, no source)', () => {
  it('in the hand near the head: the dry drive bearing, clearly', async () => {
    const nose = await leads({ 'hot-near-head': 'yes' })
    expect(nose.order[0]).toBe('dry-bearing')
    expect(nose.margin).toBeGreaterThan(clear)
  })
  it('a squeal from cold with it leaves no doubt', async () => {
    const nose = await leads({ 'hot-near-head': 'yes', squeals: 'yes' })
    expect(nose.order[0]).toBe('dry-bearing')
    expect(nose.margin).toBeGreaterThan(5)
  })
  it('all over, and slow: the vents, and more so when they are seen clogged', async () => {
    const told = await leads({ 'hot-all-over': 'yes', 'slows-down': 'yes' })
    const seen = await leads({ 'hot-all-over': 'yes', 'slows-down': 'yes', 'vents-blocked-seen': 'yes' })
    expect(told.order[0]).toBe('blocked-vents')
    expect(told.margin).toBeGreaterThan(clear)
    expect(seen.order[0]).toBe('blocked-vents')
    expect(seen.chance('blocked-vents')).toBeGreaterThan(told.chance('blocked-vents'))
  })
  it('only in the steel: the dry blade first', async () => {
    expect((await leads({ 'blade-gets-hot': 'yes' })).order[0]).toBe('dry-blade')
  })
  it('only after a long run, and oil and vents in order: nothing is broken', async () => {
    const long = await leads({
      'blade-gets-hot': 'yes',
      'hot-only-after-long-run': 'yes',
      'oil-overdue': 'no',
      'vents-blocked-seen': 'no',
    })
    expect(long.order[0]).toBe('run-too-long')
  })
})

describe('drive and gears (common practice, no source)', () => {
  it('a slight wobble and a rounded tip: the drive lever, clearly', async () => {
    const lever = await leads({ 'blade-wobbles': 'yes', 'drive-tip-worn': 'yes' })
    expect(lever.order[0]).toBe('rounded-drive-lever')
    expect(lever.margin).toBeGreaterThan(clear)
  })
  it('a wobble alone: lever and hinge, and the hinge once it rocks itself', async () => {
    expect((await leads({ 'blade-wobbles': 'yes' })).firstTwo).toEqual(['rounded-drive-lever', 'worn-hinge'])
    const rocks = await leads({ 'blade-wobbles': 'yes', 'hinge-or-seat-loose': 'yes' })
    expect(rocks.order[0]).toBe('worn-hinge')
  })
  it('every blade snags, new ones too: the lever and not the blades', async () => {
    const all = await leads({ 'pulls-or-snags': 'yes', 'every-blade-snags': 'yes' })
    expect(all.order[0]).toBe('rounded-drive-lever')
    expect(all.order.indexOf('dull-blade')).toBeGreaterThan(0)
    expect(all.margin).toBeGreaterThan(clear)
  })
  it('a known good blade cures it: the blade and not the lever', async () => {
    const cured = await leads({ 'pulls-or-snags': 'yes', 'good-blade-cures': 'yes' })
    expect(cured.order[0]).toBe('dull-blade')
  })
  it('slow until it is warm: old grease and the dry bearing', async () => {
    const cold = await leads({ 'slow-until-warm': 'yes' })
    expect(cold.firstTwo).toEqual(['dry-bearing', 'stiff-gear-grease'])
    const whines = await leads({ 'slow-until-warm': 'yes', 'whine-at-nose': 'yes' })
    expect(whines.order[0]).toBe('stiff-gear-grease')
  })
})

describe('fixes and danger (common practice, no source)', () => {
  it('new brushes that did not cure it clear the brushes', async () => {
    const told = { 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'no' } as const
    const before = await leads(told)
    const after = await leads(told, ['new-brush-pair'])
    expect(after.order[0]).not.toBe('worn-brushes')
    expect(after.chance('worn-brushes')).toBeLessThan(before.chance('worn-brushes') / 4)
  })
  it.each(['tingle-or-shock', 'smoke-or-burning-smell', 'cord-damaged', 'after-wet', 'wont-turn-off'])(
    '%s ends the work, whatever leads',
    async (sign) => {
      const situation = Situation.parse({ kind: 'universal-motor', answers: { [sign]: 'yes' } })
      const { next, stops } = await assess(prepared, situation, shop)
      expect(next).toMatchObject({ step: 'stop', id: sign })
      expect(stops[0]).toMatchObject({ id: sign, grade: 'set-aside' })
    },
  )
})
