/**
 * Looks that a first look does not replace, and looks that a still tool allows.
 *
 * Source of every expected value here: common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

type Answers = Readonly<Record<string, Answer>>
const kinds = knowledge.kinds.map(({ id }) => id)
const bench = ShopSettings.parse({ skill: 'S3', canSafetyTest: true })
const prepared = await preparedRulebook()

const look = (kind: string, answers: Answers): Promise<Assessment> =>
  assess(prepared, Situation.parse({ kind, answers }), bench)
const first = ({ causes }: Assessment): string => causes[0]!.id
const chance = ({ causes }: Assessment, cause: string): number =>
  causes.find(({ id }) => id === cause)!.probability
const asks = (kind: string, finding: string): boolean =>
  bookOf(knowledge, kind).findings.some(({ id }) => id === finding)
const safe = (kind: string): Answers =>
  Object.fromEntries(
    bookOf(knowledge, kind)
      .steps.filter(({ form }) => form === 'danger')
      .flatMap(({ questions }) => questions.map(({ id }) => [id, 'no'])),
  )

describe('a first look does not replace the second (common practice, no source)', () => {
  it.each(kinds)(
    '%s: a switch that never closes is broken, though it was not found unsteady',
    async (kind) => {
      const told: Answers = { 'wont-start': 'yes', 'switch-ohms-unsteady': 'no', 'switch-stays-open': 'yes' }
      expect(first(await look(kind, told))).toBe('broken-switch')
    },
  )
  it.each(kinds)('%s: still slow or rough with its blade off clears the edge of the blade', async (kind) => {
    const told: Answers = { 'slows-down': 'yes', 'better-without-blade': 'no' }
    const before = await look(kind, told)
    const after = await look(kind, { ...told, 'motor-bad-without-blade': 'yes' })
    expect(chance(after, 'dull-blade')).toBeLessThan(chance(before, 'dull-blade') / 2)
  })
  it('hot within one minute and no blade on it is the motor, though the timed run had not shown it', async () => {
    const told: Answers = { 'hot-all-over': 'yes', 'minutes-to-hot': 8, 'hot-from-cold-fast': 'yes' }
    expect(first(await look('universal-motor', told))).toBe('shorted-armature')
  })
  it.each(kinds)('%s: what is dead where a sound tool is dead too lacks an outlet', async (kind) => {
    const told: Answers = {
      'wont-start': 'yes',
      'sound-tool-dead-there': 'yes',
      'other-outlet-cures': 'yes',
    }
    expect(first(await look(kind, told))).toBe('dead-outlet')
  })
})

describe('a dead motor with the plug out (common practice, no source)', () => {
  const dead: Answers = { 'wont-start': 'yes', 'other-outlet-cures': 'no', 'cord-flex-changes-it': 'no' }
  it('a reading that jumps as the drive turns is brush, bar or winding, neither cord nor switch', async () => {
    const still = await look('universal-motor', dead)
    const turned = await look('universal-motor', { ...dead, 'pins-jump-while-turned': 'yes' })
    const touch = ['worn-brushes', 'sticking-brush', 'dirty-commutator', 'open-armature', 'weak-brush-spring']
    expect(touch).toContain(first(turned))
    for (const cause of ['broken-cord', 'broken-switch', 'dead-outlet'])
      expect(chance(turned, cause), cause).toBeLessThan(chance(still, cause) / 2)
  })
  it.each(kinds.filter((kind) => asks(kind, 'pins-read-short')))(
    '%s: a short at the pins is not plugged in again',
    async (kind) => {
      const sort: Answers = asks(kind, 'mains-straight-in') ? { 'mains-straight-in': 'yes' } : {}
      const at = await look(kind, { ...safe(kind), ...sort, ...dead, 'pins-read-short': 'yes' })
      expect(chance(at, 'failed-suppressor')).toBeGreaterThan(
        chance(await look(kind, dead), 'failed-suppressor'),
      )
      const running = bookOf(knowledge, kind).steps.filter(({ power }) => power)
      expect(running.map(({ id }) => id)).not.toContain(at.next.id)
    },
  )
  it.each(['universal-motor', 'rotary-corded'])(
    '%s: two speeds that sound the same point to what makes the low one',
    async (kind) => {
      const one = await look(kind, { 'speeds-sound-same': 'yes' })
      expect(['failed-rectifier', 'worn-switch-slider']).toContain(first(one))
    },
  )
})

describe('a dead tool (common practice, no source)', () => {
  it.each(kinds)('%s: what fingers and eyes find on a still blade may be said of it', async (kind) => {
    const { hidden } = await look(kind, { 'wont-start': 'yes' })
    for (const still of [
      'hinge-or-seat-loose',
      'latch-fails-pull',
      'tension-off-book',
      'gum-or-residue-seen',
    ])
      if (asks(kind, still)) expect(hidden.has(still), still).toBe(false)
    for (const running of ['oil-overdue', 'pulls-or-snags', 'hot-near-head'])
      if (asks(kind, running)) expect(hidden.has(running), running).toBe(true)
  })
})
