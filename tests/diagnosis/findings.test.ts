/**
 * Proves the logic of answers and findings as the method defines it: what nobody has told is unknown and never
 * false, "can't tell" is no evidence, of one topic only one witness is heard, and a dead tool acquits nobody.
 * The rulebooks are made up; the expected states follow from the definitions alone.
 */
import { describe, expect, it } from 'vitest'
import { findingsFrom } from '../../server/diagnosis/findings.js'
import { modelOf } from '../../server/diagnosis/model.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Answer, Situation } from '../../shared/situation.js'
import type { Condition } from '../../shared/conditions.js'
import {
  allOf,
  anyOf,
  cause,
  finding,
  is,
  KIND,
  relevance,
  rulebook,
  situation,
  stop,
} from './small-rulebook.js'

const causes = [cause('brushes', 600), cause('cord', 400)]
const book = (parts: Partial<Knowledge>) => modelOf(rulebook({ causes, ...parts }), KIND)
const number = (fact: string, operator: 'lessThan' | 'greaterThan', value: number) =>
  allOf({ fact, operator, value } as Condition)

async function found(
  parts: Partial<Knowledge>,
  answers: Record<string, Answer>,
  more: Partial<Situation> = {},
) {
  const result = await findingsFrom(book(parts), situation(answers, more))
  return { ...result, state: Object.fromEntries(result.states) }
}

describe('yes, no, can’t tell, and nothing said', () => {
  const findings = [finding('cuts-out', { brushes: 0.7 }), finding('hot', { cord: 0.2 })]
  it('each is a state of its own', async () => {
    expect((await found({ findings }, {})).state).toEqual({ 'cuts-out': 'unknown', hot: 'unknown' })
    expect((await found({ findings }, { hot: 'yes' })).state['hot']).toBe('yes')
    expect((await found({ findings }, { hot: 'no' })).state['hot']).toBe('no')
    expect((await found({ findings }, { hot: 'cant-tell' })).state['hot']).toBe('cant-tell')
  })
  it('only yes and no are evidence, in rulebook order, with the fixes done by then', async () => {
    const { evidence } = await found(
      { findings },
      { hot: 'no', 'cuts-out': 'yes' },
      { fixesTried: ['any'], answeredAfter: { hot: 1 } },
    )
    expect(evidence).toEqual([
      { finding: 'cuts-out', present: true, after: 0 },
      { finding: 'hot', present: false, after: 1 },
    ])
    expect((await found({ findings }, { hot: 'cant-tell' })).evidence).toEqual([])
    expect((await found({ findings }, {})).evidence).toEqual([])
  })
  it('what fired is told by folder, since two folders may use one name', async () => {
    const stops = [stop('hot', 'set-aside', allOf(is('hot')))]
    const { fired } = await found({ findings, stops }, { 'cuts-out': 'yes' })
    expect(fired).toEqual({ findings: ['cuts-out'], stops: [], relevance: [] })
    const lifted = await found({ findings, stops }, { hot: 'yes' }, { stopsLifted: ['hot'] })
    expect(lifted.fired).toEqual({ findings: ['hot'], stops: ['hot'], relevance: [] })
    expect(lifted.stops).toEqual([])
  })
  it('fired names what holds, in rulebook order', async () => {
    expect((await found({ findings }, { hot: 'yes', 'cuts-out': 'yes' })).fired.findings).toEqual([
      'cuts-out',
      'hot',
    ])
    expect((await found({ findings }, { hot: 'no' })).fired.findings).toEqual([])
  })
  it('a rule over a question that was answered otherwise is false; two rules on one question part ways', async () => {
    const sides = [
      finding('flex-changes-it', { cord: 0.9 }, { when: allOf(is('flex')) }),
      finding('flex-changes-nothing', { brushes: 0.3 }, { when: allOf(is('flex', 'no')) }),
    ]
    expect((await found({ findings: sides }, { flex: 'no' })).state).toEqual({
      'flex-changes-it': 'no',
      'flex-changes-nothing': 'yes',
    })
  })
})

describe('numbers', () => {
  const findings = [
    finding('brush-short', { brushes: 0.9 }, { when: number('length', 'lessThan', 6) }),
    finding('brush-long', { cord: 0.2 }, { when: number('length', 'greaterThan', 10) }),
  ]
  it.each([
    [5.9, 'yes', 'no'],
    [6, 'no', 'no'],
    [10, 'no', 'no'],
    [10.1, 'no', 'yes'],
    [0, 'yes', 'no'],
  ])('%d mm', async (length, short, long) => {
    expect((await found({ findings }, { length })).state).toEqual({
      'brush-short': short,
      'brush-long': long,
    })
  })
  it('not measured is neither', async () => {
    const unknown = { 'brush-short': 'unknown', 'brush-long': 'unknown' }
    expect((await found({ findings }, {})).state).toEqual(unknown)
    const untold = { 'brush-short': 'cant-tell', 'brush-long': 'cant-tell' }
    expect((await found({ findings }, { length: 'cant-tell' })).state).toEqual(untold)
  })
})

