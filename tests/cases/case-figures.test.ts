/** Figures said in a case, and whether its body was opened: laws over made-up cases. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { BenchCase, CaseEvent } from '../../shared/case.js'
import { CaseEvent as CaseEventShape } from '../../shared/case.js'
import type { FigureName, SomeFigures } from '../../shared/figures.js'
import { ownFigures } from '../../server/cases/case-figures.js'
import { eventProblems } from '../../server/cases/acceptable.js'
import { situationFrom } from '../../server/cases/fold.js'
import { caseOfToday } from '../../server/cases/moved-ids.js'
import { openedBy, openedIn } from '../../server/cases/opened.js'
import { cause, finding, fix, KIND, rulebook, setup, step } from '../diagnosis/small-rulebook.js'

const book = rulebook({
  setups: [
    setup('plug-out', { order: 1 }),
    setup('caps-out', { needs: ['plug-out'], order: 2 }),
    setup('body-open', { needs: ['plug-out'], opensBody: true, order: 3 }),
    setup('armature-out', { needs: ['body-open'], order: 4 }),
  ],
  causes: [cause('brushes', 600), cause('winding', 400)],
  findings: [finding('short', { brushes: 0.9 }), finding('burnt', { winding: 0.9 })],
  steps: [
    step('look-at-brushes', ['short'], { setups: ['caps-out'] }),
    step('look-inside', ['burnt'], { setups: ['armature-out'] }),
  ],
  fixes: [
    fix('new-brushes', { brushes: 0.9 }, { setups: ['caps-out'] }),
    fix('rewind', { winding: 0.5 }, { setups: ['armature-out'] }),
  ],
})
const caseOf = (events: readonly CaseEvent[]): BenchCase => ({
  id: 'one',
  kind: KIND,
  tool: '',
  begunAt: '',
  changedAt: '',
  events,
})

const names: readonly FigureName[] = ['minute', 'feeLow', 'newPrice', 'age']
const someFigures: fc.Arbitrary<SomeFigures> = fc.record(
  {
    minute: fc.integer({ min: 0, max: 300 }),
    feeLow: fc.integer({ min: 0, max: 9000 }),
    newPrice: fc.integer({ min: 0, max: 90_000 }),
    age: fc.option(fc.integer({ min: 0, max: 20 })),
  },
  { requiredKeys: [] },
)
const figured: fc.Arbitrary<CaseEvent> = fc
  .tuple(someFigures, fc.subarray([...names]))
  .map(([figures, all]) => ({
    type: 'figured',
    figures,
    forget: all.filter((name) => figures[name] === undefined),
  }))
const done: fc.Arbitrary<CaseEvent> = fc.oneof(
  fc
    .tuple(
      fc.constantFrom(['look-at-brushes', 'short'] as const, ['look-inside', 'burnt'] as const),
      fc.constantFrom('yes' as const, 'no' as const, 'cant-tell' as const),
      fc.constantFrom('now' as const, 'as-before' as const),
    )
    .map(([[at, asked], said, when]): CaseEvent => ({
      type: 'answered',
      step: at,
      answers: { [asked]: said },
      when,
    })),
  fc.constantFrom<CaseEvent>(
    { type: 'took-back', questions: ['burnt'] },
    { type: 'tried', fix: 'new-brushes', outcome: 'no' },
    { type: 'tried', fix: 'rewind', outcome: 'better' },
    { type: 'untried', fix: 'rewind' },
    { type: 'put-together' },
    { type: 'reopened' },
  ),
)
const events = fc.array(fc.oneof(figured, done), { maxLength: 14 })

describe('laws of the figures of a case', () => {
  it('each is the last one said, unless it was given back since', () => {
    fc.assert(
      fc.property(events, (them) => {
        const own = ownFigures({ events: them })
        for (const name of names) {
          // read backwards: the first event that speaks of it decides
          const last = [...them]
            .reverse()
            .find((it) => it.type === 'figured' && (name in it.figures || it.forget.includes(name)))
          const value = last?.type === 'figured' ? last.figures[name] : undefined
          expect(own[name]).toEqual(value)
          expect(name in own).toBe(value !== undefined)
        }
      }),
      { numRuns: 500 },
    )
  })
  it('they change nothing of what is known of the tool, and nothing else changes them', () => {
    fc.assert(
      fc.property(events, (them) => {
        const [bare, only] = [false, true].map((is) => them.filter(({ type }) => (type === 'figured') === is))
        expect(situationFrom(caseOf(them), book)).toEqual(situationFrom(caseOf(bare!), book))
        expect(openedIn(caseOf(them), book)).toBe(openedIn(caseOf(bare!), book))
        expect(ownFigures({ events: them })).toEqual(ownFigures({ events: only! }))
      }),
      { numRuns: 300 },
    )
  })
  it('names that the rulebook has changed touch no figure', () => {
    fc.assert(
      fc.property(events, (them) => {
        const moved = { fixes: { rewind: 'new-armature' }, questions: { burnt: 'smells-burnt' } }
        expect(ownFigures(caseOfToday(caseOf(them), moved))).toEqual(ownFigures({ events: them }))
      }),
      { numRuns: 100 },
    )
  })
})

describe('was the body opened?', () => {
  const look = (at: string, asked: string, said: 'yes' | 'no' | 'cant-tell' = 'no'): CaseEvent => ({
    type: 'answered',
    step: at,
    answers: { [asked]: said },
    when: 'now',
  })
  const rewound: CaseEvent = { type: 'tried', fix: 'rewind', outcome: 'no' }
  it.each<[string, CaseEvent[], boolean]>([
    ['nothing done', [], false],
    ['caps out only', [look('look-at-brushes', 'short')], false],
    ['a look that needs it open', [look('look-inside', 'burnt')], true],
    ['put together again since', [look('look-inside', 'burnt'), { type: 'put-together' }], true],
    ['a look that told nothing', [look('look-inside', 'burnt', 'cant-tell')], false],
    [
      'a look that was taken back',
      [look('look-inside', 'burnt'), { type: 'took-back', questions: ['burnt'] }],
      false,
    ],
    ['told at the complaint', [look('complaint', 'burnt', 'yes')], false],
    ['a fix that opens', [rewound], true],
    ['a fix that does not', [{ type: 'tried', fix: 'new-brushes', outcome: 'no' }], false],
    ['a fix taken back', [rewound, { type: 'untried', fix: 'rewind' }], false],
  ])('%s: %s', (_, them, opened) => {
    expect(openedIn(caseOf(them), book)).toBe(opened)
  })
  it('whatever the situation tells of it, the case tells too', () => {
    fc.assert(
      fc.property(events, (them) => {
        const bench = caseOf(them)
        if (openedBy(situationFrom(bench, book), book)) expect(openedIn(bench, book)).toBe(true)
      }),
      { numRuns: 300 },
    )
  })
})

describe('what comes in', () => {
  const event = (figures: object, forget: readonly string[] = []) =>
    CaseEventShape.safeParse({ type: 'figured', figures, forget })
  it.each([
    ['a fee upside down, to be turned round', { feeLow: 9000, feeHigh: 4000 }, true],
    ['nothing for a minute', { minute: 0 }, true],
    ['an age that nobody knows', { age: null }, true],
    ['half a cent', { minute: 80.5 }, false],
    ['less than nothing', { carriage: -1 }, false],
    ['more than a shop is worth', { newPrice: 100_000_001 }, false],
    ['a share of more than all', { interest: 1.1 }, false],
    ['a service that fixes nothing', { serviceMends: 0 }, false],
    ['days of more than a year', { daysAwayHigh: 366 }, false],
    ['a figure that is none', { tip: 100 }, false],
  ])('%s: %j', (_, figures, fits) => {
    expect(event(figures).success).toBe(fits)
  })
  it('a figure is not given back that there is none of, nor set and given back at once', () => {
    expect(event({}, ['tip']).success).toBe(false)
    const both = event({ age: 3, minute: 90 }, ['newPrice', 'age'])
    expect(eventProblems(book, KIND, both.data!)).toEqual([
      { path: ['forget', '1'], message: 'age is in figures too; say a new value or give it back, not both' },
    ])
  })
})
