/** Advice that goes round: asked first, then answered with the reason, for every kind that it is told of. */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { knowledge, practiceShops } from './practice-shop.js'

const { opened, withLearner } = practiceShops()
const toldOf = knowledge.hearsay.flatMap((it) => it.kinds.map((kind) => [it.id, kind] as const))

/**
 * How it stands by common practice, no source; two are told by trade pages too: a sharpener's, that the can burns and
 * thins the oil, and a groomers', that red skin is irritation far more often than heat.
 */
const facts = [
  ['wash-on-the-running-blade', 'wrong', /loose blade/i],
  ['spray-on-the-running-blade', 'wrong', /burns/],
  ['fitting-a-snap-on-blade', 'depends', /lever/],
  ['trying-the-edge-on-your-arm', 'wrong', /tissue/],
  ['the-round-caps-on-the-sides', 'wrong', /brush/],
  ['the-side-screw-of-a-vibrator', 'wrong', /power/],
  ['blades-that-sharpen-themselves', 'wrong', /sharpener/],
  ['air-into-the-vents', 'depends', /inward/],
  ['always-on-the-charger', 'depends', /swollen/],
  ['hot-because-held-too-long', 'depends', /oil, blade, tension, filter/],
  ['clipper-burn', 'wrong', /irritation/],
  ['waking-a-flat-pack', 'wrong', /service/],
  ['good-on-the-old-one', 'wrong', /wears together/],
  ['both-brushes-together', 'right', /pair/],
] as const

describe('what the trade says to it (common practice, no source)', () => {
  it.each(facts)('%s: %s', async (id, stands, reason) => {
    const { me } = await opened()
    await me.open(`/practice/lessons/hearsay/${id}`)
    expect(me.status).toBe(200)
    // before anything was said the page gives nothing away
    expect(me.words).not.toMatch(/It is (right|wrong)\.|It depends\./)
    await me.open(`/practice/lessons/hearsay/${id}?say=${stands}`)
    expect(me.words).toContain('Yes.')
    expect(me.words).toMatch(reason)
    const other = stands === 'wrong' ? 'right' : 'wrong'
    await me.open(`/practice/lessons/hearsay/${id}?say=${other}`)
    expect(me.words).toContain(`You said: ${other}.`)
  })

  it('nothing that somebody is told to do instead has hands inside before the plug is out', () => {
    for (const { id, instead, cautions } of knowledge.hearsay) {
      const opens = instead.findIndex((line) => /\b(cap|cover|inside|screw comes)\b/i.test(line))
      const words = [...instead.slice(0, opens + 1), ...cautions].join(' ')
      if (opens >= 0) expect(words, id).toMatch(/plug out|unplug/i)
    }
  })
})

describe('of every kind that it is told of', () => {
  it.each(toldOf)('%s, %s', async (id, kind) => {
    const { me, learner } = await withLearner()
    await me.open(`/practice/lessons/hearsay/${id}?kind=${kind}&say=depends&for=${learner.id}`)
    expect(me.status).toBe(200)
    const own = bookOf(knowledge, kind).hearsay.find((it) => it.id === id)!
    for (const line of [own.told, ...own.because, ...own.instead, ...own.cautions])
      expect(me.words).toContain(line)
    expect(me.html).toContain(`name="lesson" value="hearsay/${id}"`)
    expect(me.html).toContain(`value="${learner.id}"`)
  })
})

it('says so where there is no such lesson, and takes nonsense for nothing said', async () => {
  const { me } = await opened()
  await me.open('/practice/lessons/hearsay/no-such-thing')
  expect(me.status).toBe(404)
  expect(me.words).toContain('lesson')
  await me.open(`/practice/lessons/hearsay/${knowledge.hearsay[0]!.id}?say=perhaps&kind=spaceship&for=../x`)
  expect(me.status).toBe(200)
  expect(me.words).toContain('What do you say?')
})
