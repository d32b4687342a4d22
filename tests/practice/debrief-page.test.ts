import { beforeAll, describe, expect, it } from 'vitest'
import request from 'supertest'
import type { Exercise, PracticeMove, Setting } from '../../shared/practice.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { debriefOf } from '../../server/practice/debrief.js'
import type { Desk } from '../../server/practice/desk.js'
import type { BenchState } from '../../server/practice/desk.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import { slipsOf } from '../../server/practice/slips.js'
import { isContrary } from '../../server/practice/moves.js'
import { plansSpread } from '../../server/practice/model-player.js'
import { lookBack } from '../../server/practice/look-back.js'
import { stepsOf } from '../../server/pages/practice/debrief-steps.js'
import { toldOfMove } from '../../server/pages/practice/done-words.js'
import { sumOf } from '../../server/pages/practice/debrief-sum.js'
import { tallyOf } from '../../server/pages/practice/tally.js'
import { OPENED, benchWith, type Bench } from '../api/bench.js'
import { byPlan, careful, exerciseOf, playedBy, type Player } from './bench.js'
import { glancingRulebook } from '../the-rulebook.js'

const kind = 'universal-motor'
const plain: Setting = { hideSuspects: false, hidePrices: false }
let book: Prepared
let bench: Bench
let learner: string

beforeAll(async () => {
  book = await glancingRulebook()
  bench = await benchWith({ knowledge: book.knowledge })
  const ofClass = await bench.register.addClass({ name: 'Tuesdays', at: OPENED })
  learner = (await bench.register.addLearner({ name: 'Ana', class: ofClass.id, at: OPENED })).id
})

async function stored(
  of: { level: string; seed: number; setting?: Partial<Setting>; kind?: string },
  moves: readonly PracticeMove[],
): Promise<Exercise> {
  const setting: Setting = { ...plain, ...of.setting }
  let exercise = await bench.register.begin({ kind, ...of, setting, learner, at: OPENED })
  for (const move of moves)
    exercise = await bench.register.makeMove(exercise.id, move, OPENED, exercise.moves.length)
  return exercise
}

async function played(
  of: { level: string; seed: number; setting?: Setting; kind?: string },
  player: Player | readonly PracticeMove[],
): Promise<string> {
  const moves =
    typeof player === 'function'
      ? (await playedBy(book, exerciseOf({ kind, ...of }), player)).exercise.moves
      : player
  return shownOf((await stored(of, moves)).id)
}

/** Asks until the page is there, as its Refresh header does. */
async function shownOf(id: string): Promise<string> {
  for (;;) {
    const { status, text, headers } = await request(bench.app).get(
      `/practice/exercises/${id}/debrief?told=yes`,
    )
    expect(status).toBe(200)
    if (headers['refresh'] === undefined) return text
    expect(text).toContain('Going through it once more')
  }
}

