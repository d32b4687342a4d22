/** A case that is on the bench while the rulebook is exchanged, and a request that is under way. */
import { renameSync, rmSync } from 'node:fs'
import { join } from 'node:path'
import request from 'supertest'
import { afterEach, describe, expect, it } from 'vitest'
import type { AssessmentView, CaseView } from '../../shared/api.js'
import { folderNames, type Folder } from '../../shared/knowledge.js'
import { usualRecord } from '../../shared/figures.js'
import { settingsOf } from '../../server/bench/reckoning.js'
import { rulebookInUse } from '../../server/rulebook/live-rulebook.js'
import { benchWith } from '../api/bench.js'
import { knowledgeOf } from '../rulebook/tiny-rulebook.js'
import { goodFiles, watchedBench, type WatchedBench } from './watched-bench.js'

const open: WatchedBench[] = []
afterEach(async () => {
  for (const bench of open.splice(0)) await bench.close()
})

async function withCase() {
  const bench = await watchedBench()
  open.push(bench)
  const { id } = await bench.cases.begin({ kind: 'tiny', tool: 'Chair 2', at: '2026-03-02T09:00:00.000Z' })
  await request(bench.app)
    .post(`/api/cases/${id}/answers`)
    .send({ answers: { pulls: 'yes' } })
    .expect(200)
  const view = async () => (await request(bench.app).get(`/api/cases/${id}`).expect(200)).body as CaseView
  return { bench, id, view }
}

const dull = ({ causes }: Pick<AssessmentView, 'causes'>): number =>
  causes.find(({ id }) => id === 'dull-blade')!.probability

describe('a case that is open', () => {
  it('is judged by the new rulebook from the next page on', async () => {
    const { bench, id, view } = await withCase()
    const before = dull((await view()).assessment)
    const finding = goodFiles().findings.pulls as object
    bench.write('findings/pulls.json', { ...finding, strengths: { 'dull-blade': 0.06 } })
    await bench.told(1)
    expect(dull((await view()).assessment)).toBeLessThan(before)
    await bench.me.open(`/cases/${id}/why`)
    expect(bench.me.status).toBe(200)
  })

  it('keeps what was said when the ids have moved', async () => {
    const { bench, id, view } = await withCase()
    const before = await view()
    const renamed = JSON.parse(
      JSON.stringify(goodFiles())
        .replaceAll('"tiny"', '"small"')
        .replaceAll(/"(id|fact)":"pulls"/g, '"$1":"tugs"'),
    ) as Record<Folder, Record<string, object>>
    renamed.confusions = JSON.parse(
      JSON.stringify(renamed.confusions).replaceAll('"pulls"', '"tugs"'),
    ) as Record<string, object>
    for (const folder of folderNames)
      for (const [name, data] of Object.entries(renamed[folder])) bench.write(`${folder}/${name}.json`, data)
    renameSync(join(bench.dir, 'findings/pulls.json'), join(bench.dir, 'findings/tugs.json'))
    rmSync(join(bench.dir, 'kinds/tiny.json'))
    bench.write('moved.json', {
      questions: { pulls: 'tugs' },
      findings: { pulls: 'tugs' },
      kinds: { tiny: 'small' },
    })
    await bench.told(1)
    expect(bench.said[0]).toMatch(/taken over: kinds\/small \(new\), kinds\/tiny \(gone\)/)
    const after = await view()
    expect(after.kind).toBe('small')
    expect(after.situation.answers).toEqual({ tugs: 'yes' })
    expect(after.assessment.causes).toEqual(
      before.assessment.causes.map((cause) => ({ ...cause, ...renamedIn(cause) })),
    )
    expect(bench.said).toHaveLength(1)
    await request(bench.app)
      .post(`/api/cases/${id}/answers`)
      .send({ answers: { 'cord-damaged': 'no' } })
      .expect(200)
  })

  it('still opens when a question is gone for good, and the console names what is lost', async () => {
    const { bench, id, view } = await withCase()
    const step = goodFiles().steps['how-it-cuts'] as { questions: { id: string }[] }
    const finding = goodFiles().findings.pulls as object
    const when = { all: [{ fact: 'tugs', operator: 'equal', value: 'yes' }] }
    bench.write('steps/how-it-cuts.json', { ...step, questions: [{ ...step.questions[0], id: 'tugs' }] })
    bench.write('findings/pulls.json', { ...finding, when })
    await bench.told(2)
    expect(bench.said[1]).toBe(
      'Gone, and not in rules/moved.json: questions/pulls. Cases that name them no longer count what they say.',
    )
    expect((await view()).assessment.findings['pulls']).toBe('unknown')
    for (const page of ['', '/answers', '/why', '/slip', '/complaint']) {
      await bench.me.open(`/cases/${id}${page}`)
      expect([page, bench.me.status]).toEqual([page, 200])
    }
  })
})

