/** "Not sure" is not "no": what waits until every danger line is settled, and what must be known before a step. */
import { describe, expect, it } from 'vitest'
import type { Answer, Situation } from '../../shared/situation.js'
import { assess, prepare } from '../../server/diagnosis/assess.js'
import {
  allOf,
  cause,
  finding,
  fix,
  is,
  question,
  relevance,
  rulebook,
  setup,
  shop,
  situation,
  step,
  stop,
} from './small-rulebook.js'

const book = rulebook({
  setups: [setup('plug-out')],
  causes: [cause('dirt', 600), cause('wear', 400)],
  findings: [
    finding('shock', { wear: 0.1 }),
    finding('cracked', { wear: 0.1 }),
    finding('hot', { wear: 0.9 }),
    finding('dusty', { dirt: 0.9, wear: 0.1 }),
    finding('has-lid', {}, { leak: 0.5 }),
    finding('only-warm', {}, { leak: 0.5, excludes: ['dusty'] }),
  ],
  steps: [
    step('danger', ['shock', 'cracked'], { form: 'danger', order: 0 }),
    step('run-it', [question('hot', { normalForm: ['only-warm'] })], { power: true, order: 2, minutes: 1 }),
    step('look', ['dusty'], { order: 3, minutes: 1 }),
    step('how-hot', ['only-warm'], { form: 'ask', order: 4, minutes: 1 }),
    step('which', ['has-lid'], { form: 'ask', order: 1, minutes: 1 }),
  ],
  fixes: [
    fix('brush', { dirt: 0.9 }, { setups: ['plug-out'], first: ['has-lid'] }),
    fix('new-part', { wear: 0.9 }, { setups: ['plug-out'], minutes: 30 }),
    fix('run-in', { wear: 0.5, dirt: 0.5 }, { power: true }),
  ],
  stops: [
    stop('shock', 'set-aside', allOf(is('shock'))),
    stop('cracked', 'off-the-client', allOf(is('cracked'))),
  ],
  relevance: [
    relevance('cracked-so-no-power', allOf(is('cracked')), {
      power: true,
      running: false,
      questions: [],
      fixes: [],
      safetyTest: false,
    }),
  ],
})
const prepared = prepare(book)
const nextFor = async (answers: Record<string, Answer>, more: Partial<Situation> = {}) =>
  assess(await prepared, situation(answers, more), shop({ skill: 'S4' }))
const settled = { shock: 'no', cracked: 'no' } as const
const runs = (id: string | null) =>
  id !== null && (book.fixes.some((it) => it.id === id) || book.steps.some((it) => it.id === id && it.power))

describe('danger lines that nobody has settled', () => {
  it.each([
    ['asked and told', settled, []],
    ['not asked', {}, ['shock', 'cracked']],
    ['not sure of one', { ...settled, cracked: 'cant-tell' }, ['cracked']],
    ['yes to one, the rest not asked', { cracked: 'yes' }, ['shock']],
  ] as const)('%s', async (_, answers, open) => {
    expect((await nextFor(answers)).unsettled).toEqual(open)
  })

  it('are asked for again before anything runs and before any fix, whatever else is known', async () => {
    for (const hot of [undefined, 'yes', 'no', 'cant-tell'] as const)
      for (const dusty of [undefined, 'yes', 'no', 'cant-tell'] as const) {
        const told = Object.fromEntries(
          Object.entries({ hot, dusty }).filter(([, value]) => value !== undefined),
        ) as Record<string, Answer>
        const { next } = await nextFor({ ...settled, cracked: 'cant-tell', 'has-lid': 'yes', ...told })
        expect(runs(next.id), `${hot} ${dusty} ${next.id}`).toBe(false)
        if (next.id === 'danger') expect(next.questions).toEqual(['cracked'])
      }
  })

  it('leave a look without power open, and once settled the work goes on', async () => {
    const unsure = { ...settled, cracked: 'cant-tell', 'has-lid': 'yes', dusty: 'yes' } as const
    expect((await nextFor(unsure)).next).toMatchObject({ step: 'ask', id: 'danger', questions: ['cracked'] })
    expect((await nextFor({ ...unsure, cracked: 'no' })).next.step).toBe('fix')
  })

  it('that cannot be settled here leave looks without power, and then an ending; never a run or a fix', async () => {
    let answers: Record<string, Answer> = { ...settled, cracked: 'cant-tell' }
    for (let turn = 0; turn < 5; turn++) {
      const { next } = await nextFor(answers, { cannotDo: ['danger'] })
      expect(runs(next.id)).toBe(false)
      if (next.step === 'send-in' || next.step === 'retire') return
      answers = { ...answers, ...Object.fromEntries(next.questions.map((id) => [id, 'yes' as const])) }
    }
    expect.unreachable('it never ends')
  })
})

describe('where a rule says that nothing may run', () => {
  it('no fix is offered that runs the tool while it is done, not even looking ahead', async () => {
    const { effectOfYes, model } = (await prepared).kinds.get('bench-motor')!
    const cracked = effectOfYes[model.findingIndex.get('cracked')!]!
    expect(cracked.hidesFixes.map((f) => model.fixes[f]!.id)).toEqual(['run-in'])
    const { next } = await nextFor({ shock: 'no', cracked: 'yes', 'has-lid': 'yes', hot: 'no', dusty: 'yes' })
    expect(next).toMatchObject({ step: 'fix', id: 'brush' })
  })
})

describe('a question that decides whether a thing can be done', () => {
  it('is asked before the thing is offered, and "can\'t tell" answers it', async () => {
    const known = { ...settled, dusty: 'yes', hot: 'no' } as const
    expect((await nextFor(known)).next).toMatchObject({ step: 'ask', id: 'which', questions: ['has-lid'] })
    for (const lid of ['yes', 'no', 'cant-tell'] as const)
      expect((await nextFor({ ...known, 'has-lid': lid })).next).toMatchObject({ step: 'fix', id: 'brush' })
  })
})

describe('what may be normal', () => {
  const hot = { ...settled, hot: 'yes' } as const

  it('is asked first, before a look and before a fix', async () => {
    expect((await nextFor(hot)).next).toMatchObject({ step: 'ask', id: 'how-hot', questions: ['only-warm'] })
  })
  it.each([
    ['it was asked', { ...hot, 'only-warm': 'yes' }],
    ['nobody can tell', { ...hot, 'only-warm': 'cant-tell' }],
    ['something told excludes it', { ...hot, dusty: 'yes' }],
    ['nothing of the sort was told', { ...settled, hot: 'no' }],
  ] as const)('is not asked where %s', async (_, answers) => {
    const { next } = await nextFor(answers)
    expect(next.questions, next.id ?? '').not.toContain('only-warm')
  })
})