const special: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', '#34': '"', '#39': "'" }
/** What a person reads: no markup, no addresses. */
const wordsOf = (html: string): string =>
  html
    .replace(/^.*<main[^>]*>/s, '')
    .replace(/<\/main>.*$/s, '')
    .replace(/<svg.*?<\/svg>/gs, ' ')
    .replace(/<[^>]+>/g, ' ')
    .replace(/&(amp|lt|gt|#34|#39);/g, (_, name: string) => special[name]!)
    .replace(/\s+/g, ' ')

/** Readings that a question asked for, such as "0.4 Ω": the only decimals that a person at a bench reads. */
const readings = /\d+\.\d+ (mm|°C|min|Ω|V|W|%|per minute)/g

function expectPlainWords(html: string): void {
  const words = wordsOf(html)
  expect(words.replace(readings, '')).not.toMatch(/\d[.,]\d/)
  expect(words).not.toMatch(/\b(undefined|null|NaN|Infinity)\b|\[object/)
  const ids = [
    ...book.knowledge.causes,
    ...book.knowledge.slips,
    ...book.knowledge.findings,
    ...book.knowledge.steps,
  ]
    .map(({ id }) => id)
    .filter((id) => id.split('-').length > 2)
  expect(ids.filter((id) => words.includes(id))).toEqual([])
}

/** What stands unfolded: the debrief of the first levels has 150 words at most, and five lines beside a good way. */
function expectShort(html: string): void {
  const folded =
    /<details(?![^>]* open)[^>]*>\s*<summary>((?:(?!<details|<\/details>).)*?)<\/summary>(?:(?!<details|<\/details>).)*<\/details>/gs
  let unfolded = html
  for (let before = ''; before !== unfolded;)
    [before, unfolded] = [unfolded, unfolded.replace(folded, ' $1 ')]
  const words = wordsOf(unfolded.replace(/<(\w+)[^>]*visually-hidden[^>]*>.*?<\/\1>/gs, ' '))
    .trim()
    .split(' ')
  expect(words.length, words.join(' ')).toBeLessThanOrEqual(150)
  const ways = html.split('ways-table')[1]!.split('</table>')[0]!
  expect(ways.split('<tbody>')[1]!.match(/<tr>/g)!.length).toBeLessThanOrEqual(5)
}

const section = (html: string, id: string): string =>
  wordsOf(`<main>${html.split(`id="${id}"`)[1]!.split('</section>')[0]!}</main>`)

describe('the debrief of', () => {
  it('the plan’s own player: 100, and no fault is made up', async () => {
    const html = await played({ level: 'sweeping-the-floor', seed: 3 }, byPlan)
    expectPlainWords(html)
    expect(wordsOf(html)).toContain('You could not have done better')
    expect(section(html, 'sum')).toContain('100 of 100')
    expect(html).not.toContain('The plan:</b>')
    expect(html).not.toContain('slip-band')
    expect(html).not.toContain('went-loss')
    expectShort(html)
  })

  it('a fault that does not go along: the service finds nothing', async () => {
    const setting = { ...plain, causes: ['wet-or-dirty-hair'] }
    const html = await played({ level: 'own-chair', seed: 3, setting }, [{ type: 'ended', way: 'send-in' }])
    expect(wordsOf(html)).toContain('A service finds a sound tool')
    expect(wordsOf(html)).not.toContain('The service fixes it')
  })

  it('a blind player: the costliest move is the lesson, moves have the plan’s beside them, and minutes add up', async () => {
    const html = await played({ level: 'sweeping-the-floor', seed: 6 }, careful(5, 5))
    expectPlainWords(html)
    expect(section(html, 'along')).toMatch(/minutes (lost on average|more than a good way)/)
    expect(section(html, 'steps')).toContain('The plan:')
    expect(section(html, 'sum')).toMatch(/about \d+ minutes lost/)
    const [, own, plan, lost] = /about (\d+) minutes on average, the plan’s (\d+): (\d+) minutes? lost/.exec(
      section(html, 'sum'),
    )!
    expect(Number(own)).toBe(Number(plan) + Number(lost))
    expectShort(html)
  })

  it('a tool that was sent in too early', async () => {
    const early: Player = (desk, standing, turn) =>
      turn < 2 ? byPlan(desk, standing, turn) : Promise.resolve({ type: 'ended', way: 'send-in' })
    const html = await played({ level: 'sweeping-the-floor', seed: 3 }, early)
    expectPlainWords(html)
    expect(wordsOf(html)).toContain('The service fixes it')
    expectShort(html)
    expect(section(html, 'along')).toContain('Before you give it away')
  })

  it('a tool handed back in trouble', async () => {
    const html = await played({ level: 'sweeping-the-floor', seed: 3 }, [
      { type: 'disinfected' },
      { type: 'ended', way: 'hand-back' },
    ])
    expectPlainWords(html)
    expect(wordsOf(html)).toContain('Handed back, and the trouble goes with it')
    const slip = book.knowledge.slips.find(({ id }) => id === 'handed-back-unmended')!
    expect(section(html, 'along')).toContain(slip.why)
  })

  it('two faults: both named, which is fixed and which is left', async () => {
    const setting = { ...plain, causes: ['dull-blade', 'worn-brushes'] }
    const html = await played({ level: 'one-behind-the-other', seed: 2, setting }, byPlan)
    const other = await played({ level: 'one-behind-the-other', seed: 2, setting }, [
      { type: 'ended', way: 'set-aside' },
    ])
    for (const page of [html, other]) expectPlainWords(page)
    for (const page of [html, other]) expect(wordsOf(page)).toMatch(/Two faults: .* and /)
    expect(wordsOf(other).match(/, still there/g)).toHaveLength(2)
  })

  it('an exercise with wrong answers: every answer that misled is explained', async () => {
    const desk = await layOut(book, exerciseOf({ kind, level: 'hearsay', seed: 5 }))
    const { steps } = desk.kind.model
    const askable = steps.filter(
      ({ form, questions }) => form === 'ask' && questions.some(({ id }) => isContrary(desk, id)),
    )
    const danger = steps.find(({ form }) => form === 'danger')!
    const moves: PracticeMove[] = [
      ...danger.setups.map((setup) => ({ type: 'stood', setup }) as const),
      { type: 'looked', step: danger.id },
      ...askable.slice(0, 3).map(({ id }) => ({ type: 'looked', step: id }) as const),
      { type: 'ended', way: 'send-in' },
    ]
    const html = await played({ level: 'hearsay', seed: 5 }, moves)
    expectPlainWords(html)
    expect(section(html, 'misled')).toContain('About one answer in 12 is wrong')
    const exercise = exerciseOf({ kind, level: 'hearsay', seed: 5, moves })
    const again = await playedBy(book, exercise, (_, __, turn) => Promise.resolve(moves[turn]!))
    const debrief = await debriefOf(again)
    const back = await lookBack(again, debrief)
    const wrong = back.wrong.flat().length
    expect(wrong).toBeGreaterThan(0)
    expect(section(html, 'misled').match(/the tool showed/g) ?? []).toHaveLength(wrong)
    // whatever made the fault that was there less likely is told, with how often such tools answer so
    const against = debrief.steps.flatMap(({ tells, done: { before } }) =>
      tells.filter(
        ({ cause, decibans }) =>
          decibans < 0 && before.causes.includes(again.desk.kind.model.causeIndex.get(cause)!),
      ),
    )
    for (const { finding } of against) expect(back.misled.map((it) => it.finding)).toContain(finding)
    for (const { wrong: it, chance } of back.misled) if (!it) expect(chance).toBeLessThan(1)
  })

  it('points: what was said beside what the answers allowed, and the lesson where they went astray', async () => {
    const setting = { ...plain, causes: ['worn-brushes'] }
    const astray: Player = async (desk, standing, turn) => {
      if (turn !== 4 || standing.situation.fixesTried.length > 0) return byPlan(desk, standing, turn)
      return { type: 'spread', spread: { points: { 'dull-blade': 90 }, other: 10 } }
    }
    const html = await played({ level: 'sweeping-the-floor', seed: 12, setting }, astray)
    expectPlainWords(html)
    expect(section(html, 'points')).toContain('Sure and wrong.')
    expect(section(html, 'points')).toContain('No closer than a blind guess')
    expect(section(html, 'along')).toMatch(/You put 90 on .*, which was not there, and 0 on/)
    expect(section(html, 'along')).toMatch(/What tells them apart|Nothing that can be seen/)
  })
})

describe('every slip that ends an exercise', () => {
  it('shows its reason and the right order of hands, and leaves 0 of 100', async () => {
    const ended: string[] = []
    // some need a tool that hides the danger: a few seeds and every move that could be one
    for (const slip of book.knowledge.slips.filter(
      ({ grade, kinds }) => grade === 'ends' && kinds.includes(kind),
    )) {
      const found = await slipFor(slip.id)
      if (!found) continue
      ended.push(slip.id)
      const html = await played({ level: found.level, seed: found.seed }, [found.move])
      expectPlainWords(html)
      const top = wordsOf(html.split('id="along"')[0]!)
      expect(top).toContain('Ended by a safety mistake')
      expect(top).toContain(slip.why)
      for (const line of slip.right) expect(top).toContain(line)
      expect(section(html, 'sum')).toContain('0 of 100')
      expect(section(html, 'along')).toContain(slip.right[0]!.replace(/\.$/, ''))
    }
    expect(ended.length).toBeGreaterThanOrEqual(6)
  })
})

/** A first move that is this slip, on some tool. */
async function slipFor(id: string) {
  const level = 'busy-saturday'
  for (let seed = 1; seed <= 12; seed++) {
    desks[seed] ??= await layOut(book, exerciseOf({ kind, level, seed }))
    const desk = desks[seed]!
    const { model } = desk.kind
    const offered = book.knowledge.slips.some((it) => it.id === id && it.offers)
    const moves: PracticeMove[] = offered
      ? [{ type: 'dared', act: id }]
      : [
          { type: 'ended', way: 'hand-back' },
          { type: 'looked', step: model.steps.find(({ power, setups }) => power && setups.length === 0)!.id },
          { type: 'stood', setup: model.setups.find(({ opensBody }) => opensBody)!.id },
          { type: 'stood', setup: 'blade-off' },
        ]
    for (const move of moves) {
      const [first] = await slipsOf(desk, startOf(desk), move)
      if (first?.id === id) return { seed, level, move }
    }
  }
  return undefined
}
const desks: Desk[] = []

describe('luck', () => {
  it('has no part in it: the same moves and answers on two tools lose the same minutes and score the same', async () => {
    const [a, b] = await twins()
    expect(a!.cause).not.toBe(b!.cause)
    const words = await Promise.all(
      [a!, b!].map(async ({ it }) => {
        const debrief = await debriefOf(it)
        const steps = stepsOf(it, debrief, await lookBack(it, debrief))
        return [sumOf(it, debrief), steps.map(({ did, told, lost, plan }) => [did, told, lost, plan])]
      }),
    )
    expect(words[0]).toEqual(words[1])
    expect((words[0]![0] as { score: number }).score).toBeLessThan(100)
  })
})

/** Two tools with different causes that come with the same complaint and answer a few looks alike. */
async function twins() {
  const made: { cause: string; it: Awaited<ReturnType<typeof playedBy>>; key: string }[] = []
  const looks: Player = ({ kind: { model } }, _, turn) => {
    const danger = model.steps.find(({ form }) => form === 'danger')!
    const check = model.steps.find(
      ({ form, setups, questions }) => form === 'check' && setups.length > 0 && questions.length === 1,
    )!
    const moves: readonly PracticeMove[] = [
      { type: 'stood', setup: danger.setups[0]! },
      { type: 'looked', step: danger.id },
      { type: 'looked', step: check.id },
      { type: 'ended', way: 'send-in' },
    ]
    return Promise.resolve(moves[turn]!)
  }
  for (let seed = 1; seed <= 60; seed++)
    for (const cause of ['worn-brushes', 'broken-cord']) {
      const setting = { ...plain, causes: [cause] }
      const it = await playedBy(book, exerciseOf({ kind, level: 'own-chair', seed, setting }), looks)
      const key = JSON.stringify([it.desk.complaint, it.done.map(({ told }) => told)])
      const twin = made.find((other) => other.key === key && other.cause !== cause)
      if (twin) return [twin, { cause, it, key }]
      made.push({ cause, it, key })
    }
  return []
}

describe('the address', () => {
  it('leads to the bench while the exercise goes on', async () => {
    const { id } = await stored({ level: 'sweeping-the-floor', seed: 3 }, [])
    const answer = await request(bench.app).get(`/practice/exercises/${id}/debrief?told=yes`)
    expect([answer.status, answer.headers['location']]).toEqual([303, `/practice/exercises/${id}`])
  })

  it('keeps the score with the outcome, and leaves one that was kept', async () => {
    const over: PracticeMove[] = [{ type: 'ended', way: 'set-aside' }]
    const { id } = await stored({ level: 'sweeping-the-floor', seed: 3 }, over)
    await shownOf(id)
    const kept = await bench.register.outcome(id)
    expect(kept!.score).toBeGreaterThan(0)
    expect(kept!.lostMinutes).toBeGreaterThan(0)
    const earlier = await stored({ level: 'sweeping-the-floor', seed: 3 }, over)
    await bench.register.keepOutcome(earlier.id, { ...kept!, score: 7 })
    await shownOf(earlier.id)
    expect((await bench.register.outcome(earlier.id))!.score).toBe(7)
  })

  it('says so where the rulebook has changed and the tool with it', async () => {
    const { id } = await stored({ level: 'sweeping-the-floor', seed: 3 }, [
      { type: 'ended', way: 'set-aside' },
    ])
    await shownOf(id)
    const kept = (await bench.register.outcome(id))!
    const other = await stored({ level: 'sweeping-the-floor', seed: 3 }, [
      { type: 'ended', way: 'set-aside' },
    ])
    await bench.register.keepOutcome(other.id, { ...kept, causes: ['dull-blade'] })
    expect(await shownOf(other.id)).toContain('The rulebook has changed since this exercise ended')
    expect(await shownOf(id)).not.toContain('The rulebook has changed since')
  })

  it('of nothing says so', async () => {
    expect((await request(bench.app).get('/practice/exercises/no-such-thing/debrief')).status).toBe(404)
  })
})

it('the plan’s points are what it would have said itself', async () => {
  const once: Player = async (desk, standing, turn) =>
    turn === 2 ? { type: 'spread', spread: await plansSpread(desk, standing) } : byPlan(desk, standing, turn)
  const html = await played({ level: 'sweeping-the-floor', seed: 3 }, once)
  expect(section(html, 'points')).toContain('As close as the answers allowed.')
})

it('hands on it with the plug still in is not as good as any, and its good way is the plug', async () => {
  const html = await played({ level: 'sweeping-the-floor', seed: 3 }, [
    { type: 'looked', step: 'danger-signs' },
    { type: 'ended', way: 'send-in' },
  ])
  const [first] = html.split('ways-table')[1]!.split('<tbody>')[1]!.split('</tr>')
  const { right } = book.knowledge.slips.find(({ id }) => id === 'plug-left-in')!
  expect(wordsOf(`<main>${first}</main>`)).toContain(right[0]!)
})

it('where no suspect was named, nothing is said of points on any', async () => {
  const open: Player = async (desk, standing, turn) =>
    turn === 2 ? { type: 'spread', spread: { points: {}, other: 100 } } : byPlan(desk, standing, turn)
  const html = await played({ level: 'sweeping-the-floor', seed: 3 }, open)
  expect(section(html, 'along')).toContain('You could not have done better')
  expect(section(html, 'points')).toContain('You named none')
})

it('of a fix that ended the trouble nothing else is told', () => {
  const told = [{ question: 'better-though-not-right', answer: 'yes' as const }]
  const done = { move: { type: 'tried', fix: 'oil' }, told } as const
  const after = { causes: [0] } as unknown as BenchState
  expect(toldOfMove({ ...done, after })).toEqual(told)
  expect(toldOfMove({ ...done, after: { ...after, causes: [] } })).toEqual([])
})

it('strokes: one a minute, every fifth across, none for seconds', () => {
  expect(tallyOf(0.4)).toBeNull()
  expect(tallyOf(3)!.path.match(/M/g)).toHaveLength(3)
  expect(tallyOf(7)!.path.match(/L/g)).toHaveLength(1)
  expect(tallyOf(400)!.width).toBeLessThan(260)
})
