/** What the API says of the corded universal-motor clipper; outside checks use these ids. */
import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import type { AssessmentView, RulebookView } from '../../shared/api.js'
import type { Bench } from './bench.js'
import { benchWith } from './bench.js'
import { expectDocumented } from './documented.js'
import { knowledge } from '../the-rulebook.js'

const kind = 'universal-motor'
let bench: Bench
let book: RulebookView
beforeAll(async () => {
  bench = await benchWith({ knowledge: knowledge })
  const res = await request(bench.app).get(`/api/rulebook?kind=${kind}`).expect(200)
  expectDocumented(res, 'get', '/api/rulebook')
  book = res.body as RulebookView
})
async function assessed(
  answers: Record<string, string | number>,
  more: object = {},
): Promise<AssessmentView> {
  const res = await request(bench.app)
    .post('/api/assess')
    .send({ kind, answers, ...more })
  expect(res.status, res.text).toBe(200)
  expectDocumented(res, 'post', '/api/assess')
  return res.body as AssessmentView
}

describe('the rulebook of the kind', () => {
  it.each([
    'worn-brushes',
    'dry-bearing',
    'rounded-drive-lever',
    'blocked-vents',
    'stiff-gear-grease',
    'broken-cord',
    'dull-blade',
    'dead-outlet',
  ])('has the cause %s', (id) => {
    expect(book.causes.map((cause) => cause.id)).toContain(id)
  })
  it.each([
    'cuts-in-and-out',
    'cord-flex-changes-it',
    'wont-start',
    'hot-near-head',
    'hot-all-over',
    'slows-down',
    'blade-wobbles',
    'tingle-or-shock',
    'smoke-or-burning-smell',
    'cord-damaged',
  ])('has the question %s', (id) => {
    expect(book.questions.map((question) => question.id)).toContain(id)
  })
  it('is whole: whatever one list points to is in another', () => {
    const ids = (list: readonly { id: string }[]) => new Set(list.map(({ id }) => id))
    const [causes, questions, findings, setups] = [
      ids(book.causes),
      ids(book.questions),
      ids(book.findings),
      ids(book.setups),
    ]
    for (const { question, strengths } of book.findings) {
      expect(questions).toContain(question)
      for (const cause of Object.keys(strengths)) expect(causes).toContain(cause)
    }
    for (const step of book.steps) {
      for (const question of step.questions) expect(questions).toContain(question)
      for (const setup of step.setup) expect(setups).toContain(setup)
    }
    for (const fix of book.fixes) for (const cause of Object.keys(fix.cures)) expect(causes).toContain(cause)
    for (const { when } of book.stops)
      expect([...findings].some((id) => JSON.stringify(when).includes(`"${id}"`))).toBe(true)
    expect(questions.size).toBe(book.questions.length)
  })
  // The shares are of 1000 troubled tools, each of which has one main cause.
  it('shares out its 1000 troubled tools', () => {
    expect(book.causes.reduce((sum, { per1000 }) => sum + per1000, 0)).toBeCloseTo(1000, 6)
    for (const { prior } of book.causes) expect(prior).toBeGreaterThan(0)
  })
})

// Common practice, no source.
describe('a tool that comes and goes in use', () => {
  const first = async (answers: Record<string, string>) => (await assessed(answers)).causes[0]?.id
  it('has worn brushes first once flexing the cord changes nothing', async () => {
    expect(await first({ 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'no' })).toBe('worn-brushes')
  })
  it('has its cord first when flexing the cord changes it', async () => {
    expect(await first({ 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'yes' })).toBe('broken-cord')
  })
  it('has these two first when nothing else is known', async () => {
    const { causes } = await assessed({ 'cuts-in-and-out': 'yes' })
    expect(new Set(causes.slice(0, 2).map(({ id }) => id))).toEqual(new Set(['worn-brushes', 'broken-cord']))
  })
})

it.each(['tingle-or-shock', 'smoke-or-burning-smell', 'cord-damaged'])(
  'sets the tool aside for %s',
  async (danger) => {
    const { stop, next } = await assessed({ 'cuts-in-and-out': 'yes', [danger]: 'yes' })
    expect(stop?.grade).toBe('set-aside')
    expect(stop?.now.length).toBeGreaterThanOrEqual(2)
    expect(next.step).toBe('stop')
  },
)
