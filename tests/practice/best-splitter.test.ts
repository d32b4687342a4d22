/** Which question splits rivals best, against a reckoning over a whole joint table, and facts of the trade. */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { strengthIn } from '../../shared/finding-rule.js'
import { takesApart } from '../../shared/taken-apart.js'
import { splitsOf } from '../../server/practice/best-splitter.js'
import { knowledge } from '../the-rulebook.js'

const all = knowledge.kinds.flatMap(({ id }) =>
  bookOf(knowledge, id).confusions.map((confusion) => [confusion.id, id, confusion] as const),
)

describe.each(all)('%s, %s', (_id, kind, confusion) => {
  const book = bookOf(knowledge, kind)
  const splits = splitsOf(book, confusion)

  it('has two questions or more, none twice, the most telling of those that take nothing apart first', () => {
    expect(splits.length).toBeGreaterThan(1)
    expect(new Set(splits.map(({ question }) => question.id)).size).toBe(splits.length)
    const first = splits.filter(({ step }) => !takesApart(book.setups, step.setups))
    for (const other of first) expect(splits[0]!.bits).toBeGreaterThanOrEqual(other.bits)
  })

  it('its information is what the entropy of the rivals falls by on average', () => {
    const shares = confusion.rivals.map((id) => book.causes.find((it) => it.id === id)!.shares[kind]!)
    const whole = shares.reduce((sum, it) => sum + it, 0)
    const entropy = (weights: readonly number[]) => {
      const sum = weights.reduce((a, b) => a + b, 0)
      return weights.reduce((h, w) => (w > 0 ? h - (w / sum) * Math.log2(w / sum) : h), 0)
    }
    for (const { finding, bits } of splits) {
      // joint weights of each rival with a yes and with a no
      const yes = confusion.rivals.map((id, r) => {
        const absent = (1 - finding.leak) * (1 - (strengthIn(finding, id, kind) ?? 0))
        return (shares[r]! / whole) * (1 - absent)
      })
      const no = yes.map((w, r) => shares[r]! / whole - w)
      const p = yes.reduce((a, b) => a + b, 0)
      const fall = entropy(shares) - p * entropy(yes) - (1 - p) * entropy(no)
      expect(bits).toBeCloseTo(fall, 10)
    }
  })
})

it('where a corded tool cuts out, moving the cord is the question that splits (common practice, no source)', () => {
  const confusion = bookOf(knowledge, 'universal-motor').confusions.find(({ id }) => id === 'cuts-out')!
  expect(splitsOf(bookOf(knowledge, 'universal-motor'), confusion)[0]!.finding.id).toBe(
    'cord-flex-changes-it',
  )
})
