/** The project's own signs: each kind is found, soon, and by what the trade goes by. */
import { describe, expect, it } from 'vitest'
import type { Sign } from '../../shared/knowledge.js'
import { identify } from '../../server/identify/identify.js'
import type { SignAnswer } from '../../server/identify/kind-odds.js'
import { generator } from '../study/random-rulebook.js'
import { knowledge } from '../the-rulebook.js'

/** Goes through the questions. @returns what it came to, and how many were asked */
function goThrough(answerTo: (sign: Sign) => SignAnswer, mayRun = true) {
  const answers: Record<string, SignAnswer> = {}
  for (;;) {
    const stands = identify(knowledge, answers, mayRun)
    if (stands.state !== 'asking') return { stands, asked: Object.keys(answers).length }
    answers[stands.sign.id] = answerTo(stands.sign)
  }
}

describe('somebody who holds a usual tool of a kind', () => {
  const likeliest = (kind: string) => (sign: Sign) => (sign.kinds[kind]! > 0.5 ? 'yes' : 'no')

  it.each(knowledge.kinds)('finds $id in six questions at most', ({ id }) => {
    const { stands, asked } = goThrough(likeliest(id))
    expect(stands).toMatchObject({ state: 'found', kind: id })
    expect(asked).toBeLessThanOrEqual(6)
  })

  it.each(knowledge.kinds)('finds $id without switching it on', ({ id }) => {
    const { stands } = goThrough(likeliest(id), false)
    expect(stands).toMatchObject({ state: 'found', kind: id })
  })

  // Our own mark: of the slips that are made, each as often as it comes, one in twenty at most may lead astray.
  it.each(knowledge.kinds)(
    'is seldom led to another kind by one answer that came out wrong: $id',
    ({ id }) => {
      const slips = knowledge.signs.map((slip) => {
        const { stands } = goThrough((sign) => {
          const usual = likeliest(id)(sign)
          if (sign.id !== slip.id) return usual
          return usual === 'yes' ? 'no' : 'yes'
        })
        const often = Math.min(slip.kinds[id]!, 1 - slip.kinds[id]!)
        return { often, astray: stands.state === 'found' && stands.kind !== id }
      })
      const all = slips.reduce((sum, { often }) => sum + often, 0)
      const astray = slips.reduce((sum, one) => sum + (one.astray ? one.often : 0), 0)
      expect(astray / all).toBeLessThanOrEqual(0.05)
    },
  )
})

// A kind is named when it stands at 19 in 20; over many tools that has to come true (calibration, by simulation).
it('is right as often as it says, over 3000 tools of the usual mix', () => {
  const random = generator(20261125)
  const sum = knowledge.kinds.reduce((total, { usual }) => total + usual!, 0)
  const tools = 3000
  let [found, right] = [0, 0]
  for (let tool = 0; tool < tools; tool++) {
    let left = random() * sum
    const { id } = knowledge.kinds.find(({ usual }) => (left -= usual!) < 0)!
    const { stands } = goThrough((sign) => (random() < sign.kinds[id]! ? 'yes' : 'no'))
    if (stands.state !== 'found') continue
    found++
    if (stands.kind === id) right++
  }
  expect(found / tools).toBeGreaterThan(0.7)
  // four standard errors of a share of 0.95, so that no unlucky seed decides
  expect(right / found).toBeGreaterThan(0.95 - 4 * Math.sqrt((0.95 * 0.05) / found))
})

// Common practice, no source.
describe('what the trade goes by', () => {
  const seen = (...yes: string[]) => goThrough((sign) => (yes.includes(sign.id) ? 'yes' : 'no')).stands
  it.each([
    [
      'round caps on both sides and a snap-on blade',
      ['brush-caps', 'snap-on-blade', 'slots-at-tail', 'warm-air'],
      'universal-motor',
    ],
    [
      'a clack at the start, a buzz and a screw in the side',
      ['loud-clack', 'deep-buzz', 'side-screw'],
      'magnetic-motor',
    ],
    [
      'a soft hum, a long slow stroke and no screw in the side',
      ['deep-buzz', 'long-slow-stroke'],
      'pivot-motor',
    ],
    ['a whirr, and a block in the wall', ['whine-that-drops', 'supply-block'], 'rotary-corded'],
    ['a battery that fades', ['has-battery', 'fades-with-battery', 'whine-that-drops'], 'rotary-cordless'],
    ['a battery, and brushless on its box', ['has-battery', 'says-brushless'], 'brushless-cordless'],
  ])('%s', (_, yes, kind) => {
    expect(seen(...yes)).toMatchObject({ state: 'found', kind })
  })
})

it('leaves everything open to somebody who can tell nothing', () => {
  const { stands } = goThrough(() => 'cant-tell')
  expect(stands.state).toBe('between')
})

it('says that no kind fits when every sign is there at once', () => {
  expect(goThrough(() => 'yes').stands.state).not.toBe('asking')
  const all = Object.fromEntries(knowledge.signs.map(({ id }) => [id, 'yes' as const]))
  expect(identify(knowledge, all, true).state).toBe('none')
})
