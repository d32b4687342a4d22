/**
 * Faults that share a sign: after it the rival stays in the running, until what tells the two apart is asked.
 *
 * Source of every expected value here: common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import { beliefsIn, KindBook } from './confusions-walk.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const prepared = await preparedRulebook()
const books = knowledge.kinds.map(({ id }) => new KindBook(knowledge, id))

/** Of a hundred tools that show the sign, at least so many have a rival, and no more than so many what leads. */
const keeps = 0.08
const atMost = 0.92

const pairs: readonly {
  readonly leads: string
  readonly rivals: readonly string[]
  /** the complaint and a sign, of which both share one at least */
  readonly shared: readonly string[]
  /** a yes to it speaks for the rivals */
  readonly tells: string
}[] = [
  {
    leads: 'dry-bearing',
    rivals: ['worn-bearing'],
    shared: ['hot-near-head', 'oil-point-drop-cures'],
    tells: 'shaft-play',
  },
  {
    leads: 'broken-cord',
    rivals: ['loose-inlet', 'loose-wire-inside', 'damaged-plug'],
    shared: ['cuts-in-and-out', 'cord-flex-changes-it'],
    tells: 'inlet-nudge-changes-it',
  },
  {
    leads: 'loose-charge-socket',
    rivals: ['dirty-charge-contacts', 'broken-cord'],
    shared: ['wont-charge', 'charges-only-when-held'],
    tells: 'contacts-dirty',
  },
  {
    leads: 'misseated-blade',
    rivals: ['packed-hair', 'put-back-wrong'],
    shared: ['motor-runs-blade-still', 'blade-crooked-or-off-pin'],
    tells: 'hair-packed-seen',
  },
  {
    leads: 'wrong-supply',
    rivals: ['power-screw-off', 'dead-outlet'],
    shared: ['loud-clatter', 'other-outlet-cures'],
    tells: 'sound-tool-dead-there',
  },
  {
    leads: 'dead-outlet',
    rivals: ['wrong-supply'],
    shared: ['slows-down', 'other-outlet-cures'],
    tells: 'after-other-supply',
  },
  {
    leads: 'open-coil',
    rivals: ['shorted-coil'],
    shared: ['wont-start', 'smoke-or-burning-smell'],
    tells: 'coil-under-twin',
  },
]

describe.each(pairs)('$leads after $shared', ({ leads, rivals, shared, tells }) => {
  const kinds = books.filter(
    (own) =>
      [leads, ...rivals.slice(0, 1)].every(own.has) &&
      [...shared, tells].every((id) => own.finding(id)) &&
      shared.some((id) => [leads, rivals[0]!].every((cause) => own.points(id, cause))),
  )
  it('is a pair of some kind', () => expect(kinds.length).toBeGreaterThan(0))

  it.each(kinds.map((own) => ({ own, kind: own.kind })))(
    '$kind: the rival is alive, and one answer more raises it',
    async ({ own, kind }) => {
      const after = await beliefsIn(prepared, kind, own.answers(shared))
      const rival = rivals.reduce((sum, cause) => sum + after.chance(cause), 0)
      expect(after.chance(leads)).toBeLessThanOrEqual(atMost)
      expect(rival).toBeGreaterThanOrEqual(keeps)
      const told = await beliefsIn(prepared, kind, own.answers([...shared, tells]))
      expect(rivals.reduce((sum, cause) => sum + told.chance(cause), 0)).toBeGreaterThan(1.2 * rival)
    },
  )
})
