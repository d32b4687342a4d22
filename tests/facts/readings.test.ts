/**
 * Readings: a figure with its unit, how it is taken safely, and a limit that stands where physics and the burn
 * thresholds put it.
 *
 * Sources: burn thresholds by material and contact time, ISO 13732-1:2006 (from memory until checked); resistivity of
 * copper at 20 °C, 0.0175 ohm mm²/m (a handbook figure, from memory); what a bench does is common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { comparisonsOf } from '../../shared/conditions.js'
import { knowledge } from '../the-rulebook.js'

const limitOf = (finding: string): number => {
  const { when } = knowledge.findings.find(({ id }) => id === finding)!
  return comparisonsOf(when)[0]!.value as number
}

/** Degrees at which bare metal burns a healthy adult hand, by time of contact; ISO 13732-1, from memory. */
const metal = { oneSecond: 65, tenSeconds: 55, oneMinute: 51, tenMinutes: 48 }

describe('heat', () => {
  it('a blade leaves the skin below every burn threshold, and a grip is hot at the one of ten minutes', () => {
    expect(limitOf('blade-temperature-high')).toBeLessThan(metal.tenMinutes)
    expect(limitOf('body-temperature-high')).toBeLessThanOrEqual(metal.tenMinutes)
  })
  it('the step says what burns by material and time, and that these are no limits for a client', () => {
    const steps = knowledge.steps.filter(({ questions }) =>
      questions.some(({ id }) => id === 'blade-temperature'),
    )
    expect(steps.length).toBeGreaterThan(0)
    for (const step of steps) {
      const said = step.cautions.join(' ')
      for (const material of [/bare metal/i, /coated metal/i, /ceramic/i, /plastic/i])
        expect(said).toMatch(material)
      for (const [degrees, time] of [
        [metal.oneSecond, '1 s'],
        [metal.tenSeconds, '10 s'],
        [metal.oneMinute, 'a minute'],
        [metal.tenMinutes, 'ten minutes'],
      ] as const)
        expect(said, step.id).toMatch(new RegExp(`${degrees}[^.;]* in ${time}`))
      expect(said).toMatch(/from memory until checked, and no limits for a client/i)
      expect(said).toMatch(/never after smoke/i)
    }
  })
  it('a hand comes after the figure, its back first and for one second', () => {
    const hot = knowledge.steps.find(({ id }) => id === 'where-hot')!
    expect([...hot.how, ...hot.cautions].join(' ')).toMatch(/back of the hand for one second/i)
  })
})

describe('ohms', () => {
  it('the limit of a cord is far above what its copper has, and far below a break', () => {
    const wire = (0.0175 * 3) / 0.5 // three metres of the thinnest cord in use, 0.5 mm²
    expect(limitOf('cord-ohms-high')).toBeGreaterThan(5 * wire)
    expect(limitOf('cord-ohms-high')).toBeLessThan(5)
  })
  it('is only ever read with the plug out', () => {
    const ohms = knowledge.steps.filter(({ questions }) => questions.some(({ unit }) => unit === 'ohm'))
    for (const step of ohms) {
      expect(step.power, step.id).toBe(false)
      expect(step.setups, step.id).toContain('plug-out')
    }
  })
})

describe('a reading on a live open mains tool', () => {
  it('does not exist in any kind, and the rulebook says who is left to take it', () => {
    for (const { id: kind } of knowledge.kinds) {
      const book = bookOf(knowledge, kind)
      const bares = new Set(book.setups.filter(({ opensBody }) => opensBody).map(({ id }) => id))
      const live = book.steps.filter(({ power, setups }) => power && setups.some((id) => bares.has(id)))
      for (const { id, questions } of live)
        for (const question of questions) {
          // only where the tool may be fed by a plug-in supply, and never while that is not known
          const hiding = book.relevance.filter(({ hides }) => hides.questions.includes(question.id))
          const whenUnsure = hiding.filter(({ when }) => /"cant-tell"/.test(JSON.stringify(when)))
          expect(whenUnsure.length, `${kind}: ${id}`).toBeGreaterThan(0)
        }
      for (const setup of book.setups.filter(({ opensBody }) => opensBody))
        expect(setup.cautions.join(' '), `${kind}: ${setup.id}`).toMatch(
          /left to licensed (benches|services)/i,
        )
    }
  })
})

describe('speed', () => {
  it('a sixth off the twin counts, either way', () => {
    expect(limitOf('speed-low')).toBeCloseTo((100 * 5) / 6, -1)
    expect(limitOf('speed-high')).toBeCloseTo((100 * 7) / 6, -1)
  })
  it('shows a worked example that comes out', () => {
    const steps = knowledge.steps.filter(({ questions }) =>
      questions.some(({ id }) => id === 'speed-percent'),
    )
    for (const step of steps) {
      const example = /(\d+) Hz against (\d+) Hz is (\d+) in 100/.exec(
        [...step.how, ...step.questions.map(({ help }) => help)].join(' '),
      )!
      const [own, twin, percent] = example.slice(1).map(Number) as [number, number, number]
      expect((100 * own) / twin).toBe(percent)
    }
    expect(steps.length).toBeGreaterThan(0)
  })
})
