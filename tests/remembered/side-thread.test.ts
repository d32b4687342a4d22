/** A case compared on a thread of its own comes to what it comes to on this one, and a thread that breaks keeps nobody waiting. */
import { afterAll, describe, expect, it } from 'vitest'
import { settingsFrom } from '../../server/decision/shop-settings.js'
import { assess } from '../../server/diagnosis/assess.js'
import { caseComparison } from '../../server/decision/case-comparison.js'
import { commonOf } from '../../server/remembered/cards.js'
import { forDevice } from '../../server/remembered/for-device.js'
import { onThisThread, sideThread } from '../../server/remembered/side-thread.js'
import { debriefOf } from '../../server/practice/debrief.js'
import { debriefFor } from '../../server/remembered/exercises.js'
import { playedOf } from '../../server/remembered/played.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { Figures } from '../../shared/figures.js'
import type { Exercise } from '../../shared/practice.js'
import { inputsOf } from '../decision/situation.js'
import { preparedRulebook } from '../the-rulebook.js'

const prepared = await preparedRulebook()
const broken: unknown[] = []
const thread = sideThread((error) => broken.push(error))
afterAll(() => thread.close())

const compare = ({ prepared: it, ...given }: Awaited<ReturnType<typeof asked>>) =>
  thread.doSum(it, 'comparison', given)

const story = { kind: 'universal-motor', figures: { age: 9, hasSpare: true } }
const asked = () => inputsOf(prepared, { ...story, answers: { 'tingle-or-shock': 'yes' } })

describe('the side thread', () => {
  it('assesses as this thread does, while it prepares its rulebook and with it', async () => {
    const stopped = await asked()
    const { situation } = await inputsOf(prepared, { ...story, answers: { 'hot-near-head': 'yes' } })
    const shop = settingsFrom(stopped.figures, stopped.currency, false)
    for (const begun of [false, true]) {
      if (begun) await compare(stopped)
      for (const one of [stopped.situation, situation, { ...situation, answers: {} }]) {
        const there = await thread.doSum(prepared, 'assessment', { situation: one, shop })
        // a clone is read to its last field
        expect(there).toEqual(structuredClone(await assess(prepared, one, shop)))
        // the danger questions come before any plan
        expect(there.next.expectedCost === null).toBe(Object.keys(one.answers).length === 0)
      }
    }
    expect(broken).toEqual([])
  })
  it('says what this thread says', async () => {
    const inputs = await asked()
    const [there, here] = [await compare(inputs), await caseComparison(inputs)]
    expect(broken).toEqual([])
    expect(there.advice).toEqual(here.advice)
    expect(there.flips).toEqual(here.flips)
    expect([...there.barred.keys()]).toEqual([...here.barred.keys()])
    expect(there.options).toEqual(here.options)
  })

  it('that cannot do it is told of, and the case is compared all the same', async () => {
    const inputs = await asked()
    // what no thread can be handed
    const odd = { ...inputs, figures: { ...inputs.figures, later: () => 0 } as never }
    expect((await compare(odd)).advice.act).toBe((await caseComparison(inputs)).advice.act)
    expect(broken.length).toBe(1)
  })

  it('that ends before it is done keeps nobody waiting', async () => {
    const other = sideThread((error) => broken.push(error))
    const sum = other.doSum(prepared, 'marks', { tried: null, kind: 'kettle' })
    await Promise.all([other.close(), expect(sum).rejects.toThrow(RangeError)])
    expect(broken.length).toBe(1)
  })

  it('compiles the card that this thread compiles', async () => {
    const asked = { kind: 'magnetic-motor', complaint: commonOf(prepared, 'magnetic-motor')[0]! }
    expect(await thread.doSum(prepared, 'card', asked)).toEqual(await onThisThread(prepared, 'card', asked))
  })
  it('writes the file of a kind that this thread writes', async () => {
    const asked = { kind: 'magnetic-motor' }
    expect(await thread.doSum(prepared, 'model', asked)).toBe(await onThisThread(prepared, 'model', asked))
  })
  it('goes through an exercise as this thread does, and hands back what its pages need', async () => {
    const exercise: Exercise = {
      id: 'over1',
      learner: 'ann1',
      kind: 'magnetic-motor',
      level: prepared.knowledge.levels[0]!.id,
      seed: 4,
      setting: { hideSuspects: false, hidePrices: false },
      begunAt: '',
      changedAt: '',
      moves: [
        { type: 'stood', setup: 'plug-out' },
        { type: 'disinfected' },
        { type: 'ended', way: 'send-in' },
      ],
    }
    const shop = {}
    const played = await playedOf(prepared, exercise, shop)
    const there = await debriefFor(prepared, played, shop, thread.doSum)
    expect(there).toEqual(await debriefOf(played))
    expect(there.steps[1]!.done).toBe(played.done[1])
    const given = { exercise: { ...exercise, moves: exercise.moves.slice(0, 1) }, shop: 0 }
    expect(await thread.doSum(prepared, 'hint', given)).toEqual(await onThisThread(prepared, 'hint', given))
    expect(broken.length).toBe(1)
  })
  it('takes devices in turn: one that asks for much at once holds up no other', async () => {
    const { situation, figures, currency } = await asked()
    const done: string[] = []
    const ask = (from: string, rate: number) =>
      new Promise<void>((resolve, reject) =>
        forDevice(from, () => {
          const shop = { ...settingsFrom(figures, currency, false), rate }
          const sum = thread.doSum(prepared, 'assessment', { situation, shop })
          sum.then(() => (done.push(from), resolve()), reject)
        }),
      )
    await Promise.all([1, 2, 3, 4, 5, 6].map((rate) => ask('many', rate)).concat(ask('one', 7)))
    // behind the one that was begun, and one more at most
    expect(done.indexOf('one')).toBeLessThan(3)
  })
  it('reckons a changed rulebook through as this thread does', async () => {
    const { kind, figures } = story
    const { situation, currency } = await asked()
    const tried = bookOf(prepared.knowledge, kind)
    const given = { tried, situation, shop: settingsFrom(Figures.parse(figures), currency, false) }
    expect(await thread.doSum(prepared, 'trial', given)).toEqual(
      structuredClone(await onThisThread(prepared, 'trial', given)),
    )
  })
  it('says a mistake in what was asked as this thread does', async () => {
    await expect(thread.doSum(prepared, 'card', { kind: 'kettle', complaint: 'loud' })).rejects.toThrow(
      RangeError,
    )
  })
})
