/** An exercise as it is stored, told and set. */
import { beforeAll, describe, expect, it } from 'vitest'
import { kindOf, type Prepared } from '../../server/diagnosis/prepare.js'
import type { CardNode } from '../../server/practice/card.js'
import { compileCard } from '../../server/practice/card.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import { makeMove } from '../../server/practice/moves.js'
import { exerciseOfToday } from '../../server/practice/moved-exercise.js'
import { playOut } from '../../server/practice/played.js'
import { resultOf } from '../../server/practice/result.js'
import { shownIn } from '../../server/practice/skills.js'
import { Exercise } from '../../shared/practice.js'
import { ShopSettings } from '../../shared/situation.js'
import { byPlan, exerciseOf, playedBy } from './bench.js'
import { glancingRulebook } from '../the-rulebook.js'

let prepared: Prepared
beforeAll(async () => {
  prepared = await glancingRulebook()
})

const spread = (points: Record<string, number>, other: number) => ({
  type: 'spread' as const,
  spread: { points, other },
})

describe('a stored exercise', () => {
  it('holds what was drawn and done, and nothing that follows from it', () => {
    const stored = exerciseOf({ kind: 'pivot-motor', level: 'own-chair' })
    expect(Object.keys(Exercise.parse(stored)).sort()).toEqual(
      ['begunAt', 'changedAt', 'id', 'kind', 'learner', 'level', 'moves', 'seed', 'setting'].sort(),
    )
    expect(Exercise.safeParse({ ...stored, score: 80 }).success).toBe(false)
    expect(Exercise.safeParse({ ...stored, seed: -1 }).success).toBe(false)
    expect(Exercise.safeParse({ ...stored, moves: [{ type: 'looked', step: 'Not An Id' }] }).success).toBe(
      false,
    )
  })

  it('is read by the ids of today', () => {
    const old = exerciseOf({
      kind: 'old-kind',
      level: 'own-chair',
      setting: { causes: ['old-cause'], hideSuspects: false, hidePrices: false },
      moves: [
        { type: 'looked', step: 'old-step', question: 'old-question' },
        spread({ 'old-cause': 60, 'new-cause': 10 }, 30),
      ],
    })
    const moved = {
      kinds: { 'old-kind': 'new-kind' },
      causes: { 'old-cause': 'new-cause' },
      steps: { 'old-step': 'new-step' },
      questions: { 'old-question': 'new-question' },
    }
    expect(exerciseOfToday(old, moved)).toMatchObject({
      kind: 'new-kind',
      setting: { causes: ['new-cause'] },
      moves: [{ step: 'new-step', question: 'new-question' }, spread({ 'new-cause': 70 }, 30)],
    })
  })

  it('names nothing that is not there: an unknown level or kind is told', async () => {
    await expect(
      layOut(prepared, exerciseOf({ kind: 'pivot-motor', level: 'no-such-level' })),
    ).rejects.toThrow(RangeError)
    await expect(layOut(prepared, exerciseOf({ kind: 'no-such-kind', level: 'own-chair' }))).rejects.toThrow(
      RangeError,
    )
  })

  it('tells its complaint in the statements of what was seen, in the order told', async () => {
    for (let seed = 1; seed <= 10; seed++) {
      const { kind, complaint, heard } = await layOut(
        prepared,
        exerciseOf({ kind: 'rotary-corded', level: 'own-chair', seed }),
      )
      if (complaint.length === 0) continue
      const asked = kind.model.steps.flatMap(({ questions }) => questions)
      expect(heard.map((words) => asked.find(({ statement }) => statement === words)?.id)).toEqual(complaint)
    }
  })
})

describe('points', () => {
  it('count as they last stood before the first repair; after it they stand', async () => {
    const desk = await layOut(
      prepared,
      exerciseOf({ kind: 'universal-motor', level: 'sweeping-the-floor', seed: 2 }),
    )
    const [one, two] = desk.kind.model.causes.map(({ id }) => id) as [string, string]
    let now = startOf(desk)
    for (const move of [spread({ [one]: 50 }, 50), spread({ [two]: 30 }, 70)])
      now = (await makeMove(desk, now, move)).after
    expect(now.spread).toEqual({ points: { [two]: 30 }, other: 70 })
    const tried = await makeMove(desk, now, { type: 'tried', fix: 'oil-blade' })
    const late = await makeMove(desk, tried.after, spread({ [one]: 100 }, 0))
    expect(late.refused).toBeDefined()
    expect(late.after.spread).toEqual({ points: { [two]: 30 }, other: 70 })
    expect((await makeMove(desk, now, spread({ 'no-such-cause': 100 }, 0))).refused).toBeDefined()
  })
})

describe('what an exercise came to', () => {
  it('the plan’s own work shows dangers first, plug out first, and a clean tool handed back', async () => {
    const played = await playedBy(
      prepared,
      exerciseOf({ kind: 'magnetic-motor', level: 'own-chair', seed: 2 }),
      byPlan,
    )
    const result = resultOf(played)!
    expect(result).toMatchObject({
      over: 'hand-back',
      mended: true,
      slips: [],
      spread: undefined,
      brier: undefined,
    })
    const skills = shownIn(played).map(({ skill }) => skill)
    expect(skills).toEqual(
      expect.arrayContaining(['dangers-first', 'plug-out-first', 'disinfected', 'mended']),
    )
  })

  it('is nothing while the exercise goes on, and shows nothing where a slip ended it', async () => {
    const exercise = exerciseOf({ kind: 'magnetic-motor', level: 'own-chair', seed: 2 })
    expect(resultOf(await playOut(prepared, exercise))).toBeUndefined()
    const opened = await playOut(prepared, {
      ...exercise,
      moves: [{ type: 'stood', setup: 'body-open' }, { type: 'disinfected' }],
    })
    expect(resultOf(opened)!.over).toBe('slip')
    expect(resultOf(opened)!.slips).toContain('opened-while-plugged-in')
    expect(opened.done[1]!.refused).toBeDefined()
    expect(shownIn(opened)).toEqual([])
  })
})

describe('a card of the real rulebook', () => {
  const nodes = (node: CardNode): CardNode[] =>
    node.is === 'question'
      ? [node, ...nodes(node.yes), ...nodes(node.no)]
      : node.is === 'fix'
        ? [node, ...nodes(node.next)]
        : [node]

  it('numbers its questions once each, as many as fit, and asks none twice on one way down', async () => {
    const shop = ShopSettings.parse({ skill: 'S3', canSafetyTest: true })
    const card = await compileCard(kindOf(prepared, 'universal-motor'), 'cuts-in-and-out', shop, 8)
    const questions = nodes(card.root).flatMap((node) => (node.is === 'question' ? [node] : []))
    expect(card.questions).toBeLessThanOrEqual(8)
    expect(questions.map(({ number }) => number).sort((a, b) => a - b)).toEqual(
      questions.map((_, k) => k + 1),
    )
    expect(card.cut).toBeGreaterThanOrEqual(0)
    expect(card.cut).toBeLessThanOrEqual(1)
    const down = (node: CardNode, above: readonly string[]): void => {
      if (node.is === 'fix') down(node.next, above)
      if (node.is !== 'question') return
      expect(above).not.toContain(node.finding)
      down(node.yes, [...above, node.finding])
      down(node.no, [...above, node.finding])
    }
    down(card.root, [])
    const { root } = card
    expect(root.is).toBe('question')
  })
})
