/** The register in its file does what plain lists would do, whatever is asked of it in whatever order. */
import fc from 'fast-check'
import { expect, it } from 'vitest'
import type { Register } from '../../server/register/register.js'
import { at, counting, openRegister, outcomeWith, plain, tool } from './open-register.js'
import { plainRegister } from './plain-register.js'

const names = ['Ann', ' ANN', 'Änne', 'A\u0308NNE', 'Σοφός', 'ΣΟΦΌΣ', 'Bo  Li', 'bo li']
const name = fc.constantFrom(...names)
/** which of those that there are, or one that is not there */
const which = fc.oneof({ weight: 4, arbitrary: fc.nat({ max: 1 }) }, fc.nat({ max: 5 }))
const move = fc.constantFrom(
  { type: 'looked', step: 'how-it-runs' } as const,
  { type: 'disinfected' } as const,
  { type: 'spread', spread: { points: { 'dull-blade': 60 }, other: 40 } } as const,
  { type: 'ended', way: 'send-in' } as const,
  [{ type: 'stood', setup: 'plug-out' } as const, { type: 'looked', step: 'how-it-runs' } as const],
)
const setting = fc.constantFrom(plain, { ...plain, hidePrices: true, complaint: 'It pulls — "badly"' })

const command = fc.oneof(
  fc.record({ do: fc.constant('addClass' as const), name }),
  fc.record({ do: fc.constant('addLearner' as const), name, which }),
  fc.record({ do: fc.constant('changeLearner' as const), name, which, other: which }),
  fc.record({
    do: fc.constant('addSetExercise' as const),
    which,
    setting,
    seed: fc.nat({ max: 2 ** 32 - 1 }),
  }),
  fc.record({
    do: fc.constant('begin' as const),
    which,
    other: fc.option(which, { nil: undefined }),
    setting,
  }),
  fc.record({ do: fc.constant('makeMove' as const), which, move, late: fc.constantFrom(0, 0, 0, 1, -1) }),
  fc.record({ do: fc.constant('keepOutcome' as const), which, score: fc.constantFrom(null, 40, 100) }),
  fc.record({ do: fc.constant('signOff' as const), which, skill: fc.constantFrom('found', 'mended'), name }),
  fc.record({
    do: fc.constant('strikeSignature' as const),
    which,
    skill: fc.constantFrom('found', 'mended'),
  }),
)
type Command = typeof command extends fc.Arbitrary<infer It> ? It : never

/** One of the two, with the ids that it has given, in the order in which it gave them. */
class Hand {
  readonly ids = {
    class: [] as string[],
    learner: [] as string[],
    set: [] as string[],
    exercise: [] as string[],
  }
  private readonly counts: number[] = []
  constructor(readonly register: Register) {}

  async run(it: Command, minute: number): Promise<unknown> {
    const { register, ids } = this
    const now = at(minute)
    const id = (of: keyof Hand['ids'], place: number) => ids[of][place] ?? 'nobody'
    switch (it.do) {
      case 'addClass':
        return this.given('class', await register.addClass({ name: it.name, at: now }))
      case 'addLearner': {
        const ofClass = id('class', it.which)
        return this.given('learner', await register.addLearner({ name: it.name, class: ofClass, at: now }))
      }
      case 'changeLearner':
        return register.changeLearner(id('learner', it.which), {
          name: it.name,
          class: id('class', it.other),
        })
      case 'addSetExercise': {
        const { seed, setting } = it
        const set = { ...tool, class: id('class', it.which), seed, setting, at: now }
        return this.given('set', await register.addSetExercise(set))
      }
      case 'begin': {
        const setAs = it.other === undefined ? {} : { setAs: id('set', it.other) }
        const asked = { ...tool, learner: id('learner', it.which), setting: it.setting, ...setAs, at: now }
        return this.given('exercise', await register.begin(asked))
      }
      case 'makeMove': {
        const seen = (this.counts[it.which] ?? 0) + it.late
        const after = await register.makeMove(id('exercise', it.which), it.move, now, seen)
        this.counts[it.which] = after.moves.length
        return after
      }
      case 'keepOutcome':
        return register.keepOutcome(id('exercise', it.which), outcomeWith({ score: it.score }))
      case 'signOff':
        return register.signOff({
          learner: id('learner', it.which),
          skill: it.skill,
          by: it.name.trim(),
          at: now,
        })
      case 'strikeSignature':
        return register.strikeSignature(id('learner', it.which), it.skill)
    }
  }

