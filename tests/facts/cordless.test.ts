/**
 * Facts of the trade about cordless tools: what leads after a complaint, what the traps are, and that volts are judged
 * by the cells.
 *
 * Source of every expected value here: common practice, no source, unless a comment names one.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess, score } from '../../server/diagnosis/assess.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const cordless = ['rotary-cordless', 'brushless-cordless'] as const
const prepared = await preparedRulebook()

type Answers = Readonly<Record<string, Answer>>

/** Causes, likeliest first, with a look at any one's probability. */
async function leads(kind: string, answers: Answers, fixesTried: readonly string[] = []) {
  const { causes } = await score(prepared, Situation.parse({ kind, answers, fixesTried }))
  return {
    order: causes.map(({ id }) => id),
    chance: (cause: string) => causes.find(({ id }) => id === cause)!.probability,
    margin: causes[0]!.probability / causes[1]!.probability,
  }
}

/** Nothing dangerous to be seen; a lithium pack that is built in. */
const dangersSeen = (kind: string): Answers =>
  Object.fromEntries(
    bookOf(knowledge, kind)
      .steps.filter(({ form }) => form === 'danger')
      .flatMap(({ questions }) => questions.map(({ id }) => [id, 'no' as const])),
  )

const assessed = (
  kind: string,
  answers: Answers,
  shop: Partial<ShopSettings> = {},
  fixesTried: readonly string[] = [],
) =>
  assess(
    prepared,
    Situation.parse({ kind, answers: { ...dangersSeen(kind), ...answers }, fixesTried }),
    ShopSettings.parse(shop),
  )

describe.each(cordless)('%s: what leads (common practice, no source)', (kind) => {
  it.each([
    ['full, and soon empty', { 'short-run-time': 'yes' }, ['worn-battery']],
    ['less than half of its manual time', { 'run-time-percent': 35 }, ['worn-battery']],
    ['pulls', { 'pulls-or-snags': 'yes', 'short-run-time': 'no' }, ['dull-blade']],
    ['hot blade', { 'blade-gets-hot': 'yes', 'oil-overdue': 'yes' }, ['dry-blade']],
    [
      'bites since the gap was set',
      { 'reddens-or-nicks-skin': 'yes', 'after-gap-adjusting': 'yes' },
      ['cutter-too-far-forward'],
    ],
    ['dead since it lay empty', { 'wont-start': 'yes', 'stored-empty': 'yes' }, ['overdischarged-battery']],
    ['refuses, hot off work', { 'wont-charge': 'yes', 'charged-hot': 'yes' }, ['pack-too-hot-or-cold']],
    [
      'charges when held',
      { 'charges-only-when-held': 'yes' },
      ['loose-charge-socket', 'dirty-charge-contacts'],
    ],
    ['the lead falls out', { 'lead-falls-out': 'yes' }, ['loose-charge-socket']],
    [
      'another charger, never full',
      { 'not-its-own-charger': 'yes', 'never-shows-full': 'yes' },
      ['wrong-supply'],
    ],
    ['the right charger cures it', { 'wont-charge': 'yes', 'good-supply-cures': 'yes' }, ['dead-supply']],
    [
      'dead since new cells',
      { 'wont-start': 'yes', 'after-pack-change': 'yes', 'pack-comes-out': 'yes' },
      ['wrong-cells'],
    ],
    ['crust in the bay', { 'crust-at-cells': 'yes' }, ['leaked-cell']],
    ['fades within seconds', { 'fades-in-seconds': 'yes', 'short-run-time': 'no' }, ['failed-protector']],
    [
      'blinks dead, dead on its lead too',
      { 'blinks-at-once': 'yes', 'wont-start': 'yes', 'dead-on-lead-too': 'yes' },
      ['travel-lock'],
    ],
    [
      'motor runs, drive stands',
      { 'motor-runs-blade-still': 'yes', 'drive-still-blade-off': 'yes' },
      ['slipped-eccentric'],
    ],
    [
      'dead after a fall, a tap brings it back',
      { 'wont-start': 'yes', 'after-drop': 'yes', 'runs-after-tap': 'yes' },
      ['loose-wire-inside', 'broken-battery-lead'],
    ],
  ] satisfies [string, Answers, string[]][])('%s', async (_told, answers, first) => {
    expect(first).toContain((await leads(kind, answers)).order[0])
  })

  it('will not charge: charger, lead, contacts, socket and seat come before the board', async () => {
    const told = await leads(kind, { 'wont-charge': 'yes' })
    for (const cause of ['dead-supply', 'dirty-charge-contacts', 'loose-charge-socket', 'charger-not-home'])
      expect(told.chance(cause), cause).toBeGreaterThan(told.chance('failed-charge-board'))
  })

  it('dead: an empty or worn battery, its charger and the lock before anything inside', async () => {
    const { order } = await leads(kind, { 'wont-start': 'yes' })
    expect(order[0]).toBe('worn-battery')
    for (const cause of ['dead-supply', 'travel-lock'])
      expect(order.indexOf(cause), cause).toBeLessThan(order.indexOf('failed-motor-driver'))
  })

  it('the board leads only when all else was proved good', async () => {
    const told = { 'wont-charge': 'yes' } as const
    const proved = {
      ...told,
      'good-supply-cures': 'no',
      'contacts-dirty': 'no',
      'jack-loose-or-pin-missing': 'no',
      'all-else-proved-good': 'yes',
    } as const
    expect((await leads(kind, told)).order[0]).not.toBe('failed-charge-board')
    expect((await leads(kind, proved)).order[0]).toBe('failed-charge-board')
  })
})

