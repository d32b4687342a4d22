/** Random networks, what was seen on them, and random small rulebooks, for fast-check. */
import fc from 'fast-check'
import type { NoisyOrModel, Observation, Tried } from '../../server/diagnosis/noisy-or.js'
import type { Finding, Knowledge } from '../../shared/knowledge.js'
import type { Answer } from '../../shared/situation.js'
import {
  allOf,
  cause,
  finding,
  fix,
  is,
  question,
  rulebook,
  step,
  stop,
} from '../diagnosis/small-rulebook.js'

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true, noDefaultInfinity: true })
const strength = fc.oneof(fc.constant(0), between(0.01, 0.99))

export interface Scored {
  readonly model: NoisyOrModel
  readonly observations: readonly Observation[]
  readonly tried: readonly Tried[]
}

/** Up to 6 causes, 7 findings of which some were looked at, and 3 fixes tried. At most one exclusive cause. */
export const scored: fc.Arbitrary<Scored> = fc
  .record({
    causes: fc.integer({ min: 1, max: 6 }),
    findings: fc.integer({ min: 1, max: 7 }),
    fixes: fc.integer({ min: 0, max: 3 }),
    exclusive: fc.boolean(),
  })
  .chain(({ causes, findings, fixes, exclusive }) => {
    const list = <T>(each: fc.Arbitrary<T>, count: number) =>
      fc.array(each, { minLength: count, maxLength: count })
    return fc.record({
      model: fc.record({
        priors: list(between(0.005, 0.7), causes),
        exclusive: fc.constant(Array.from({ length: causes }, (_, i) => exclusive && causes > 1 && i === 0)),
        leaks: list(between(0.005, 0.6), findings),
        strengths: list(list(strength, causes), findings),
      }),
      observations: list(
        fc.record({ seen: fc.constantFrom(true, false, null), after: fc.integer({ min: 0, max: fixes }) }),
        findings,
      ).map((all) =>
        all.flatMap(({ seen, after }, finding) => (seen === null ? [] : [{ finding, present: seen, after }])),
      ),
      tried: list(list(fc.oneof(fc.constant(0), between(0.05, 0.95)), causes), fixes),
    })
  })

/** The same with one finding more, in the last place, that points to `causes` of the model's causes only. */
export const withOneMore = (points: (cause: number, target: number) => boolean) =>
  fc
    .tuple(scored, fc.nat(), between(0.02, 0.98), between(0.01, 0.6), fc.nat(), fc.boolean())
    .map(([{ model, observations, tried }, which, s, leak, when, present]) => {
      const target = which % model.priors.length
      const extended: NoisyOrModel = {
        ...model,
        leaks: [...model.leaks, leak],
        strengths: [...model.strengths, model.priors.map((_, i) => (points(i, target) ? s : 0))],
      }
      const more = { finding: model.leaks.length, present, after: when % (tried.length + 1) }
      return { model: extended, observations, tried, more, target }
    })

/** A rulebook of 2 to 4 causes that could be shipped, with a danger, a topic, and a fix that is its own test. */
export const smallBook: fc.Arbitrary<Knowledge> = fc
  .record({
    shares: fc.array(fc.integer({ min: 100, max: 400 }), { minLength: 2, maxLength: 4 }),
    findings: fc.array(fc.array(between(0.05, 0.95), { minLength: 4, maxLength: 4 }), {
      minLength: 3,
      maxLength: 4,
    }),
    points: fc.array(fc.integer({ min: 1, max: 15 }), { minLength: 4, maxLength: 4 }),
    cure: between(0.5, 0.95),
    topic: fc.boolean(),
    minutes: between(0.5, 6),
  })
  .map(({ shares, findings, points, cure, topic, minutes }) => {
    const causes = shares.map((share, i) => cause(`cause-${i}`, share))
    const named = findings.map((strengths, f): Finding => {
      const pointing = strengths.flatMap((s, i) =>
        points[f]! & (1 << i) && i < shares.length ? [[`cause-${i}`, s]] : [],
      )
      const more = topic && f < 2 ? { topic: 'one-test' } : {}
      return finding(`sign-${f}`, Object.fromEntries(pointing) as Record<string, number>, more)
    })
    return rulebook({
      causes,
      findings: [
        ...named,
        finding('danger', { 'cause-0': 0.05 }),
        finding('points-nowhere', {}),
        finding('oil-helps', { 'cause-1': 0.8 }),
      ],
      steps: [
        step('dangers', ['danger'], { form: 'danger', order: 0 }),
        step('look', ['sign-0', 'sign-1'], { form: 'ask', minutes, order: 1 }),
        ...named
          .slice(2)
          .map((f, k) => step(`check-${k}`, [f.id], { minutes: minutes / (k + 1), order: k + 2 })),
        step('idle', ['points-nowhere'], { order: 9 }),
      ],
      fixes: causes.map((c, i) =>
        fix(
          `fix-${i}`,
          { [c.id]: cure },
          { order: i, ...(i === 1 ? { outcome: question('oil-helps') } : {}) },
        ),
      ),
      stops: [stop('stop', 'set-aside', allOf(is('danger')))],
    })
  })

/** Answers to some of the questions of a small rulebook; the danger is answered no. */
export const someAnswers: fc.Arbitrary<Record<string, Answer>> = fc
  .record(
    Object.fromEntries(
      ['sign-0', 'sign-1', 'sign-2', 'sign-3', 'points-nowhere'].map((q) => [
        q,
        fc.constantFrom<Answer>('yes', 'no', 'cant-tell'),
      ]),
    ),
    { requiredKeys: [] },
  )
  .map((answers) => ({ danger: 'no', ...answers }))
