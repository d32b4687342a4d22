/** What must hold of finding a kind whatever the book and the answers are. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { identify, sure, tellingApart } from '../../server/identify/identify.js'
import { kindOdds } from '../../server/identify/kind-odds.js'
import type { KindBook, SignAnswer, SignAnswers } from '../../server/identify/kind-odds.js'
import { expectedBits } from '../../server/identify/next-sign.js'
import { SignFile } from '../../shared/sign-file.js'
import { answered, books, kindIds, sign } from './made-up-book.js'

const probability = (book: KindBook, answers: SignAnswers, kind: string): number =>
  kindOdds(book, answers).kinds.find(({ id }) => id === kind)!.probability

describe('the odds', () => {
  it('are chances that sum to 1', () => {
    fc.assert(
      fc.property(answered, ({ book, answers }) => {
        const { kinds, none } = kindOdds(book, answers)
        const all = [none, ...kinds.map((it) => it.probability)]
        expect(all.every((it) => it >= 0 && it <= 1)).toBe(true)
        expect(all.reduce((a, b) => a + b)).toBeCloseTo(1, 12)
      }),
    )
  })

  it('are the stated counts before anything is said, the rest going to none of the kinds', () => {
    fc.assert(
      fc.property(books, (book) => {
        const { kinds, none } = kindOdds(book, {})
        kinds.forEach((it, k) => expect(it.probability).toBeCloseTo(book.kinds[k]!.usual! / 1000, 12))
        expect(none).toBeCloseTo(1 - book.kinds.reduce((sum, it) => sum + it.usual!, 0) / 1000, 12)
      }),
    )
  })

  it('take "can\'t tell" and an answer to an unknown sign for nothing said', () => {
    fc.assert(
      fc.property(answered, ({ book, answers }) => {
        const told = Object.fromEntries(Object.entries(answers).filter(([, it]) => it !== 'cant-tell'))
        expect(kindOdds(book, { ...answers, unheard: 'yes' })).toEqual(kindOdds(book, told))
      }),
    )
  })

  it('do not depend on the order of the kinds, of the signs or of the answers', () => {
    fc.assert(
      fc.property(answered, ({ book, answers }) => {
        const turned = { kinds: [...book.kinds].reverse(), signs: [...book.signs].reverse() }
        const backwards = Object.fromEntries(Object.entries(answers).reverse())
        for (const kind of kindIds)
          expect(probability(turned, backwards, kind)).toBeCloseTo(probability(book, answers, kind), 12)
      }),
    )
  })

  // Bayes' theorem in the form of odds: posterior odds = prior odds times the likelihood ratio.
  it('change between two kinds by the likelihood ratio of an answer, whatever else was said', () => {
    fc.assert(
      fc.property(answered, fc.constantFrom<SignAnswer>('yes', 'no'), ({ book, answers }, answer) => {
        const asked = book.signs[0]!
        const before = Object.fromEntries(Object.entries(answers).filter(([id]) => id !== asked.id))
        const after = { ...before, [asked.id]: answer }
        const [a, b] = ['round', 'square'] as const
        const likelihood = (kind: string) => (answer === 'yes' ? asked.kinds[kind]! : 1 - asked.kinds[kind]!)
        const oddsBefore = probability(book, before, a) / probability(book, before, b)
        const oddsAfter = probability(book, after, a) / probability(book, after, b)
        const expected = (oddsBefore * likelihood(a)) / likelihood(b)
        expect(oddsAfter / expected).toBeCloseTo(1, 9)
      }),
    )
  })
})

describe('what a sign is expected to tell', () => {
  it('is between nothing and the one bit that a yes or no can carry', () => {
    fc.assert(
      fc.property(answered, ({ book, answers }) => {
        const odds = kindOdds(book, answers)
        for (const it of book.signs) {
          expect(expectedBits(it, odds)).toBeGreaterThanOrEqual(0)
          expect(expectedBits(it, odds)).toBeLessThanOrEqual(1)
        }
      }),
    )
  })

  // The same by its definition: doubt about the kind before, less the doubt expected after the answer.
  it('is what the answer takes from the doubt about the kind', () => {
    const doubt = ({ kinds, none }: ReturnType<typeof kindOdds>) =>
      [none, ...kinds.map((it) => it.probability)]
        .filter((p) => p > 0)
        .reduce((sum, p) => sum - p * Math.log2(p), 0)
    fc.assert(
      fc.property(books, (book) => {
        const [first] = book.signs
        const odds = kindOdds(book, {})
        const yes = odds.kinds.reduce(
          (sum, { id, probability: p }) => sum + p * first!.kinds[id]!,
          odds.none * 0.5,
        )
        const after = (answer: SignAnswer) => doubt(kindOdds(book, { [first!.id]: answer }))
        const told = doubt(odds) - yes * after('yes') - (1 - yes) * after('no')
        expect(expectedBits(first!, odds)).toBeCloseTo(told, 9)
      }),
    )
  })

  it('is nothing for a sign that every tool shows alike', () => {
    const alike = sign('alike', [0.5, 0.5, 0.5, 0.5])
    const book = { kinds: kindIds.map((id) => ({ id, usual: 200 })), signs: [alike] }
    expect(expectedBits(alike, kindOdds(book, {}))).toBeCloseTo(0, 12)
  })
})

describe('the questions', () => {
  /** Answers until it comes to something. */
  function toTheEnd(book: KindBook, mayRun: boolean, answer: (id: string, place: number) => SignAnswer) {
    const answers: Record<string, SignAnswer> = {}
    for (let place = 0; ; place++) {
      const stands = identify(book, answers, mayRun)
      if (stands.state !== 'asking') return { stands, asked: Object.keys(answers) }
      expect(Object.keys(answers)).not.toContain(stands.sign.id)
      if (!mayRun) expect(stands.sign.needsPower).toBe(false)
      answers[stands.sign.id] = answer(stands.sign.id, place)
    }
  }

  it('come to an end, none asked twice, none under power of a tool that may hurt, one kind found only when sure', () => {
    const given = fc.array(fc.constantFrom<SignAnswer>('yes', 'no', 'cant-tell'), {
      minLength: 8,
      maxLength: 8,
    })
    fc.assert(
      fc.property(books, fc.boolean(), given, (book, mayRun, answers) => {
        const { stands, asked } = toTheEnd(book, mayRun, (_, place) => answers[place]!)
        expect(asked.length).toBeLessThanOrEqual(book.signs.length)
        const best = Math.max(...stands.odds.kinds.map((it) => it.probability))
        expect(stands.state === 'found').toBe(best >= sure)
        if (stands.state !== 'between') return
        const held = stands.odds.kinds
          .filter(({ id }) => stands.kinds.includes(id))
          .reduce((sum, it) => sum + it.probability, 0)
        expect(held / (1 - stands.odds.none)).toBeGreaterThanOrEqual(sure - 1e-9)
        expect(stands.kinds.length).toBeGreaterThan(0)
      }),
    )
  })

  it('start with what tells most in a second, and among alike with the first of the rulebook', () => {
    const kinds = kindIds.map((id) => ({ id, usual: 240 }))
    const half = [0.9, 0.9, 0.1, 0.1]
    const first = (...signs: ReturnType<typeof sign>[]) => {
      const stands = identify({ kinds, signs }, {}, true)
      return stands.state === 'asking' ? stands.sign.id : stands.state
    }
    expect(first(sign('slow', half, { seconds: 60 }), sign('weak', [0.7, 0.7, 0.3, 0.3]))).toBe('weak')
    expect(first(sign('weak', [0.7, 0.7, 0.3, 0.3]), sign('strong', half))).toBe('strong')
    expect(first(sign('one', half), sign('two', half))).toBe('one')
    expect(first(sign('dull', [0.5, 0.5, 0.5, 0.5]))).toBe('between')
  })

  it('leave out what makes no sense after what was said', () => {
    const kinds = kindIds.map((id) => ({ id, usual: 240 }))
    const battery = sign('battery', [0.9, 0.9, 0.1, 0.1], { seconds: 60 })
    const fades = sign('fades', [0.9, 0.1, 0.5, 0.5], { after: { sign: 'battery', answer: 'yes' } })
    const asked = (answers: SignAnswers) => {
      const stands = identify({ kinds, signs: [fades, battery] }, answers, true)
      return stands.state === 'asking' ? stands.sign.id : stands.state
    }
    expect(asked({})).toBe('battery')
    expect(asked({ battery: 'yes' })).toBe('fades')
    expect(asked({ battery: 'no' })).toBe('between')
    expect(asked({ battery: 'cant-tell' })).toBe('between')
  })
})