it('brushless: a twitch in place of a start is a lost phase, a spent battery the next thing to ask about', async () => {
  const { order } = await leads('brushless-cordless', { 'twitches-at-start': 'yes' })
  expect(order.slice(0, 2)).toEqual(['failed-phase', 'worn-battery'])
  const { margin } = await leads('brushless-cordless', {
    'twitches-at-start': 'yes',
    'dead-on-lead-too': 'yes',
  })
  expect(margin).toBeGreaterThan(2)
})

it('brushed: it slows as it tires; brushless: it cuts out (the family sign, common practice)', async () => {
  const slow = await Promise.all(cordless.map((kind) => leads(kind, { 'slows-down': 'yes' })))
  const cutsOut = await Promise.all(cordless.map((kind) => leads(kind, { 'blinks-and-stops': 'yes' })))
  expect(slow[0]!.chance('worn-battery')).toBeGreaterThan(slow[1]!.chance('worn-battery'))
  expect(cutsOut[1]!.chance('worn-battery')).toBeGreaterThan(cutsOut[0]!.chance('worn-battery'))
})

// told repairs behind the traps: Open Repair Data, CC BY-SA 4.0, records anstiftung_2302 and restart_24181
describe.each(cordless)('%s: the traps', (kind) => {
  const headOff = { 'stalls-in-hair': 'yes', 'better-without-blade': 'yes' } as const

  it('runs with the head off: the battery stays under suspicion', async () => {
    expect((await leads(kind, headOff)).order.slice(0, 2)).toContain('worn-battery')
  })

  it('runs with the head off: the run time is asked before a blade is bought or sent away', async () => {
    let answers: Answers = headOff
    const fixesTried: string[] = []
    for (let turn = 0; turn < 12; turn++) {
      const { next } = await assessed(kind, answers, {}, fixesTried)
      if (next.questions.includes('short-run-time')) return
      expect(['ask', 'check', 'fix'], `${turn}`).toContain(next.step)
      expect(next.id).not.toBe('swap-blade-cordless')
      if (next.step === 'fix') fixesTried.push(next.id!)
      answers = { ...answers, ...Object.fromEntries(next.questions.map((id) => [id, 'no' as const])) }
    }
    expect.unreachable('twelve screens, and the run time was not asked')
  })

  it('runs with the head off: its full time clears the battery, less than half settles it', async () => {
    const full = await leads(kind, { ...headOff, 'short-run-time': 'no', 'run-time-percent': 95 })
    const half = await leads(kind, { ...headOff, 'short-run-time': 'yes', 'run-time-percent': 40 })
    expect(full.order.slice(0, 5)).not.toContain('worn-battery')
    expect(half.order[0]).toBe('worn-battery')
    expect(half.margin).toBeGreaterThan(2)
  })

  it('slow on its lead too does not clear a battery that runs short', async () => {
    const { order } = await leads(kind, {
      'slows-down': 'yes',
      'slow-on-lead-too': 'yes',
      'short-run-time': 'yes',
    })
    expect(order[0]).toBe('worn-battery')
  })

  it('a new battery changed nothing: the part that guards it, not the battery', async () => {
    const faded = { 'fades-in-seconds': 'yes', 'short-run-time': 'yes' } as const
    const before = await leads(kind, faded)
    const after = await leads(kind, { ...faded, 'new-pack-no-cure': 'yes' })
    expect(after.order[0]).toBe('failed-protector')
    expect(after.chance('worn-battery')).toBeLessThan(before.chance('worn-battery') / 2)
  })

  it('a hot battery that will not charge rests half an hour before anything is bought or opened', async () => {
    const told = { 'wont-charge': 'yes', 'charged-hot': 'yes' } as const
    let answers: Answers = told
    for (let turn = 0; turn < 4; turn++) {
      const { next } = await assessed(kind, answers)
      if (next.step === 'fix') {
        expect(next.id).toBe('rest-the-pack')
        return
      }
      expect(next.step).toBe('ask')
      answers = { ...answers, ...Object.fromEntries(next.questions.map((id) => [id, 'no' as const])) }
    }
    expect.unreachable('four screens of questions and no rest')
  })
})

