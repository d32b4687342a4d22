import { describe, expect, it } from 'vitest'
import { BadRequest } from '../../server/errors.js'
import { answersFrom, itemView } from '../../server/forms/answer-form.js'
import { Question } from '../../shared/knowledge.js'

const rattles = Question.parse({ id: 'rattles', text: 'Does it rattle?', statement: 'It rattles' })
const length = Question.parse({
  id: 'length',
  text: 'How long is it?',
  statement: 'It measures',
  kind: 'number',
  unit: 'mm',
  min: 0,
  max: 40,
})

describe('a yes-no question', () => {
  it.each(['yes', 'no', 'cant-tell'])('takes %s', (answer) => {
    expect(answersFrom([rattles], { 'q-rattles': answer }, 'must-answer')).toEqual({
      ok: true,
      answers: { rattles: answer },
    })
  })
  it('left alone is a no, nothing at all, or a slip, as the page says', () => {
    expect(answersFrom([rattles], {}, 'no')).toEqual({ ok: true, answers: { rattles: 'no' } })
    expect(answersFrom([rattles], {}, 'unknown')).toEqual({ ok: true, answers: {} })
    expect(answersFrom([rattles], {}, 'must-answer')).toMatchObject({
      ok: false,
      problems: [{ field: 'q-rattles', message: 'Choose yes, no or can’t tell: It rattles' }],
    })
  })
  it('cannot be ticked and not told at once', () => {
    expect(answersFrom([rattles], { 'q-rattles': ['yes', 'cant-tell'] }, 'no')).toMatchObject({ ok: false })
  })
  it('keeps what was ticked when the rest cannot be told', () => {
    const other = { ...rattles, id: 'other' }
    expect(answersFrom([rattles, other], { 'q-rattles': 'yes', rest: 'cant-tell' }, 'no')).toEqual({
      ok: true,
      answers: { rattles: 'yes', other: 'cant-tell' },
    })
  })
  it.each([{ 'q-rattles': 'maybe' }, { 'q-rattles': { yes: '1' } }, { 'q-rattles': Array(50).fill('yes') }])(
    'refuses %j, which no page sends',
    (sent) => {
      expect(() => answersFrom([rattles], sent, 'no')).toThrow(BadRequest)
    },
  )
})

describe('a reading', () => {
  it.each([
    ['9.5', 9.5],
    ['9,5', 9.5],
    [' 7 ', 7],
    ['0', 0],
    ['40', 40],
  ])('takes "%s"', (text, reading) => {
    expect(answersFrom([length], { 'n-length': text }, 'no')).toEqual({
      ok: true,
      answers: { length: reading },
    })
  })
  it.each(['', 'long', '7 mm', '1e3', '-1', '41', 'NaN', 'Infinity', '0x10', '9.5.1', '9'.repeat(400)])(
    'says what to put right for "%s"',
    (text) => {
      const parsed = answersFrom([length], { 'n-length': text }, 'must-answer')
      expect(parsed).toMatchObject({ ok: false, problems: [{ field: 'q-length' }] })
    },
  )
  it('that was not taken is no "no"', () => {
    for (const sent of [{ 'n-length': '', rest: 'no' }, { rest: 'cant-tell' }])
      expect(answersFrom([length], sent, 'must-answer')).toEqual({
        ok: true,
        answers: { length: 'cant-tell' },
      })
  })
  it('can be one that nobody can tell', () => {
    expect(answersFrom([length], { 'q-length': 'cant-tell', 'n-length': '' }, 'no')).toEqual({
      ok: true,
      answers: { length: 'cant-tell' },
    })
  })
})

it('shows again what was sent, not what is stored', () => {
  expect(itemView(length, 12, { 'n-length': 'twelve' }).number).toMatchObject({ value: 'twelve', unit: 'mm' })
  expect(itemView(length, 12).number).toMatchObject({ value: '12' })
  expect(itemView(rattles, 'yes', {}).ticked).toBe(false)
  expect(itemView(rattles, 'yes').ticked).toBe(true)
})