describe('a tool of no kind', () => {
  it('is told by answers that go together in no kind', () => {
    const kinds = kindIds.map((id) => ({ id, usual: 245 }))
    const signs = kindIds.map((_, k) =>
      sign(
        `only-${k}`,
        kindIds.map((__, j) => (j === k ? 0.98 : 0.02)),
      ),
    )
    const all = Object.fromEntries(signs.map(({ id }) => [id, 'yes' as const]))
    expect(identify({ kinds, signs }, all, true).state).toBe('none')
    const one = {
      ...Object.fromEntries(signs.map(({ id }) => [id, 'no' as const])),
      'only-2': 'yes' as const,
    }
    expect(identify({ kinds, signs }, one, true)).toMatchObject({ state: 'found', kind: 'long' })
  })
})

// Cromwell's rule (Lindley 1991): what is held for impossible or certain can never be unlearned.
it.each([0, 1, -0.1, 1.2, 0.0005])('refuses a chance of %d in a sign', (chance) => {
  const file = Object.fromEntries(Object.entries(sign('any', [])).filter(([key]) => key !== 'id'))
  expect(SignFile.safeParse(file).success).toBe(true)
  expect(SignFile.safeParse({ ...file, kinds: { round: chance } }).success).toBe(false)
})

it('names what tells two kinds apart, the most telling first, and nothing that was answered', () => {
  const book = {
    kinds: kindIds.map((id) => ({ id, usual: 240 })),
    signs: [
      sign('a-little', [0.8, 0.3, 0.5, 0.5]),
      sign('a-lot', [0.95, 0.05, 0.5, 0.5]),
      sign('answered', [0.95, 0.05, 0.5, 0.5]),
      sign('not-seen', [0.9, 0.1, 0.5, 0.5]),
      sign('others-only', [0.5, 0.5, 0.9, 0.1]),
    ],
  }
  const answers = { answered: 'yes', 'not-seen': 'cant-tell' } as const
  const apart = tellingApart(book, kindOdds(book, {}), ['round', 'square'], answers)
  expect(apart.map(({ id }) => id)).toEqual(['a-lot', 'not-seen', 'a-little'])
})