it('a form of a page that was opened before says what has happened, and the case goes on', async () => {
  const { bench, id } = await withCase()
  await request(bench.app)
    .post(`/api/cases/${id}/answers`)
    .send({ answers: { 'cord-damaged': 'no', 'runs-well': 'no' } })
  await bench.me.open(`/cases/${id}`)
  const step = goodFiles().steps['measure-blade'] as { questions: { id: string }[] }
  const asked = step.questions[0]!.id
  const when = { all: [{ fact: 'gauge', operator: 'lessThan', value: 2 }] }
  const finding = goodFiles().findings['blade-thin'] as object
  bench.write('steps/measure-blade.json', { ...step, questions: [{ ...step.questions[0], id: 'gauge' }] })
  bench.write('findings/blade-thin.json', { ...finding, when })
  await bench.told(2)
  await bench.me.send(`/cases/${id}/answers`, { step: 'measure-blade', asked, [`n-${asked}`]: '1' })
  expect(bench.me.status).toBe(422)
  expect(bench.me.words).toContain('Perhaps it was changed since the page was opened')
  await bench.me.open(`/cases/${id}/answers/gauge`)
  await bench.me.send(`/cases/${id}/answers/gauge`, { 'n-gauge': '1', when: 'now' })
  expect(bench.me.status).toBe(200)
  await bench.me.open(`/cases/${id}`)
  expect(bench.me.heading).toBe('Fit a new blade')
})

/** The question's own name is the only thing that differs in the reasons. */
const renamedIn = (cause: AssessmentView['causes'][number]) => {
  const rename = (weights: typeof cause.for) =>
    weights.map((weight) =>
      weight.finding === 'pulls' ? { ...weight, finding: 'tugs', question: 'tugs' } : weight,
    )
  return { for: rename(cause.for), against: rename(cause.against) }
}

it('a request that is under way ends on the rulebook that it began with', async () => {
  let release = () => {}
  const held = new Promise<void>((resolve) => (release = resolve))
  let asked = () => {}
  const reached = new Promise<void>((resolve) => (asked = resolve))
  const files = goodFiles()
  const bench = await benchWith({ knowledge: knowledgeOf(files) })
  const { id } = await bench.cases.begin({ kind: 'tiny', tool: '', at: '2026-03-02T09:00:00.000Z' })
  const answered = { type: 'answered', step: 'how-it-cuts', answers: { pulls: 'yes' }, when: 'now' } as const
  await bench.cases.append(id, answered, '2026-03-02T09:01:00.000Z')
  const slow = await benchWith({
    knowledge: knowledgeOf(files),
    cases: {
      ...bench.cases,
      get: async (which) => {
        asked()
        await held
        return bench.cases.get(which)
      },
    },
  })
  const before = slow.rulebook.current()
  const pending = request(slow.app)
    .get(`/api/cases/${id}`)
    .then(({ body }) => body as CaseView)
  await reached
  files.findings.pulls.strengths['dull-blade'] = 0.06
  slow.rulebook.takeOver(await rulebookInUse(knowledgeOf(files), new Date()))
  release()
  const [first, second] = [await pending, await request(slow.app).get(`/api/cases/${id}`)]
  const expected = await before.assessments.of(
    first.situation,
    settingsOf(first.situation, before.knowledge, usualRecord),
  )
  expect(dull(first.assessment)).toBe(expected.causes.find((cause) => cause.id === 'dull-blade')!.probability)
  expect(dull((second.body as CaseView).assessment)).toBeLessThan(dull(first.assessment))
  await bench.close()
})
