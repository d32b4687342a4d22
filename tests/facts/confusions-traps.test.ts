/**
 * Traps of fault finding: where the first plausible part is not the cause, or not the only one.
 *
 * Source of every expected value here: common practice, no source, unless a record is named (Open Repair Data, Open
 * Repair Alliance, CC BY-SA 4.0, https://openrepair.org/open-data/).
 */
import { describe, expect, it } from 'vitest'
import type { Answer } from '../../shared/situation.js'
import type { Beliefs } from './confusions-walk.js'
import { beliefsIn, KindBook, nameOf, walk } from './confusions-walk.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const books = knowledge.kinds.map(({ id }) => new KindBook(knowledge, id))
const prepared = await preparedRulebook()

const believe = (own: KindBook, given: Readonly<Record<string, Answer>>, tried: readonly string[] = []) =>
  beliefsIn(prepared, own.kind, given, tried)

/** The kinds that have all these causes and findings. */
function kindsWith(causes: readonly string[], findings: readonly string[] = []) {
  const having = books.filter((own) => causes.every(own.has) && findings.every((id) => own.finding(id)))
  return having.map((own) => ({ own, kind: own.kind }))
}

/** The fix that cures one cause best and leaves the other as it is. */
function fixFor(own: KindBook, cause: string, leaves: string): string {
  const curing = own.book.fixes
    .filter(({ cures }) => cures[cause] !== undefined && cures[leaves] === undefined)
    .sort((a, b) => b.cures[cause]! - a.cures[cause]!)
  expect(curing, `${own.kind} has a fix for ${cause}`).not.toHaveLength(0)
  return curing[0]!.id
}

describe('a worn battery runs with the head off (record 2302)', () => {
  const kinds = kindsWith(['worn-battery'])
  const blade = ['packed-hair', 'dry-blade', 'gummed-blade', 'wrong-blade-tension']

  it.each(kinds)('$kind: that it is better without the head does not clear the battery', async ({ own }) => {
    const told = own.answers(['stalls-in-hair'])
    const before = await believe(own, told)
    const after = await believe(own, { ...told, ...own.answers(['better-without-blade']) })
    expect(after.chance('worn-battery')).toBeGreaterThan(before.chance('worn-battery') / 2)
  })
  it.each(kinds)('$kind: the run time tells battery and head apart', async ({ own }) => {
    const short = await believe(own, own.answers(['better-without-blade', 'short-run-time']))
    const long = await believe(own, own.answers(['better-without-blade'], ['short-run-time']))
    expect(short.order[0]).toBe('worn-battery')
    expect(blade).toContain(long.order[0])
  })
  it.each(kinds)('$kind: the flow asks for the run time or the volts before it ends', async ({ own }) => {
    const done = await walk(prepared, own, 'worn-battery', 'stalls-in-hair')
    const asked = ['short-run-time', 'run-time-under-half', 'pack-sags'].some((finding) =>
      done.settled.has(finding),
    )
    expect(asked, nameOf(done)).toBe(true)
    expect(done.cure !== undefined || done.end.causes[0]!.id === 'worn-battery', nameOf(done)).toBe(true)
  })
})

/** Two faults at once, each with a sign of its own; the first mended, the trouble goes on. */
const chains: readonly {
  readonly told: string
  readonly first: string
  readonly then: string
  readonly signs: readonly [ofFirst: string, ofThen: string]
  readonly seen: readonly string[]
}[] = [
  {
    told: 'a jam in the hair killed the supply (record 7778)',
    first: 'packed-hair',
    then: 'dead-supply',
    signs: ['hair-packed-seen', 'charger-stays-dark'],
    seen: ['wont-start', 'after-jam'],
  },
  {
    told: 'a fuse blew, and the brushes are short as well (record 3443)',
    first: 'open-fuse-or-cutout',
    then: 'worn-brushes',
    signs: ['fuse-or-reset-open', 'brush-short'],
    seen: ['wont-start'],
  },
  {
    told: 'a dead switch hid worn brushes (record 5527)',
    first: 'broken-switch',
    then: 'worn-brushes',
    signs: ['switch-stays-open', 'brush-short'],
    seen: ['wont-start'],
  },
  {
    told: 'a cell leaked, then a part of the drive burst (record 12974)',
    first: 'leaked-cell',
    then: 'failed-motor-driver',
    signs: ['crust-at-cells', 'board-part-burst'],
    seen: ['hums-no-motion'],
  },
]

