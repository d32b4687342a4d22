/**
 * Facts of the trade about the two kinds whose arm is pulled by a coil: which fault leads on which story.
 *
 * Source of every expected value here: common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Answers, Kind } from './vibrator-bench.js'
import { kinds, knowledge, look, margin, order } from './vibrator-bench.js'

/** "Clearly": at least twice as likely as anything else. */
const clear = 2

describe.each(kinds)('%s: what clearly leads (common practice, no source)', (kind) => {
  it.each<[string, Answers, string]>([
    [
      'it bangs on a mains that is not on its plate',
      { 'loud-clatter': 'yes', 'plate-mismatch': 'yes' },
      'wrong-supply',
    ],
    [
      'it began on another mains and is fed by a generator',
      { 'after-other-supply': 'yes', 'supply-not-plain': 'yes', 'loud-clatter': 'yes' },
      'wrong-supply',
    ],
    [
      'quarter turns of the screw bring it right',
      { 'loud-clatter': 'yes', 'power-screw-cures': 'yes' },
      'power-screw-off',
    ],
    [
      'it comes and goes, and the cord does it',
      { 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'yes' },
      'broken-cord',
    ],
    ['it comes and goes, and nothing else is known', { 'cuts-in-and-out': 'yes' }, 'broken-cord'],
    [
      'dead here, well on another outlet',
      { 'wont-start': 'yes', 'other-outlet-cures': 'yes' },
      'dead-outlet',
    ],
    [
      'dead, open at the pins however the cord lies, and the switch closes',
      {
        'wont-start': 'yes',
        'pins-read-open': 'yes',
        'cord-meter-jumps': 'no',
        'cord-flex-changes-it': 'no',
        'switch-stays-open': 'no',
      },
      'open-coil',
    ],
    [
      'it pulls, and a known good blade cures it',
      { 'pulls-or-snags': 'yes', 'good-blade-cures': 'yes' },
      'dull-blade',
    ],
    [
      'it bites since somebody set the gap',
      { 'reddens-or-nicks-skin': 'yes', 'after-gap-adjusting': 'yes' },
      'cutter-too-far-forward',
    ],
    [
      'one line, always at the same place, and a tooth is gone',
      { 'leaves-lines': 'yes', 'one-line-same-place': 'yes', 'tooth-missing': 'yes' },
      'broken-tooth',
    ],
    ['the lever drifts', { 'leaves-lines': 'yes', 'lever-drifts': 'yes' }, 'loose-taper-lever'],
    [
      'hot within a minute over the coil',
      { 'hot-all-over': 'yes', 'hot-from-cold-fast': 'yes', 'plate-mismatch': 'no' },
      'shorted-coil',
    ],
    [
      'redness hours later, teeth, gap, cut and heat in order',
      { 'reddens-or-nicks-skin': 'yes', 'rash-hours-later': 'yes', 'skin-checks-pass': 'yes' },
      'pressed-skin',
    ],
    [
      'it hums and stands still after weeks in a drawer',
      { 'hums-no-motion': 'yes', 'after-standing': 'yes' },
      'stuck-blade-after-storage',
    ],
  ])('%s', async (_story, told, cause) => {
    const at = await look(kind, told)
    expect(order(at)[0]).toBe(cause)
    expect(margin(at)).toBeGreaterThan(clear)
  })

  it('hot steel is the blade, a hot body is the coil', async () => {
    const steel = await look(kind, { 'blade-temperature': 55, 'body-temperature': 35 })
    const body = await look(kind, { 'blade-temperature': 38, 'body-temperature': 60, 'plate-mismatch': 'no' })
    expect(order(steel)[0]).toBe('dry-blade')
    expect(order(body)[0]).toBe('shorted-coil')
  })

  it('free hum and lazy cutter is the way to the cutter; a strained hum is drag in the blade', async () => {
    const drags = ['gummed-blade', 'dry-blade', 'packed-hair', 'wrong-blade-tension']
    const races = order(await look(kind, { 'races-but-lazy': 'yes', 'labours-and-lazy': 'no' }))
    const labours = order(await look(kind, { 'races-but-lazy': 'no', 'labours-and-lazy': 'yes' }))
    expect(drags).not.toContain(races[0])
    expect(drags).toContain(labours[0])
  })

  it('every blade snags: not the blades', async () => {
    const every = order(await look(kind, { 'pulls-or-snags': 'yes', 'every-blade-snags': 'yes' }))
    expect(['power-screw-off', 'broken-return-spring', 'wrong-arm-gap', 'worn-pivot']).toContain(every[0])
  })

  it('dead: the cord before switch, outlet and coil', async () => {
    expect(order(await look(kind, { 'wont-start': 'yes' }))[0]).toBe('broken-cord')
  })
})

describe('where the two kinds differ (common practice, no source)', () => {
  it('a magnetic one that bangs: the screw first, and once the screw did nothing, the gap of the arm', async () => {
    const bangs = { 'loud-clatter': 'yes', 'after-other-supply': 'no', 'plate-mismatch': 'no' } as const
    expect(order(await look('magnetic-motor', bangs))[0]).toBe('power-screw-off')
    const tried = await look('magnetic-motor', { ...bangs, 'power-screw-cures': 'no' }, ['set-power-screw'])
    expect(order(tried)[0]).toBe('wrong-arm-gap')
  })
  it('a pivot one that knocks under a strong hum: the pivot', async () => {
    const knocks = await look('pivot-motor', { 'knock-or-tick': 'yes', 'slows-down': 'yes' })
    expect(order(knocks)[0]).toBe('worn-pivot')
    expect(margin(knocks)).toBeGreaterThan(clear)
  })
  it('only one of them has a pivot, and neither has brushes, gears, bearings, a hinge or a fan', () => {
    const parts = (kind: Kind) => bookOf(knowledge, kind).kinds[0]!.parts.map(({ id }) => id)
    expect(parts('magnetic-motor')).not.toContain('pivot')
    expect(parts('pivot-motor')).toContain('pivot')
    for (const kind of kinds)
      for (const part of ['brushes', 'commutator', 'gears', 'bearing', 'hinge', 'fan-and-vents', 'battery'])
        expect(parts(kind), kind).not.toContain(part)
  })
})
