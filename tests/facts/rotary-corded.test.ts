/**
 * Facts of the trade about corded clippers with a small rotary motor: one kind that hides two sorts, one fed by a
 * plug-in supply and one fed straight by the mains.
 *
 * Source of every expected value here: common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { strengthIn } from '../../shared/finding-rule.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const kind = 'rotary-corded'
const book = bookOf(knowledge, kind)
const bench = ShopSettings.parse({ skill: 'S3', canSafetyTest: false })
const prepared = await preparedRulebook()

const look = (answers: Record<string, Answer>, shop = ShopSettings.parse({})): Promise<Assessment> =>
  assess(prepared, Situation.parse({ kind, answers }), shop)
const chance = ({ causes }: Assessment, cause: string): number =>
  causes.find(({ id }) => id === cause)!.probability
const order = ({ causes }: Assessment): readonly string[] => causes.map(({ id }) => id)

describe('which of the two sorts it is (common practice, no source)', () => {
  it('is asked before anything is measured or tried at the supply, and is no danger sign itself', () => {
    const danger = book.steps.find(({ form }) => form === 'danger')
    expect(danger?.questions.map(({ id }) => id)).not.toContain('mains-straight-in')
    for (const id of ['good-supply', 'supply-look', 'supply-volts'])
      expect(book.steps.find((step) => step.id === id)?.first, id).toContain('mains-straight-in')
  })
  it('every cause but those of the plug-in supply and its board says how often it is in a mains tool', () => {
    const sort = book.findings.find(({ id }) => id === 'mains-straight-in')!
    const silent = book.causes
      .filter(({ id }) => strengthIn(sort, id, kind) === undefined)
      .map(({ id }) => id)
    expect(silent.sort()).toEqual([
      'dead-supply',
      'failed-charge-board',
      'failed-motor-driver',
      'failed-protector',
    ])
  })
  it('straight to the wall: no supply to blame; with a box: no rectifier to blame', async () => {
    const dead = { 'wont-start': 'yes' } as const
    const mains = await look({ ...dead, 'mains-straight-in': 'yes' })
    const boxed = await look({ ...dead, 'mains-straight-in': 'no' })
    expect(chance(mains, 'dead-supply')).toBeLessThan(chance(boxed, 'dead-supply') / 6)
    expect(chance(boxed, 'failed-rectifier')).toBeLessThan(chance(mains, 'failed-rectifier') / 6)
    expect(order(boxed)[0]).toBe('dead-supply')
    expect(order(mains)[0]).toBe('broken-cord')
  })
  it('what both sorts have keeps its place among its like', async () => {
    const ratio = (at: Assessment): number => chance(at, 'dull-blade') / chance(at, 'dry-blade')
    const plain = await look({ 'pulls-or-snags': 'yes' })
    for (const answer of ['yes', 'no'] as const) {
      const told = await look({ 'pulls-or-snags': 'yes', 'mains-straight-in': answer })
      expect(ratio(told) / ratio(plain)).toBeCloseTo(1, 1)
    }
  })
})

describe('what is at mains and what is not (common practice, no source)', () => {
  it('fed by a box: an opened body needs no electrical safety test', async () => {
    const barred = (await look({ 'mains-straight-in': 'no' }, bench)).barred
    expect(barred.has('remake-joint')).toBe(false)
    expect(barred.has('new-small-motor')).toBe(false)
  })
  it.each(['yes', 'cant-tell'] as const)('%s: handled as a mains tool', async (answer) => {
    const at = await look({ 'mains-straight-in': answer }, bench)
    expect(at.barred.has('remake-joint')).toBe(true)
    for (const reading of ['motor-starved', 'motor-weak-on-bench-supply', 'drop-across-protector'])
      expect(at.hidden.has(reading), reading).toBe(true)
  })
  it('no step reads a live open mains tool', () => {
    const mains = book.steps.filter((step) => step.power && step.setups.includes('body-open'))
    for (const { questions } of mains)
      for (const { id } of questions) {
        const hiding = book.relevance.filter(({ hides }) => hides.questions.includes(id))
        expect(JSON.stringify(hiding.map(({ when }) => when))).toContain('"mains-straight-in"')
      }
  })
  it('no brush caps, no brush is taken out', async () => {
    const at = await look({ 'side-caps': 'no', 'cuts-in-and-out': 'yes' })
    expect(at.hidden.has('brush-length')).toBe(true)
  })
})

describe('what leads (common practice, no source)', () => {
  it.each([
    [
      'a known good supply brings it to life',
      { 'wont-start': 'yes', 'good-supply-cures': 'yes', 'mains-straight-in': 'no' },
      'dead-supply',
    ],
    [
      'the volts jump as the lead bends',
      { 'cuts-in-and-out': 'yes', 'supply-volts-jump': 'yes' },
      'broken-cord',
    ],
    [
      'the bend of the cord brings it back',
      { 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'yes' },
      'broken-cord',
    ],
    [
      'the lead is nudged at the body',
      { 'cuts-in-and-out': 'yes', 'inlet-nudge-changes-it': 'yes', 'cord-flex-changes-it': 'no' },
      'loose-inlet',
    ],
    ['it hums and the drive is locked', { 'hums-no-motion': 'yes', 'shaft-locked': 'yes' }, 'seized-bearing'],
    [
      'it races and the drive stands',
      { 'motor-runs-blade-still': 'yes', 'drive-still-blade-off': 'yes' },
      'slipped-eccentric',
    ],
    [
      'slow with a good supply and no blade',
      { 'slows-down': 'yes', 'motor-bad-without-blade': 'yes', 'mains-straight-in': 'no' },
      'worn-small-motor',
    ],
    [
      'a speed gone on a mains tool',
      { 'one-speed-lost': 'yes', 'mains-straight-in': 'yes' },
      'failed-rectifier',
    ],
    ['the lever wanders', { 'lever-drifts': 'yes', 'leaves-lines': 'yes' }, 'loose-taper-lever'],
    ['it fades in seconds', { 'fades-in-seconds': 'yes', 'mains-straight-in': 'no' }, 'failed-protector'],
  ] as const)('%s', async (_story, answers, cause) => {
    expect(order(await look(answers))[0]).toBe(cause)
  })
  it('a supply that cooks is set aside', async () => {
    expect((await look({ 'supply-hot-or-cracked': 'yes' })).next).toMatchObject({ step: 'stop' })
  })
  it('a dead tool is asked neither how it cuts nor how it sounds', async () => {
    const { hidden } = await look({ 'wont-start': 'yes' })
    for (const question of ['pulls-or-snags', 'louder-than-before', 'lever-drifts', 'hot-near-head'])
      expect(hidden.has(question), question).toBe(true)
  })
})