describe.each(chains)('$told', ({ first, then, signs, seen }) => {
  const kinds = kindsWith([first, then], signs)
  const all = [...seen, ...signs]
  const without = (sign: string) => all.filter((finding) => finding !== sign)

  it.each(kinds)('$kind: both are held at once, each for its own sign', async ({ own }) => {
    const both = await believe(own, own.answers(all))
    expect(both.order.slice(0, 2).sort()).toEqual([first, then].sort())
    for (const [k, cause] of [first, then].entries()) {
      const less = await believe(own, own.answers(without(signs[k]!)))
      expect(both.chance(cause), cause).toBeGreaterThan(2 * less.chance(cause))
    }
  })
  it.each(kinds)('$kind: with one fixed and the trouble still there, the other leads', async ({ own }) => {
    const both = await believe(own, own.answers(all))
    const left = await believe(own, own.answers(all), [fixFor(own, first, then)])
    expect(left.order[0]).toBe(then)
    expect(left.chance(first)).toBeLessThan(both.chance(first))
  })
})

describe('brushes that were fitted wrong (records 2170, 11032)', () => {
  const kinds = kindsWith(['wrong-brush', 'worn-brushes'])

  it.each(kinds)('$kind: it began with the new brushes: they are looked at first', async ({ own }) => {
    const began = await believe(own, own.answers(['sparks-bright', 'after-brush-change']))
    expect(began.order[0]).toBe('wrong-brush')
    expect(began.order.indexOf('worn-brushes')).toBeGreaterThan(0)
  })
  it.each(kinds)('$kind: a face that is shiny only in part settles it', async ({ own }) => {
    const part = await believe(
      own,
      own.answers(['sparks-bright', 'after-brush-change', 'brush-part-bedded'], ['brush-short']),
    )
    expect(part.order[0]).toBe('wrong-brush')
    expect(part.chance('wrong-brush')).toBeGreaterThan(2 * part.chance(part.order[1]!))
  })
  it.each(kinds)('$kind: faces that are whole clear them, and the bars come next', async ({ own }) => {
    const whole = await believe(
      own,
      own.answers(
        ['sparks-bright', 'new-brushes-no-cure', 'bars-filmed'],
        ['brush-part-bedded', 'after-brush-change', 'brush-short'],
      ),
    )
    expect(whole.order[0]).toBe('dirty-commutator')
    expect(whole.order.indexOf('wrong-brush')).toBeGreaterThan(2)
  })
})

describe('a "burn" that is irritation', () => {
  const kinds = kindsWith(['pressed-skin'])
  const hot = ['dry-blade', 'run-too-long', 'wrong-blade-tension']
  const inOrder = [
    'tooth-missing',
    'cutter-level-or-ahead',
    'blade-crooked-or-off-pin',
    'fails-cut-test',
    'blade-gets-hot',
  ]

  it.each(kinds)('$kind: teeth, gap, cut and heat in order: pressed, and no hot blade', async ({ own }) => {
    const well = await believe(own, own.answers(['reddens-or-nicks-skin'], inOrder))
    expect(well.order[0]).toBe('pressed-skin')
    for (const cause of hot.filter(own.has))
      expect(well.chance(cause), cause).toBeLessThan(well.chance('pressed-skin') / 2)
    const checked = await believe(own, own.answers(['reddens-or-nicks-skin', 'skin-checks-pass'], inOrder))
    expect(checked.order[0]).toBe('pressed-skin')
    expect(checked.chance('pressed-skin')).toBeGreaterThan(4 * checked.chance(checked.order[1]!))
  })
  it.each(kinds)('$kind: red hours later and no cut: the more so', async ({ own }) => {
    const now = await believe(own, own.answers(['reddens-or-nicks-skin']))
    const later = await believe(own, own.answers(['reddens-or-nicks-skin', 'rash-hours-later']))
    expect(later.order[0]).toBe('pressed-skin')
    expect(later.chance('pressed-skin')).toBeGreaterThan(now.chance('pressed-skin'))
  })
  it.each(kinds)('$kind: a red neck alone proves no hot blade', async ({ own }) => {
    const told = await believe(own, {})
    const red = await believe(own, own.answers(['reddens-or-nicks-skin']))
    const rise = (cause: string) => red.chance(cause) / told.chance(cause)
    for (const cause of hot.filter(own.has)) {
      expect(red.chance(cause), cause).toBeLessThan(0.25)
      expect(rise(cause), cause).toBeLessThan(rise('pressed-skin') / 2)
    }
  })
})

describe('it stops: again at once and shorter each time, or after a rest of minutes', () => {
  const bars = ['worn-commutator', 'shorted-armature']
  const heat = ['blocked-vents', 'open-fuse-or-cutout', 'broken-fan', 'run-too-long', 'pack-too-hot-or-cold']
  const kinds = kindsWith(bars, ['shorter-each-run', 'runs-again-after-rest'])
  const leader = ({ order }: Beliefs) => order.find((cause) => [...bars, ...heat].includes(cause))

  it.each(kinds)('$kind: shorter each time: commutator or winding (record 3051)', async ({ own }) => {
    const at = await believe(own, own.answers(['shorter-each-run'], ['runs-again-after-rest']))
    expect(bars).toContain(at.order[0])
  })
  it.each(kinds)('$kind: after a rest: heat (record 36316)', async ({ own }) => {
    const rest = await believe(own, own.answers(['runs-again-after-rest'], ['shorter-each-run']))
    expect(heat).toContain(leader(rest))
    expect(heat).toContain(rest.order[0])
  })
})

