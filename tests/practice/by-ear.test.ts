/** The lesson by ear: what is played is what the page says it was; what a sign sounds like is judged by the ear. */
import { describe, expect, it } from 'vitest'
import { hear } from '../../server/listening/hear.js'
import { earChoices, playedAs, soundingKinds } from '../../server/practice/by-ear.js'
import type { EarSign } from '../../server/practice/by-ear.js'
import { madeSound, plateFor } from '../../server/practice/made-sound.js'
import { byEarPage } from '../../server/pages/practice/by-ear-page.js'
import { knowledge } from '../the-rulebook.js'

const kinds = soundingKinds(knowledge)
const asked = { kind: 'rotary-cordless', number: 5, say: '', heard: 2, right: 1, learner: '' }
const heardIn = (id: string, sign: EarSign | null) => {
  const kind = kinds.find((it) => it.id === id)!
  const plate = plateFor(sign) ?? 50
  const { drive, least, most } = kind.sound
  return hear(madeSound(kind, plate, 12, sign), 16_000, {
    ...{ drive, mains: 50, between: [least, most], expected: null },
  })
}

describe('which sound', () => {
  it('each once before one comes again, in every kind', () => {
    for (const { id } of kinds) {
      const choices = earChoices(knowledge, id)
      expect(choices.length, id).toBeGreaterThan(2)
      for (const block of [0, 1, 2, 40]) {
        const played = choices.map((_, k) => playedAs(choices, block * choices.length + k))
        expect(new Set(played).size, id).toBe(choices.length)
      }
    }
  })
  // facts of alternating current: 120 strokes a minute for each hertz
  it('a vibrator is off only with the mains: 6000 strokes on a plate of 7200, and 7200 on one of 6000', () => {
    expect(heardIn('magnetic-motor', 'slower').rate!.perMinute).toBeCloseTo(6000, -2)
    expect(heardIn('magnetic-motor', 'faster').rate!.perMinute).toBeCloseTo(7200, -2)
  })
  it('of a motor does what its sign says, and its twin does not', () => {
    const well = heardIn('brushless-cordless', null)
    expect(well.dropOuts).toEqual([])
    expect(Math.abs(well.drift!.percent)).toBeLessThan(10)
    expect(heardIn('brushless-cordless', 'slower').rate!.perMinute / well.rate!.perMinute).toBeLessThan(0.85)
    expect(heardIn('brushless-cordless', 'rhythm').inRhythm).toBe(true)
    expect(heardIn('brushless-cordless', 'sinks').drift!.percent).toBeLessThan(-60)
  })
})

describe('the page', () => {
  it('says nothing of what it is before the learner does, then counts, and lets hear what was said', () => {
    const before = byEarPage(knowledge, asked)!
    expect(before.answer).toBeNull()
    expect(before.tally).toBe('1 of 2 right')
    const { sign } = playedAs(earChoices(knowledge, asked.kind), asked.number)
    const right = byEarPage(knowledge, { ...asked, say: sign ?? 'none' })!
    expect(right.answer).toMatchObject({ right: true, said: null })
    expect(right.tally).toBe('2 of 3 right')
    const other = sign === 'slower' ? 'faster' : 'slower'
    const wrong = byEarPage(knowledge, { ...asked, say: other })!
    expect(wrong.answer?.right).toBe(false)
    expect(wrong.answer?.said?.sound).toContain(`/${asked.number}/${other}.wav`)
    expect(wrong.answer?.next).toContain('n=6&heard=3&right=1')
  })
  it('names what is most often behind it, by share and strength in the kind', () => {
    const choices = earChoices(knowledge, asked.kind)
    const number = choices.findIndex((_, k) => playedAs(choices, k).sign === 'sinks')
    const page = byEarPage(knowledge, { ...asked, number, say: 'sinks' })!
    // common practice, no source: a note that sinks is a tired battery before anything else
    expect(page.answer?.behind[0]).toMatch(/battery/)
  })
})
