/**
 * Facts of the trade about what is dangerous on cordless tools, and what a shop never does to a pack.
 *
 * Source of every expected value here: common practice, no source, unless a comment names one.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { questionOf } from '../../shared/finding-rule.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const cordless = ['rotary-cordless', 'brushless-cordless'] as const
const prepared = await preparedRulebook()

const now = (kind: string, answers: Readonly<Record<string, Answer>>) =>
  assess(prepared, Situation.parse({ kind, answers }), ShopSettings.parse({}))

const setAside = [
  'pack-swollen-or-hot',
  'pack-hisses-or-smells',
  'pack-dented',
  'after-wet',
  'smoke-or-burning-smell',
  'hot-on-charge',
  'charger-hot-or-cracked',
  'cord-damaged',
  'tingle-on-the-lead',
  'case-cracked',
  'wont-turn-off',
]
const offTheClient = ['blade-or-head-pops-off', 'tooth-missing', 'cutter-level-or-ahead', 'drew-blood']

describe.each(cordless)('%s: dangers', (kind) => {
  const { steps, stops, fixes } = bookOf(knowledge, kind)
  const screen = steps.find(({ form }) => form === 'danger')!
  const stopOver = (finding: string) =>
    stops.find((stop) => JSON.stringify(stop.when).includes(`"${finding}"`))!

  it('asks for every danger on one screen, and takes no unanswered line for a no', () => {
    expect(screen.questions.map(({ id }) => id)).toEqual(
      expect.arrayContaining([...setAside, ...offTheClient]),
    )
    expect(screen.untickedMeansNo).toBe(false)
  })

  it.each(setAside)('%s ends the work at once', async (danger) => {
    const { stops: active, next } = await now(kind, { [danger]: 'yes' })
    expect(active[0]?.grade).toBe('set-aside')
    expect(next.step).toBe('stop')
  })

  it.each(offTheClient)('%s keeps it off skin, and nothing is run', async (danger) => {
    const { stops: active, next } = await now(kind, { [danger]: 'yes' })
    expect(active[0]?.grade).toBe('off-the-client')
    expect(steps.find(({ id }) => id === next.id)?.power ?? false).toBe(false)
  })

  it('a blade with a missing tooth goes into the sharps box first, and is not felt on skin', async () => {
    const { now: lines } = stopOver('tooth-missing')
    expect(lines.findIndex((line) => /sharps box/.test(line))).toBe(1)
    const spared = async (answer: Answer) => {
      const { fired } = await now(kind, { 'tooth-missing': answer })
      return knowledge.relevance.some(
        ({ id, hides }) => fired.relevance.includes(id) && hides.questions?.includes('blade-gets-hot'),
      )
    }
    expect([await spared('yes'), await spared('no')]).toEqual([true, false])
  })

  it.each(setAside)("%s: can't tell lets nobody run or charge it", async (danger) => {
    const { next } = await now(kind, { 'wont-charge': 'yes', [danger]: 'cant-tell' })
    expect(steps.find(({ id }) => id === next.id)?.power ?? false).toBe(false)
  })

  it('a wet, swollen or dented battery is not charged and not posted', () => {
    for (const finding of ['pack-swollen-or-hot', 'after-wet', 'pack-dented']) {
      const said = stopOver(finding).now.join(' ')
      expect(said, finding).toMatch(/never by post|not (travel|go) by post/i)
    }
    expect(stopOver('after-wet').now.join(' ')).toMatch(/no charging/i)
    expect(stopOver('pack-dented').now.join(' ')).toMatch(/no charging/i)
  })

  // Fire and Rescue NSW, Lithium-ion battery safety campaign kit, https://www.fire.nsw.gov.au/page.php?id=9432:
  // the fumes of a failing lithium battery are highly toxic; warning signs mean stop and call
  it('a battery that hisses, smokes or heats clears the room and calls the fire service', () => {
    for (const finding of ['pack-swollen-or-hot', 'pack-hisses-or-smells', 'smoke-or-burning-smell'])
      expect(stopOver(finding).now.join(' '), finding).toMatch(/everyone out.*fire service/i)
  })

  it('a tool that runs by itself is laid down clear of skin, its battery out or run flat', () => {
    expect(stopOver('wont-turn-off').now.join(' ')).toMatch(/clear of skin.*battery out.*run flat/i)
  })

  it('a cracked body is no mains danger but a doubt about the battery', () => {
    const stop = stopOver('case-cracked')
    expect(stop.why).toMatch(/no mains/i)
    expect(stop.now.join(' ')).toMatch(/look at the battery/i)
    expect(stop.now.join(' ')).toMatch(/no charging/i)
  })

  it('never teaches a bridged protector or a forced wake-up of a flat lithium cell', () => {
    const told = [...steps, ...fixes].flatMap((it) => JSON.stringify(it).split(/(?<=[.!?])\s|","/))
    const risky = told.filter((sentence) =>
      /\b(bridg|boost|jump.?start|by-pass|forced awake)/i.test(sentence),
    )
    expect(risky.length).toBeGreaterThan(0)
    for (const sentence of risky) expect(sentence).toMatch(/\b(never|no|nobody|not)\b/i)
  })

  it('leaves protectors, boards and built-in batteries to a specialist', () => {
    const special = [
      'failed-protector',
      'failed-charge-board',
      'failed-motor-driver',
      'failed-phase',
      'swollen-battery',
    ]
    for (const cause of special)
      for (const fix of fixes.filter(({ cures }) => cures[cause] !== undefined))
        expect(fix.skill, `${cause}: ${fix.id}`).toBe('S4')
    expect(fixes.find(({ id }) => id === 'have-pack-renewed')?.skill).toBe('S4')
    expect(fixes.find(({ id }) => id === 'new-plug-in-pack')?.skill).toBe('S2')
  })

  it('calls for no mains safety test: nothing inside is at mains', () => {
    expect(fixes.filter(({ safetyTest }) => safetyTest)).toEqual([])
  })

  it('leaves a body shut that is in warranty, and still wipes its contacts', async () => {
    const { barred } = await assess(
      prepared,
      Situation.parse({ kind, answers: {} }),
      ShopSettings.parse({ skill: 'S4', canSafetyTest: true, inWarranty: true }),
    )
    for (const inside of ['body-look-cordless', 'pack-volts-running', 'new-charge-socket', 'mend-pack-lead'])
      expect(barred.has(inside), inside).toBe(true)
    for (const outside of ['contacts-look', 'clean-charge-contacts', 'unlock', 'use-own-charger'])
      expect(barred.has(outside), outside).toBe(false)
  })

  it('takes the charger away before a hand goes near blade or contacts', () => {
    const off = bookOf(knowledge, kind).setups.find(({ id }) => id === 'plug-out')!
    expect(off.how[0]).toMatch(/charger/i)
    for (const step of steps.filter(({ id }) => /contacts|blade-look|drive-look|hand-turn-cordless/.test(id)))
      expect(step.setups, step.id).toContain('plug-out')
  })

  it('a dead tool is not asked what shows only on a running one', async () => {
    const book = bookOf(knowledge, kind)
    const onlyRunning = new Set(book.findings.filter(({ running }) => running).map(questionOf))
    const dangers = Object.fromEntries(screen.questions.map(({ id }) => [id, 'no' as const]))
    let answers: Record<string, Answer> = { ...dangers, 'wont-start': 'yes' }
    for (let turn = 0; turn < 8; turn++) {
      const { next } = await now(kind, answers)
      if (next.step !== 'ask' && next.step !== 'check') break
      expect(
        next.questions.filter((id) => onlyRunning.has(id)),
        next.id ?? '',
      ).toEqual([])
      answers = { ...answers, ...Object.fromEntries(next.questions.map((id) => [id, 'no' as const])) }
    }
  })
})
