/**
 * Proves the rules of the next step that come before money: dangers are asked first and end the work, what
 * cannot be done here is never proposed, what the shop may not do is barred with its reason, and there is
 * always a next step. The rulebook is made up; what is expected follows from the method's section 5.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { assess, prepare } from '../../server/diagnosis/assess.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Answer, ShopSettings, Situation } from '../../shared/situation.js'
import type { Condition } from '../../shared/conditions.js'
import {
  allOf,
  anyOf,
  cause,
  finding,
  fix,
  is,
  policy,
  question,
  relevance,
  rulebook,
  setup,
  shop,
  situation,
  step,
  stop,
} from './small-rulebook.js'

const more = (fact: string, value: number): Condition => ({ fact, operator: 'greaterThan', value })

const book: Knowledge = rulebook({
  setups: [
    setup('plug-out'),
    setup('body-open', { needs: ['plug-out'], opensBody: true, minutes: 5, skill: 'S3' }),
  ],
  causes: [
    cause('brushes', 450),
    cause('cord', 300),
    cause('bearing', 200),
    cause('nothing-wrong', 50, { exclusive: true }),
  ],
  findings: [
    finding('tingle', { cord: 0.05 }),
    finding('scorched', { cord: 0.05 }),
    finding('loose-tooth', { bearing: 0.02 }),
    finding('cuts-out', { brushes: 0.7, cord: 0.8 }),
    finding('hot', { bearing: 0.9 }, { running: true }),
    finding('cord-flex', { cord: 0.95 }),
    finding('wont-start', { brushes: 0.5, cord: 0.6 }),
  ],
  steps: [
    step('dangers', ['tingle', 'scorched', 'loose-tooth'], { form: 'danger', order: 0 }),
    step('how-it-runs', ['cuts-out', 'hot', 'wont-start'], { form: 'ask', order: 1 }),
    step('flex-cord', ['cord-flex'], { power: true, order: 2, minutes: 0.5 }),
  ],
  fixes: [
    fix('new-brushes', { brushes: 0.95 }, { setups: ['plug-out'], order: 1 }),
    fix('new-cord', { cord: 0.9 }, { setups: ['body-open'], skill: 'S3', safetyTest: true, order: 2 }),
    fix('oil', { bearing: 0.8 }, { outcome: question('oil-helps'), order: 3 }),
    fix('show-the-book', { 'nothing-wrong': 0.95 }, { ends: 'nothing-found', order: 4 }),
  ],
  stops: [
    stop('shock', 'set-aside', anyOf(is('tingle'), is('scorched'))),
    stop('tooth', 'off-the-client', allOf(is('loose-tooth'))),
  ],
  relevance: [
    relevance('dead', allOf(is('wont-start')), { running: true }),
    relevance('tooth-no-power', allOf(is('loose-tooth')), { power: true }),
    relevance('flexed-already', allOf(is('scorched')), { questions: ['cord-flex'] }),
  ],
  policy: [
    policy('skill', allOf(more('skill-short-by', 0)), 'It takes more skill than there is here.'),
    policy(
      'no-test',
      allOf(is('needs-safety-test'), is('can-safety-test', 'no')),
      'Nobody here may test it.',
    ),
  ],
})

const safe = { tingle: 'no', scorched: 'no', 'loose-tooth': 'no' } as const
const able = shop({ skill: 'S3', canSafetyTest: true })
let prepared: Prepared
beforeAll(async () => {
  prepared = await prepare(book)
})
const after = (answers: Record<string, Answer>, told: Partial<Situation> = {}, here: ShopSettings = able) =>
  assess(prepared, situation(answers, told), here)

describe('danger comes before money', () => {
  it('is asked first, all of it on one screen', async () => {
    const { next } = await after({})
    expect(next).toMatchObject({
      step: 'ask',
      id: 'dangers',
      questions: ['tingle', 'scorched', 'loose-tooth'],
    })
  })
  it('and what is still open of it, even when a cause is all but certain', async () => {
    const { next } = await after({ 'cord-flex': 'yes', 'cuts-out': 'yes', tingle: 'no' })
    expect(next).toMatchObject({ id: 'dangers', questions: ['scorched', 'loose-tooth'] })
  })
  it('"can’t tell" is not "no": it is asked again before anything runs or is fixed', async () => {
    const { next, unsettled } = await after({ ...safe, tingle: 'cant-tell', 'cuts-out': 'yes' })
    expect(unsettled).toEqual(['tingle'])
    expect(next).toMatchObject({ id: 'dangers', questions: ['tingle'] })
  })
  it('ends the work when it is there, whatever else is known, asked or not', async () => {
    for (const told of [{ tingle: 'yes' }, { ...safe, scorched: 'yes', 'cuts-out': 'yes' }] as const) {
      const { next, stops } = await after(told)
      expect(next).toMatchObject({ step: 'stop', id: 'shock' })
      expect(stops.map((s) => s.id)).toEqual(['shock'])
    }
  })
  it('goes on once the act is done that lifts it', async () => {
    const { next, stops } = await after({ ...safe, tingle: 'yes' }, { stopsLifted: ['shock'] })
    expect(next.step).not.toBe('stop')
    expect(stops).toEqual([])
  })
  it('of the lesser grade goes on, without power', async () => {
    const told = { ...safe, 'loose-tooth': 'yes', 'cuts-out': 'yes', hot: 'no', 'wont-start': 'no' } as const
    const { next, stops } = await after(told)
    expect(stops.map((s) => s.id)).toEqual(['tooth'])
    expect(next.step).not.toBe('stop')
    expect(next.id).not.toBe('flex-cord')
    // without that danger, flexing the cord is what tells brushes and cord apart
    expect((await after({ ...told, 'loose-tooth': 'no' })).next.id).toBe('flex-cord')
  })
})

describe('what cannot be done here', () => {
  const complaint = { ...safe, 'cuts-out': 'yes', hot: 'no', 'wont-start': 'no' } as const
  it('is set aside, with a reason, and the plan goes on', async () => {
    const { next, barred } = await after(complaint, { cannotDo: ['flex-cord'] })
    expect(barred.get('flex-cord')).toMatch(/cannot be done here/)
    expect(next).toMatchObject({ step: 'fix', id: 'new-brushes' })
  })
  it('changes no suspicion', async () => {
    const shares = async (cannotDo: string[]) =>
      (await after(complaint, { cannotDo })).causes.map((c) => c.probability)
    expect(await shares(['flex-cord', 'new-brushes'])).toEqual(await shares([]))
  })
  it('leaves sending in, when nothing else is left', async () => {
    const all = [...book.steps, ...book.fixes].map((it) => it.id)
    expect((await after(complaint, { cannotDo: all })).next).toMatchObject({ step: 'send-in', id: null })
  })
})

describe('what this shop may not do', () => {
  const cordLeads = { ...safe, 'cuts-out': 'yes', 'cord-flex': 'yes', hot: 'no', 'wont-start': 'no' } as const
  it('is barred by the first rule that holds, in its words', async () => {
    const { barred } = await after(cordLeads, {}, shop({ skill: 'S2', canSafetyTest: true }))
    expect(barred.get('new-cord')).toBe('It takes more skill than there is here.')
    expect([...barred.keys()]).toEqual(['new-cord'])
    const untested = await after(cordLeads, {}, shop({ skill: 'S3', canSafetyTest: false }))
    expect(untested.barred.get('new-cord')).toBe('Nobody here may test it.')
    expect(untested.fired.policy).toEqual(['no-test'])
  })
  it('is what the shop that may does next; the other sends it in', async () => {
    expect((await after(cordLeads)).next).toMatchObject({ step: 'fix', id: 'new-cord' })
    const { next } = await after(cordLeads, {}, shop({ skill: 'S1' }))
    expect(next.id).not.toBe('new-cord')
  })
  it('a dear service and no tool meanwhile make the shop retire an old one', async () => {
    const dear = shop({ skill: 'S1', sendIn: 200, replace: 120 })
    expect(
      (
        await after(
          { ...cordLeads, 'cord-flex': 'yes' },
          { cannotDo: ['new-brushes', 'oil', 'show-the-book'] },
          dear,
        )
      ).next.step,
    ).toBe('retire')
  })
})

describe('every assessment', () => {
  it('ranks the causes, likeliest first, the alone never above the whole', async () => {
    const { causes, exact } = await after({ ...safe, 'cuts-out': 'yes', hot: 'no' })
    const shares = causes.map((c) => c.probability)
    expect(shares).toEqual(shares.toSorted((a, b) => b - a))
    for (const c of causes) expect(c.sole).toBeLessThanOrEqual(c.probability)
    expect(exact).toBe(true)
  })
  it('says what is hidden and why', async () => {
    const { hidden } = await after({ ...safe, 'wont-start': 'yes' })
    expect([...hidden]).toEqual([['hot', 'It makes no sense now']])
    const scorched = await after({ ...safe, scorched: 'yes' })
    expect(scorched.hidden.has('cord-flex')).toBe(true)
    const lifted = await after({ ...safe, scorched: 'yes' }, { stopsLifted: ['shock'] })
    expect(lifted.hidden.has('cord-flex')).toBe(false)
    expect(lifted.findings.get('scorched')).toBe('yes')
  })
  it('a fix that failed is discounted, and not proposed again', async () => {
    const told = { ...safe, 'cuts-out': 'yes', hot: 'no', 'wont-start': 'no', 'cord-flex': 'no' } as const
    const before = await after(told)
    expect(before.next.id).toBe('new-brushes')
    const later = await after(told, { fixesTried: ['new-brushes'] })
    const share = (of: typeof before) => of.causes.find((c) => c.id === 'brushes')!.probability
    expect(share(later)).toBeLessThan(0.7 * share(before))
    expect(later.next.id).not.toBe('new-brushes')
  })
  it('an unknown kind is refused, unknown questions are passed over', async () => {
    await expect(after({}, { kind: 'kettle' })).rejects.toThrow(/kettle/)
    const shares = async (answers: Record<string, Answer>) =>
      (await after(answers)).causes.map((c) => c.probability)
    expect(await shares({ ...safe, 'no-such-question': 'yes' })).toEqual(await shares(safe))
  })
})
