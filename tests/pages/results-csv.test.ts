/**
 * The table of results, read back by another program's reader (papaparse). RFC 4180, "Common Format and MIME Type for
 * CSV Files": comma, CRLF, quotes around what holds a quote, comma or line break, quotes inside doubled. Cells that a
 * spreadsheet would take for a formula: OWASP, "CSV Injection",
 * https://owasp.org/www-community/attacks/CSV_Injection
 */
import Papa from 'papaparse'
import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import { resultsCsv } from '../../server/pages/practice/results-csv.js'
import { resultsOf } from '../../server/practice/kept-results.js'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import type { ClassAtWork } from './class-at-work.js'
import { classAtWork, names, outcomeWith, points, usualHistory } from './class-at-work.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
let work: ClassAtWork
let body: Buffer
let type: string
let disposition: string

const download = async (asked = '') => {
  const address = `/practice/classes/${work.id}/results.csv${asked}`
  const response = await request(bench.app)
    .get(address)
    .buffer(true)
    .parse((res, done) => {
      const parts: Buffer[] = []
      res.on('data', (part: Buffer) => parts.push(part))
      res.on('end', () => done(null, Buffer.concat(parts)))
    })
  return { ...response, body: response.body as Buffer, headers: response.headers as Record<string, string> }
}
type Row = Record<string, string>
const read = (bytes: Buffer): Row[] => {
  const text = new TextDecoder('utf-8', { fatal: true }).decode(bytes)
  const { data, errors } = Papa.parse<Row>(text, { header: true, skipEmptyLines: true })
  expect(errors).toEqual([])
  return data
}

beforeAll(async () => {
  bench = await benchWith({ knowledge })
  work = await classAtWork(bench.register)
  await usualHistory(work)
  const response = await download()
  body = response.body
  type = response.headers['content-type']!
  disposition = response.headers['content-disposition']!
})

describe('the file', () => {
  it('is UTF-8 with its mark, sent as a table to keep', () => {
    expect([...body.subarray(0, 3)]).toEqual([0xef, 0xbb, 0xbf])
    expect(type).toMatch(/^text\/csv; charset=utf-8/)
    expect(disposition).toMatch(/^attachment; filename="?results-2026-03-02\.csv"?$/)
  })

  it('ends every line as RFC 4180 has it, with the same number of cells', () => {
    const text = body.toString('utf8')
    expect(text.endsWith('\r\n')).toBe(true)
    const { data } = Papa.parse<string[]>(text.replace(/^\uFEFF/, ''), { skipEmptyLines: true })
    expect(new Set(data.map((cells) => cells.length))).toEqual(new Set([14]))
  })

  it('has a row for each exercise: six own, nine set, one under way', () => {
    const rows = read(body)
    expect(rows).toHaveLength(16)
    expect(rows.filter((row) => row['set or own'] === 'own')).toHaveLength(6)
    expect(rows.filter((row) => row['ended'] === 'under way')).toHaveLength(1)
  })

  it('says of each what it came to, in whole numbers and ISO 8601', () => {
    const [first, second] = read(body).filter((row) => row['learner'] === 'Ana')
    expect(first).toEqual({
      learner: 'Ana',
      class: 'First years, Tuesday',
      when: '2026-03-02T09:15:00.000Z',
      kind: knowledge.kinds.find(({ id }) => id === 'universal-motor')!.plainName,
      level: knowledge.levels.find(({ id }) => id === 'sweeping-the-floor')!.name,
      'set or own': 'own',
      number: '1010',
      ended: 'Handed it back, running',
      causes: 'Worn carbon brushes',
      found: 'yes',
      'minutes lost': '6',
      score: '80',
      'points on the right one': '80',
      slips: '',
    })
    expect(second).toMatchObject({ found: 'no', 'minutes lost': '14', 'points on the right one': '30' })
  })

  it('leaves empty what is not known, and the causes of a set exercise that is still before somebody', async () => {
    const rows = read(body)
    const set = rows.filter((row) => row['set or own'] === 'set' && row['ended'] !== 'under way')
    expect(new Set(set.map((row) => row['causes']))).toEqual(new Set(['']))
    expect(rows.find((row) => row['score'] === '' && row['ended'] !== 'under way')).toMatchObject({
      'minutes lost': '',
      'points on the right one': '',
    })
    const all = read((await download('?all=yes')).body)
    const named = all.filter((row) => row['set or own'] === 'set').map((row) => row['causes'])
    expect(named.sort()).toEqual(['', ...Array<string>(9).fill('Worn carbon brushes')])
  })
})

describe('names', () => {
  it('come back whole, in every script; what a spreadsheet would count gets an apostrophe', () => {
    const guarded = names.map((name) => (/^[=+\-@]/.test(name) ? `'${name}` : name))
    expect(new Set(read(body).map((row) => row['learner']))).toEqual(new Set(guarded))
  })

  it.each([
    ['=HYPERLINK("http://x.example","y")', true],
    ['+1', true],
    ['-1+1', true],
    ['@SUM(A1)', true],
    ['\tx', true],
    ['\rx', true],
    ['one\rtwo', false],
    ['one\ntwo', false],
    ['O’Brien, "Bob"\r\nthe younger', false],
    ['a=b', false],
    ["'quoted", false],
  ])('%j survives', (name, guarded) => {
    const learner = { id: 'learner-1', name, class: 'class-1', since: '2026-03-02T09:00:00.000Z' }
    const exercise = {
      id: 'exercise-1',
      learner: learner.id,
      kind: 'universal-motor',
      level: 'sweeping-the-floor',
      seed: 1,
      setting: { hideSuspects: false, hidePrices: false },
      begunAt: learner.since,
      changedAt: learner.since,
      moveCount: 3,
      outcome: outcomeWith({ causes: ['worn-brushes'], spread: points({ 'worn-brushes': 100 }) }),
    }
    const results = resultsOf([exercise])
    const csv = resultsCsv(
      {
        knowledge,
        ofClass: { id: 'class-1', name, since: learner.since },
        learners: [learner],
        exercises: [exercise],
        results,
        sets: [],
      },
      results,
    )
    const [row] = read(Buffer.from(csv, 'utf8'))
    const expected = guarded ? `'${name}` : name
    expect([row!['learner'], row!['class']]).toEqual([expected, expected])
    expect(row!['causes']).toBe('Worn carbon brushes')
  })
})