  private given<Thing extends { id: string }>(of: keyof Hand['ids'], it: Thing): Thing {
    if (!this.ids[of].includes(it.id)) this.ids[of].push(it.id)
    return it
  }

  /** With the ids said as "learner 2", so that two hands can be compared. */
  told(value: unknown): unknown {
    const said = new Map(
      Object.entries(this.ids).flatMap(([of, ids]) => ids.map((id, k) => [id, `${of} ${k}`] as const)),
    )
    return JSON.parse(JSON.stringify(value ?? null), (_key, it: unknown) =>
      typeof it === 'string' ? (said.get(it) ?? it) : it,
    ) as unknown
  }

  async everything(): Promise<unknown> {
    const { register, ids } = this
    const each = <It>(list: string[], what: (id: string) => Promise<It>) => Promise.all(list.map(what))
    const byId = (list: { id: string }[]) => [...list].sort((a, b) => (a.id < b.id ? -1 : 1))
    return this.told({
      classes: byId(this.told(await register.classes()) as { id: string }[]),
      learners: byId(this.told(await register.learners()) as { id: string }[]),
      inClass: await each(ids.class, async (id) =>
        byId(this.told(await register.learners(id)) as { id: string }[]),
      ),
      one: await each(ids.learner, (id) => register.learner(id)),
      ofLearner: await each(ids.learner, (id) => register.exercises({ learner: id })),
      ofClass: await each(ids.class, (id) => register.exercises({ class: id })),
      exercises: await each(ids.exercise, (id) => register.exercise(id)),
      outcomes: await each(ids.exercise, (id) => register.outcome(id)),
      sets: await each(ids.class, (id) => register.setExercises(id)),
      set: await each(ids.set, (id) => register.setExercise(id)),
      signed: await each(ids.learner, async (id) =>
        (await register.signedOff(id)).sort((a, b) => (a.skill < b.skill ? -1 : 1)),
      ),
    })
  }
}

const failed = (error: unknown) => ({ error: (error as Error).name })

it('does what plain lists would do', async () => {
  const happened = new Map<string, number>()
  await fc.assert(
    fc.asyncProperty(fc.array(command, { minLength: 25, maxLength: 50, size: 'max' }), async (commands) => {
      // other ids on the other side, so that nothing can depend on them
      const kept = await openRegister(':memory:', counting(1000))
      try {
        const [real, model] = [new Hand(kept), new Hand(plainRegister(counting()))]
        for (const [minute, it] of commands.entries()) {
          const expected = model.told(await model.run(it, minute).catch(failed))
          expect(real.told(await real.run(it, minute).catch(failed))).toEqual(expected)
          const how = `${it.do} ${(expected as { error?: string } | null)?.error ?? 'done'}`
          happened.set(how, (happened.get(how) ?? 0) + 1)
        }
        expect(await real.everything()).toEqual(await model.everything())
      } finally {
        await kept.close()
      }
    }),
    { numRuns: 60, seed: 5 },
  )
  // the commands did come to all of this, or the law says little
  for (const how of [
    'addClass BadRequest',
    'addLearner BadRequest',
    'addLearner NotFound',
    'changeLearner BadRequest',
    'changeLearner done',
    'begin done',
    'begin NotFound',
    'makeMove done',
    'makeMove StaleForm',
    'keepOutcome done',
    'signOff done',
    'signOff NotFound',
  ])
    expect([how, happened.get(how) ?? 0]).toEqual([how, expect.toSatisfy((count: number) => count >= 5)])
})

it('lists people by name as a reader looks for them, in whatever order they came', async () => {
  const register = await openRegister()
  const { id } = await register.addClass({ name: 'Evening', at: at(0) })
  for (const name of ['zoe', 'Örn', 'Person 10', 'Person 9', 'Abdel', 'ole'])
    await register.addLearner({ name, class: id, at: at(1) })
  // Unicode Technical Standard 10 (collation): letters before capitals and accents; numbers by their value
  expect((await register.learners(id)).map(({ name }) => name)).toEqual([
    'Abdel',
    'ole',
    'Örn',
    'Person 9',
    'Person 10',
    'zoe',
  ])
  await register.close()
})