describe('one topic, one witness', () => {
  const findings = [
    finding('blade-swap-helps', { brushes: 0.1 }, { topic: 'blade-swap' }),
    finding('cord-flex', { cord: 0.9 }),
    finding('blade-swap-same', { cord: 0.3 }, { topic: 'blade-swap' }),
  ]
  const heard = async (answers: Record<string, Answer>) =>
    (await found({ findings }, answers)).evidence.map((e) => e.finding)
  it('the first in rulebook order that is known, whatever was answered first', async () => {
    expect(await heard({ 'blade-swap-same': 'yes', 'blade-swap-helps': 'no' })).toEqual(['blade-swap-helps'])
    expect(await heard({ 'blade-swap-same': 'yes' })).toEqual(['blade-swap-same'])
    expect(await heard({ 'blade-swap-same': 'yes', 'blade-swap-helps': 'cant-tell' })).toEqual([
      'blade-swap-same',
    ])
  })
  it('other findings are heard beside it', async () => {
    const all = { 'blade-swap-same': 'yes', 'blade-swap-helps': 'no', 'cord-flex': 'no' } as const
    expect(await heard(all)).toEqual(['blade-swap-helps', 'cord-flex'])
  })
})

describe('a dead tool', () => {
  const parts: Partial<Knowledge> = {
    findings: [
      finding('wont-start', { brushes: 0.5, cord: 0.8 }),
      finding('sparks', { brushes: 0.6 }, { running: true }),
      finding('loud', { brushes: 0.2 }, { running: true }),
      finding('cord-damaged', { cord: 0.7 }),
    ],
    relevance: [relevance('dead', allOf(is('wont-start')), { running: true })],
  }
  it('what shows only on a running one is unknown, never false', async () => {
    const { state, evidence } = await found(parts, {
      'wont-start': 'yes',
      sparks: 'no',
      'cord-damaged': 'no',
    })
    expect(state).toEqual({
      'wont-start': 'yes',
      sparks: 'unknown',
      loud: 'unknown',
      'cord-damaged': 'no',
    })
    expect(evidence.map((e) => e.finding)).toEqual(['wont-start', 'cord-damaged'])
  })
  it('a yes already given stays', async () => {
    const { state, evidence } = await found(parts, { 'wont-start': 'yes', sparks: 'yes', loud: 'no' })
    expect(state).toMatchObject({ sparks: 'yes', loud: 'unknown' })
    expect(evidence.map((e) => e.finding)).toEqual(['wont-start', 'sparks'])
  })
  it('on a tool that starts, or that nobody has switched on, a no is a no', async () => {
    expect((await found(parts, { 'wont-start': 'no', sparks: 'no' })).state['sparks']).toBe('no')
    expect((await found(parts, { sparks: 'no' })).state['sparks']).toBe('no')
    expect((await found(parts, { 'wont-start': 'cant-tell', sparks: 'no' })).state['sparks']).toBe('no')
  })
})

describe('stops', () => {
  const parts: Partial<Knowledge> = {
    findings: [
      finding('tingle', { cord: 0.3 }),
      finding('smoke', { brushes: 0.1 }),
      finding('wet', { cord: 0.1 }),
    ],
    stops: [
      stop('shock', 'set-aside', anyOf(is('tingle'), is('smoke'))),
      stop(
        'look-again',
        'off-the-client',
        allOf({ fact: 'wet', operator: 'in', value: ['yes', 'cant-tell'] }),
      ),
    ],
  }
  const ids = async (answers: Record<string, Answer>) => (await found(parts, answers)).stops.map((s) => s.id)
  it('hold over findings, one danger being enough', async () => {
    expect(await ids({})).toEqual([])
    expect(await ids({ tingle: 'no', smoke: 'no' })).toEqual([])
    expect(await ids({ tingle: 'cant-tell' })).toEqual([])
    expect(await ids({ smoke: 'yes' })).toEqual(['shock'])
    expect(await ids({ wet: 'cant-tell', tingle: 'yes' })).toEqual(['shock', 'look-again'])
  })
  it('are lifted by name, and only by name', async () => {
    const { stops } = await found(parts, { smoke: 'yes', wet: 'yes' }, { stopsLifted: ['shock'] })
    expect(stops.map((s) => s.id)).toEqual(['look-again'])
  })
})
