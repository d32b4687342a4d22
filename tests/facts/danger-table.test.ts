/**
 * No danger answer leaves a powered step open, a hand on what must not be touched, or the wrong post.
 *
 * Source of every expected value: common practice, no source, unless a comment names one. What is expected was written
 * down before the rulebook was asked.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { comparisonsOf } from '../../shared/conditions.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import { firedRules } from '../../server/diagnosis/fired-rules.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'
import { dangerAnswers, rowOf } from './danger-table.js'

const prepared = await preparedRulebook()

/** One yes ends the work: what can kill, burn a house down, or hurt on the next touch. */
const ends = {
  mains: [
    'tingle-or-shock',
    'smoke-or-burning-smell',
    'after-wet',
    'wet-not-tested',
    'wont-turn-off',
    'trips-safety-breaker',
    'cord-damaged',
    'plug-hot-or-scorched',
    'case-cracked',
    'inlet-browned',
    'scorch-marks',
    'wet-or-crust-inside',
  ],
  battery: [
    'pack-hisses-or-smells',
    'smoke-or-burning-smell',
    'pack-swollen-or-hot',
    'tingle-on-the-lead',
    'wont-turn-off',
    'after-wet',
    'wet-not-tested',
    'pack-dented',
    'hot-on-charge',
    'charger-hot-or-cracked',
    'cord-damaged',
    'case-cracked',
    'scorch-marks',
    'wet-or-crust-inside',
    'board-part-burst',
    'charger-volts-over',
  ],
}
/**
 * A lithium battery that is damaged or may heat up dangerously does not travel by ordinary post or carrier:
 * ADR special provision 376 and IATA special provision A154, both from memory.
 */
const neverByPost = [
  'pack-hisses-or-smells',
  'pack-swollen-or-hot',
  'pack-dented',
  'after-wet',
  'wet-not-tested',
  'smoke-or-burning-smell',
  'hot-on-charge',
  'scorch-marks',
  'wet-or-crust-inside',
  'crust-at-cells',
  'board-part-burst',
  'charger-volts-over',
]
/** A battery that may be hurt is not shaken, turned or opened; blood is not touched. */
const handsOff = [
  'pack-hisses-or-smells',
  'pack-swollen-or-hot',
  'pack-dented',
  'after-wet',
  'smoke-or-burning-smell',
  'drew-blood',
]
const isFirstWith = (question: string, kind: string): boolean =>
  kind === dangerAnswers(knowledge).find((row) => row.question === question)!.kind
const hasBattery = (kind: string): boolean =>
  bookOf(knowledge, kind).findings.some(({ id }) => id === 'pack-swollen-or-hot')

describe.each(dangerAnswers(knowledge))('$kind, $question: $answer', (given) => {
  it('offers nothing that it must not', async () => {
    const row = await rowOf(knowledge, prepared, given)
    const { kind, question, answer, stop, assessment, steps, fixes, packing } = row
    const { model } = kindOf(prepared, kind)
    const form = hasBattery(kind) ? 'battery' : 'mains'

    expect(
      steps.filter(({ power }) => power).map(({ id }) => id),
      'under power',
    ).toEqual([])
    expect(
      fixes.filter(({ power }) => power).map(({ id }) => id),
      'runs while it is done',
    ).toEqual([])
    for (const action of [...steps, ...fixes]) {
      const byMemory = 'form' in action && action.form === 'ask'
      const off = setupsNeeded(model.setups, action.setups).some(({ withPower }) => !withPower)
      expect(byMemory || off, `${action.id}: a hand on a tool that has power`).toBe(true)
    }
    // What comes next is one of these, which a plan for the first kind that has the question shows.
    if (isFirstWith(question, kind)) {
      const next = assessment.next.id
      const powered = [...model.steps, ...model.fixes].some((it) => it.id === next && it.power)
      expect(powered, `${next} comes next`).toBe(false)
    }

    if (answer === 'cant-tell') {
      expect(assessment.unsettled).toEqual([question])
      expect(fixes, 'a fix is proved by a run').toEqual([])
      for (const { id, setups } of steps)
        expect(
          setupsNeeded(model.setups, setups).some((it) => it.opensBody || it.opensCase),
          `${id} opens it`,
        ).toBe(false)
      if (handsOff.includes(question) && (question === 'drew-blood' || form === 'battery'))
        expect(
          steps.filter((it) => it.form !== 'ask').map(({ id }) => id),
          'a hand on it',
        ).toEqual([])
      return
    }
    expect(stop, 'a stop').toBeDefined()
    if (ends[form].includes(question)) {
      expect(assessment.next.step).toBe('stop')
      expect([...steps, ...fixes]).toEqual([])
    }
    if (form === 'battery') {
      const byPost = !neverByPost.includes(question)
      expect(packing.includes('pack-hurt-by-no-post'), 'packing list').toBe(!byPost)
      expect(packing.includes('pack-lithium-told'), 'packing list').toBe(byPost)
      expect(await barsSendingIn(kind, question), 'sending in').toBe(!byPost)
    }
    for (const reply of [/once more to see/i, /try it again/i]) expect(stop!.now.join(' ')).not.toMatch(reply)
  })
})

describe.each(knowledge.stops.map(({ id }) => id))('the stop %s', (id) => {
  it('begins with what to do with the thing in the hand', () => {
    const stop = knowledge.stops.find((it) => it.id === id)!
    for (const now of [
      stop.now,
      ...Object.values(stop.forKind ?? {}).flatMap((own) => (own.now ? [own.now] : [])),
    ])
      expect(now[0]).toMatch(
        /\b(put|lay) (it|the tool)\b|^let go\b|\bhands (off|out)\b|^off the client|^blade off the skin|^hold the blade|^switch off\b|touch|out of the wall/i,
      )
  })
  it('sends nobody’s hand to the switch or plug of what is wet and live', () => {
    const stop = knowledge.stops.find((it) => it.id === id)!
    if (!JSON.stringify(stop.when).includes('"after-wet"')) return
    const [first] = stop.now
    expect(first).toMatch(/leave its own switch|touch neither/i)
    expect(stop.now.join(' ')).toMatch(/breaker off first/i)
  })
})

/** Does a rule before the sum bar sending it in? Judged by the rules over findings alone, with this one true. */
async function barsSendingIn(kind: string, question: string): Promise<boolean> {
  const { verdicts, findings } = bookOf(knowledge, kind)
  const known = new Set(findings.map(({ id }) => id))
  const rules = verdicts.filter(
    ({ bars, when }) => bars.includes('send-in') && comparisonsOf(when).every(({ fact }) => known.has(fact)),
  )
  const facts: Record<string, string> = {}
  for (const { when } of rules) for (const { fact } of comparisonsOf(when)) facts[fact] = 'unknown'
  return (await firedRules(rules, { ...facts, [question]: 'yes' })).length > 0
}
