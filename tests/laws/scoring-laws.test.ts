/**
 * Proves laws that the posterior must obey whatever the numbers are: they follow from probability theory and
 * from the model of independent causes (Pearl 1988, ch. 4), not from any one implementation.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Observation } from '../../server/diagnosis/noisy-or.js'
import type { Weights } from '../../server/diagnosis/posterior.js'
import { weigh } from '../../server/diagnosis/posterior.js'
import { frozen } from './frozen.js'
import type { Scored } from './arbitraries.js'
import { scored, withOneMore } from './arbitraries.js'

const runs = { numRuns: 250 }
const shares = ({ there, trouble }: Weights) => [...there].map((w) => w / trouble)
const soles = ({ sole, trouble }: Weights) => [...sole].map((w) => w / trouble)
const of = ({ model, observations, tried }: Scored, more: readonly Observation[] = []) =>
  weigh(model, [...observations, ...more], tried)

function same(a: Weights, b: Weights, factor = 1e-11): void {
  const near = (x: number, y: number) =>
    expect(Math.abs(x - y)).toBeLessThanOrEqual(factor * Math.max(y, 1e-9))
  shares(a).forEach((p, i) => near(p, shares(b)[i]!))
  soles(a).forEach((p, i) => near(p, soles(b)[i]!))
}

describe('probabilities', () => {
  it('lie between 0 and 1, the alone never above the whole', () => {
    fc.assert(
      fc.property(scored, (it) => {
        const weights = of(it)
        const alone = soles(weights)
        shares(weights).forEach((p, i) => {
          expect(p).toBeGreaterThanOrEqual(0)
          expect(p).toBeLessThanOrEqual(1 + 1e-12)
          expect(alone[i]).toBeLessThanOrEqual(p * (1 + 1e-12))
        })
      }),
      runs,
    )
  })

  it('something is wrong: the shares sum to 1 at least, and more by what is not alone', () => {
    fc.assert(
      fc.property(scored, (it) => {
        const weights = of(it)
        const sum = shares(weights).reduce((s, p) => s + p, 0)
        const alone = soles(weights).reduce((s, p) => s + p, 0)
        expect(alone).toBeLessThanOrEqual(1 + 1e-12)
        // whoever is not alone has company
        expect(sum).toBeGreaterThanOrEqual(2 - alone - 1e-12)
        expect(Math.max(...shares(weights))).toBeGreaterThanOrEqual(1 / weights.there.length - 1e-12)
      }),
      runs,
    )
  })

  it('a finding seen and the same missing add up to not having looked', () => {
    fc.assert(
      fc.property(
        withOneMore(() => true),
        ({ more, ...it }) => {
          const parts = [true, false].map((present) => of(it, [{ ...more, present }]))
          const whole = of(it)
          const near = (x: number, y: number) => expect(Math.abs(x - y)).toBeLessThanOrEqual(1e-12 * y)
          near(parts[0]!.trouble + parts[1]!.trouble, whole.trouble)
          near(parts[0]!.none + parts[1]!.none, whole.none)
          whole.there.forEach((w, i) => near(parts[0]!.there[i]! + parts[1]!.there[i]!, w))
          whole.sole.forEach((w, i) => near(parts[0]!.sole[i]! + parts[1]!.sole[i]!, w))
        },
      ),
      runs,
    )
  })
})

describe('the order of answers', () => {
  it('does not matter between the same fixes', () => {
    fc.assert(
      fc.property(
        scored.chain((it) =>
          fc.record({
            it: fc.constant(it),
            shuffled: fc.shuffledSubarray([...it.observations], { minLength: it.observations.length }),
          }),
        ),
        ({ it, shuffled }) => same(of({ ...it, observations: shuffled }), of(it)),
      ),
      runs,
    )
  })
})

describe('a finding that points to no cause', () => {
  it('changes nothing, seen or missing', () => {
    fc.assert(
      fc.property(
        withOneMore(() => false),
        ({ more, ...it }) => same(of(it, [more]), of(it)),
      ),
      runs,
    )
  })
})

describe('an answer with one cause as its only pointer', () => {
  const onlyPointer = withOneMore((i, target) => i === target)
  it('never moves that cause the wrong way', () => {
    fc.assert(
      fc.property(onlyPointer, ({ more, target, ...it }) => {
        const before = shares(of(it))[target]!
        const after = shares(of(it, [more]))[target]!
        if (more.present) expect(after).toBeGreaterThanOrEqual(before * (1 - 1e-12))
        else expect(after).toBeLessThanOrEqual(before * (1 + 1e-12))
      }),
      { numRuns: 500 },
    )
  })
  it('moves it the right way where it was in doubt and no fix has touched it', () => {
    let moved = 0
    fc.assert(
      fc.property(onlyPointer, ({ more, target, ...it }) => {
        const before = shares(of(it))[target]!
        fc.pre(before > 1e-6 && before < 1 - 1e-6 && it.tried.every((cures) => cures[target] === 0))
        const after = shares(of(it, [more]))[target]!
        if (more.present) expect(after).toBeGreaterThan(before)
        else expect(after).toBeLessThan(before)
        moved++
      }),
      { numRuns: 300 },
    )
    expect(moved).toBeGreaterThan(250)
  })
})

describe('a fix that did not end the trouble', () => {
  it('changes nothing where it cannot cure anything that is there', () => {
    fc.assert(
      fc.property(scored, (it) => {
        const nothing = it.model.priors.map(() => 0)
        same(of({ ...it, tried: [...it.tried, nothing] }), of(it))
        // nor before the others, when what was seen is counted from there
        const later = it.observations.map((o) => ({ ...o, after: o.after + 1 }))
        same(of({ ...it, observations: later, tried: [nothing, ...it.tried] }), of(it))
      }),
      runs,
    )
  })
  it('never makes a cause that it may cure, and only it, likelier than it was', () => {
    fc.assert(
      fc.property(scored, fc.nat(), fc.double({ min: 0.05, max: 0.95, noNaN: true }), (it, which, g) => {
        const target = which % it.model.priors.length
        const cures = it.model.priors.map((_, i) => (i === target ? g : 0))
        const after = shares(of({ ...it, tried: [...it.tried, cures] }))
        shares(of(it)).forEach((before, i) => {
          if (i === target) expect(after[i]).toBeLessThanOrEqual(before * (1 + 1e-12))
          else expect(after[i]).toBeGreaterThanOrEqual(before * (1 - 1e-12))
        })
      }),
      runs,
    )
  })
})

describe('what is given', () => {
  it('is left as it was', () => {
    fc.assert(
      fc.property(scored, (it) => {
        const copy = structuredClone(it)
        of(frozen(structuredClone(it)))
        expect(it).toEqual(copy)
      }),
      { numRuns: 50 },
    )
  })
})
