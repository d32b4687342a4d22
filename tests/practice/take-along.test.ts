import { describe, expect, it } from 'vitest'
import type { Slip } from '../../shared/knowledge.js'
import type { PracticeMove, Spread } from '../../shared/practice.js'
import type { LookedThrough } from '../../server/practice/take-along.js'
import { takeAlong } from '../../server/practice/take-along.js'
import { divergence } from '../../server/practice/telling-apart.js'

const slip = (id: string, grade: Slip['grade']): Slip => ({
  id,
  grade,
  kinds: ['k'],
  name: id,
  when: { all: [] },
  why: 'why',
  right: ['one', 'two'],
  order: 1,
  source: 'common-practice',
})
const look: PracticeMove = { type: 'looked', step: 's' }
const end = (way: 'hand-back' | 'send-in' | 'set-aside'): PracticeMove => ({ type: 'ended', way })
const step = (move: PracticeMove, lostMinutes = 0, slips: Slip[] = []): LookedThrough['steps'][number] => ({
  done: { move },
  plan: look,
  lostMinutes,
  slips,
})
const spread = (points: Record<string, number>): Spread => ({
  points,
  other: 100 - Object.values(points).reduce((sum, p) => sum + p, 0),
})
const finished = (more: Partial<LookedThrough> = {}): LookedThrough => ({
  over: 'hand-back',
  causes: ['true'],
  left: [],
  spread: undefined,
  planSpread: undefined,
  losses: 0,
  steps: [step(look), step(end('hand-back'))],
  ...more,
})

describe('the one thing to take along', () => {
  const noted = slip('noted', 'noted')
  const ends = slip('ends', 'ends')
  const wrong = spread({ other: 60, true: 10 })
  const belief = spread({ other: 20, true: 50 })

  it.each<[string, Partial<LookedThrough>, object]>([
    [
      'a slip that ended it, before one that was noted earlier',
      { over: 'slip', steps: [step(look, 40, [noted]), step(look, 0, [ends])] },
      { what: 'slip', ended: true, step: 1 },
    ],
    [
      'a noted slip, before being handed back in trouble',
      { left: ['true'], steps: [step(look, 0, [noted]), step(end('hand-back'), 75)] },
      { what: 'slip', ended: false, step: 0 },
    ],
    [
      'handed back in trouble, before a dear move',
      { left: ['true'], steps: [step(look, 90), step(end('hand-back'), 75)] },
      { what: 'in-trouble', step: 1 },
    ],
    [
      'the wrong end, before a more expensive move',
      { over: 'send-in', left: ['true'], steps: [step(look, 90), step(end('send-in'), 40)] },
      { what: 'wrong-end', step: 1 },
    ],
    [
      'the costliest move, before the points',
      { spread: wrong, planSpread: belief, steps: [step(look, 4), step(look, 9), step(end('hand-back'))] },
      { what: 'dear-move', step: 1 },
    ],
    [
      'points on what was not there',
      { spread: wrong, planSpread: belief, steps: [step(look, 2)] },
      {
        what: 'mixed-up',
        allowed: false,
        taken: { cause: 'other', points: 60, plans: 20 },
        there: { cause: 'true', points: 10, plans: 50 },
      },
    ],
    [
      'the true one of two that had less',
      { causes: ['a', 'b'], spread: spread({ a: 40, c: 60 }), planSpread: spread({ a: 50, b: 50 }) },
      { what: 'mixed-up', there: { cause: 'b', points: 0, plans: 50 } },
    ],
    [
      'sure beyond the answers, though it was right',
      { spread: spread({ true: 100 }), planSpread: spread({ true: 60, other: 40 }) },
      { what: 'too-sure', cause: 'true', wasThere: true, plans: 60 },
    ],
    [
      'less sure than the answers',
      { spread: spread({ true: 30 }), planSpread: spread({ true: 90 }) },
      { what: 'not-sure-enough', cause: 'true', points: 30, plans: 90 },
    ],
    [
      'no fault in what the answers spoke for',
      { spread: spread({ other: 60, true: 30 }), planSpread: spread({ other: 60, true: 30 }) },
      { what: 'mixed-up', allowed: true },
    ],
    ['well done where nothing was lost', {}, { what: 'well-done', which: 'as-the-plan' }],
    [
      'well done where it was sure and right',
      {
        spread: spread({ true: 90 }),
        planSpread: spread({ true: 90 }),
        steps: [step(look, 2), step(end('hand-back'))],
      },
      { what: 'well-done', which: 'sure-and-right' },
    ],
    [
      'little lost',
      { steps: [step(look, 2), step(end('hand-back'))] },
      { what: 'well-done', which: 'little-lost' },
    ],
  ])('%s', (_, more, expected) => {
    expect(takeAlong(finished(more))).toMatchObject(expected)
  })

  it('29 points or a few minutes are no lesson', () => {
    const barely = { spread: spread({ other: 20, true: 10 }), planSpread: spread({ true: 30, other: 10 }) }
    expect(takeAlong(finished({ ...barely, steps: [step(look, 3)] }))).toMatchObject({ what: 'well-done' })
    expect(
      takeAlong(finished({ over: 'send-in', left: ['true'], steps: [step(end('send-in'), 3)] })),
    ).toMatchObject({
      what: 'well-done',
    })
  })
})

/** By hand from Jeffreys (1946): (p − q)·ln[p(1 − q) / (q(1 − p))]; for 0.9 and 0.1 that is 0.8·ln 81. */
it('Jeffreys’ divergence of two shares', () => {
  expect(divergence(0.9, 0.1)).toBeCloseTo(0.8 * Math.log(81), 12)
  expect(divergence(0.1, 0.9)).toBeCloseTo(0.8 * Math.log(81), 12)
  expect(divergence(0.4, 0.4)).toBe(0)
})