describe('the motor races, or it labours, and the blade is lazy', () => {
  const drive = ['slipped-eccentric', 'worn-link', 'worn-gear', 'broken-cutter-guide', 'misseated-blade']
  const blade = ['dry-blade', 'gummed-blade', 'packed-hair', 'wrong-blade-tension', 'rusty-blade']
  const load = [...blade, 'dry-bearing', 'worn-bearing', 'stiff-gear-grease', 'worn-pivot']
  const leader = ({ order }: Beliefs) => order.find((cause) => [...drive, ...load].includes(cause))

  // A motor with a shaft is told by its pin, one without by its hum.
  it.each(kindsWith([]))('$kind: it races: the drive', async ({ own }) => {
    expect(drive).toContain(
      leader(await believe(own, own.answers(['races-but-lazy', 'drive-still-blade-off']))),
    )
  })
  it.each(kindsWith([]))('$kind: it labours: blade or bearing', async ({ own }) => {
    const signs = own.finding('labours-and-lazy') ? ['labours-and-lazy'] : ['slows-down', 'stalls-in-hair']
    expect(load).toContain(leader(await believe(own, own.answers(signs))))
  })
})

describe('a weak battery is slow on its lead too (record 24181)', () => {
  const kinds = kindsWith(['worn-battery'], ['slow-on-lead-too'])

  it.each(kinds)('$kind: it does not clear the battery', async ({ own }) => {
    const slow = own.answers(['slows-down', 'short-run-time'])
    const lead = await believe(own, { ...slow, ...own.answers(['slow-on-lead-too']) })
    expect(lead.order.slice(0, 2)).toContain('worn-battery')
    const alone = await believe(own, own.answers(['slows-down', 'slow-on-lead-too']))
    expect(alone.order.slice(0, 3)).toContain('worn-battery')
  })
  it.each(kinds)('$kind: volts that collapse settle it', async ({ own }) => {
    const sags = await believe(own, own.answers(['slows-down', 'slow-on-lead-too', 'pack-sags']))
    expect(sags.order[0]).toBe('worn-battery')
  })
})

describe('what helped a little, or not at all', () => {
  const kinds = kindsWith(['worn-battery', 'failed-protector'])

  it.each(kinds)('$kind: oil helped a little, and the battery is worn (a trade page)', async ({ own }) => {
    const told = own.answers(['slows-down', 'came-on-slowly', 'oil-point-drop-cures', 'pack-sags'])
    expect((await believe(own, told)).order[0]).toBe('worn-battery')
  })
  it.each(kinds)(
    '$kind: a new battery changed nothing: a part that protects it (a trade page)',
    async ({ own }) => {
      const told = own.answers(['fades-in-seconds', 'short-run-time'], ['pack-sags'])
      const left = await believe(own, told, [fixFor(own, 'worn-battery', 'failed-protector')])
      expect(left.order[0]).toBe('failed-protector')
    },
  )
})

/** Walks that came to "nothing wrong" without a word about who holds it. */
const handless: string[] = []

describe('nothing wrong at the bench', () => {
  const kinds = kindsWith(['nothing-wrong'])

  it.each(kinds)('$kind: the user is asked, and their own cord, blade and outlet are run', ({ own }) => {
    // What breaks only where it is held, or on one outlet, shows only there.
    const [found] = own.book.fixes.filter(({ ends }) => ends === 'nothing-found')
    const words = found!.steps.map((step) => step.do).join(' ')
    expect(words).toMatch(/own|their|your|user/i)
    expect(words).toMatch(/blade/i)
    expect(words).toMatch(/cord|lead|charger/i)
    expect(words).toMatch(/outlet|socket|wall/i)
  })
  it.each(kinds)(
    '$kind: what comes from place and hand is looked at before that is said',
    async ({ own }) => {
      const told = own.points('cuts-in-and-out', 'nothing-wrong') ? 'cuts-in-and-out' : 'slows-down'
      const done = await walk(prepared, own, 'nothing-wrong', told)
      const supply = [
        'other-outlet-cures',
        'cord-flex-changes-it',
        'cord-meter-jumps',
        'good-supply-cures',
        'same-on-strip',
        'charges-only-when-held',
      ]
      const hand = ['only-this-head', 'only-in-thick-or-fast', 'one-users-hands', 'bad-only-in-wet-hair']
      const was = (asked: readonly string[]) => asked.some((finding) => done.settled.has(finding))
      expect(was(supply), nameOf(done)).toBe(true)
      if (!was(hand)) handless.push(nameOf(done))
    },
  )
  // Priced by the person's minutes, it once came in three kinds only in the work of the last fix, above.
  it('the hand is asked about in every kind', () => {
    expect(handless).toEqual([])
  })
})