describe.each(cordless)('%s: volts are judged by the cells', (kind) => {
  it('which cells is asked before any volts', () => {
    const volts = ['lithium-cell-fall', 'nickel-cell-fall', 'lithium-cell-rest', 'nickel-cell-rest']
    const steps = prepared.knowledge.steps.filter(
      (step) => step.kinds.includes(kind) && step.questions.some(({ id }) => volts.includes(id)),
    )
    expect(steps.length).toBeGreaterThan(1)
    for (const { id, first } of steps) expect(first, id).toContain('pack-is-nickel')
  })

  it('lithium asks for no nickel volts, nickel for none of lithium', async () => {
    const lithium = await assessed(kind, { 'pack-is-nickel': 'no' }, { skill: 'S4' })
    const nickel = await assessed(kind, { 'pack-is-nickel': 'yes' }, { skill: 'S4' })
    expect([lithium.hidden.has('lithium-cell-fall'), lithium.hidden.has('nickel-cell-fall')]).toEqual([
      false,
      true,
    ])
    expect([nickel.hidden.has('lithium-cell-fall'), nickel.hidden.has('nickel-cell-fall')]).toEqual([
      true,
      false,
    ])
  })

  // memory: more than 0.5 V a lithium cell or 0.25 V a nickel cell at switch-on counts as worn
  it.each([
    ['lithium', 'no', 'lithium-cell-fall', 0.7, 0.2],
    ['nickel', 'yes', 'nickel-cell-fall', 0.4, 0.1],
  ] as const)(
    '%s: a deep fall accuses the battery, a small one clears it',
    async (_cells, nickel, reading, deep, small) => {
      const told = { 'slows-down': 'yes', 'pack-is-nickel': nickel } as const
      const fell = await leads(kind, { ...told, [reading]: deep })
      const held = await leads(kind, { ...told, [reading]: small })
      expect(fell.order[0]).toBe('worn-battery')
      expect(held.order[0]).not.toBe('worn-battery')
    },
  )

  // a told repair: a two-cell nickel pack of 2.4 V at rest fell to 1.3 V running
  it('2.4 V that falls to 1.3 V over two nickel cells is a worn battery', async () => {
    const { order } = await leads(kind, {
      'slows-down': 'yes',
      'pack-is-nickel': 'yes',
      'nickel-cell-fall': (2.4 - 1.3) / 2,
    })
    expect(order[0]).toBe('worn-battery')
  })

  // a told repair: a lithium cell of 0.9 V on a charger that gave its 8 V
  it('a lithium cell of 0.9 V is too flat for its charger', async () => {
    const { order } = await leads(kind, {
      'wont-start': 'yes',
      'pack-is-nickel': 'no',
      'lithium-cell-rest': 0.9,
    })
    expect(order[0]).toBe('overdischarged-battery')
  })
})

describe('what a phone hears (common practice, no source)', () => {
  it('in a minute: a note that falls is a battery that gives way, a hiss that grows a bearing that runs dry', async () => {
    for (const kind of cordless) {
      const heard = (answers: Answers) => leads(kind, { 'slows-down': 'yes', ...answers })
      const [falls, holds] = [
        await heard({ 'falls-in-minute-percent': 9 }),
        await heard({ 'falls-in-minute-percent': 1 }),
      ]
      expect(falls.order[0], kind).toBe('worn-battery')
      expect(falls.chance('worn-battery'), kind).toBeGreaterThan(1.3 * holds.chance('worn-battery'))
      const [hisses, quiet] = [await heard({ 'hiss-grows': 'yes' }), await heard({ 'hiss-grows': 'no' })]
      expect(hisses.chance('dry-bearing'), kind).toBeGreaterThan(4 * quiet.chance('dry-bearing'))
    }
  })
  it('of a vibrator on its battery: the board keeps the count, the battery gives the push', async () => {
    const heard = (answers: Answers) => leads('vibrating-cordless', { 'slows-down': 'yes', ...answers })
    const [counted, faded] = [await heard({ 'speed-percent': 86 }), await heard({ 'hum-fades': 'yes' })]
    expect(counted.chance('failed-motor-driver')).toBeGreaterThan(2 * faded.chance('failed-motor-driver'))
    expect(faded.order[0]).toBe('worn-battery')
  })
  it('is asked for first where gaps are the complaint at a bench that opens tools, and not of a dead one', async () => {
    const listens = async (complaint: string) => {
      const { next } = await assessed('rotary-cordless', { [complaint]: 'yes' }, { skill: 'S3' })
      const step = knowledge.steps.find(({ id }) => id === next.id)
      return step?.questions.some(({ heard }) => heard !== undefined)
    }
    expect(await listens('cuts-in-and-out')).toBe(true)
    expect(await listens('wont-start')).toBe(false)
  })
})
