/** The instructor's pages in a browser: WCAG, narrow screens, the sheet of skills on paper, an exercise set by keys. */
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Shown } from '../../shared/practice.js'
import { OPENED } from '../api/bench.js'
import type { ClassAtWork } from '../pages/class-at-work.js'
import { classAtWork, kind, level, outcomeWith, usualHistory } from '../pages/class-at-work.js'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { inspect } from './inspection.js'

let bench: Bench
let work: ClassAtWork
let empty: string
let home: string
const long = 'Bartholomew-Maximilian the Younger of the second chair by the window'

beforeAll(async () => {
  bench = await openBench()
  work = await classAtWork(bench.register)
  await usualHistory(work)
  const other = await bench.register.addClass({ name: long, at: OPENED })
  await bench.register.addLearner({ name: long, class: other.id, at: OPENED })
  home = `/practice/classes/${work.id}`
  empty = `/practice/classes/${other.id}`
  await bench.register.signOff({
    learner: work.people[0]!.id,
    skill: `dangers-first|${kind}`,
    by: 'M. Öz',
    at: OPENED,
  })
})
afterAll(() => bench.close())

it.each([
  ['the list of classes', () => '/practice/classes'],
  ['a class at work', () => `${home}?done=set`],
  ['a class with nothing done, of a long name', () => empty],
  ['how hard, and which kind', () => `${home}/set?level=&kind=`],
  ['the rest of setting', () => `${home}/set?level=${level}&kind=${kind}`],
  ['the rest, with a slip in it', () => `${home}/set?level=${level}&kind=${kind}&seed=x`],
  ['a sheet to sign', () => `${home}/people/${work.people[0]!.id}/skills?signed=2`],
  ['a sheet to read', () => `/practice/people/${work.people[0]!.id}/skills`],
])('%s: no barrier, fits 320 px, all to press is large enough', async (_, at) => {
  const page = await bench.open(desk)
  await page.goto(at())
  const { violations, tooWide, tooSmall, headings, title } = await inspect(page)
  expect({ violations, tooWide, tooSmall, headings }).toEqual({
    violations: [],
    tooWide: [],
    tooSmall: [],
    headings: 1,
  })
  expect(title).toContain('clipperwright')
  await page.close()
})

it('a class of ten fits 1280 px with nothing to scroll sideways', async () => {
  const page = await bench.open(desk)
  await page.goto(home)
  expect(await page.evaluate('document.documentElement.scrollWidth')).toBe(1280)
  await page.close()
})

it('an exercise is set by keys alone, on a phone', async () => {
  const page = await bench.open(phone)
  await page.goto(home)
  const press = async (name: RegExp | string, role: 'link' | 'button') => {
    await page.getByRole(role, { name }).first().focus()
    const before = page.url()
    await Promise.all([page.waitForURL((url) => url.href !== before), page.keyboard.press('Enter')])
  }
  await press('Set an exercise', 'link')
  await page.getByRole('radio').first().focus()
  await page.keyboard.press('Space')
  await page.getByLabel('Which kind of tool?').focus()
  await page.getByLabel('Which kind of tool?').selectOption(kind)
  await press('On to what is wrong', 'button')
  await page.getByLabel('What the client says').focus()
  await page.keyboard.type('It stops now and then.')
  await press('Set it for the class', 'button')
  expect(await page.getByRole('status').textContent()).toContain('Set.')
  const words = (await bench.register.setExercises(work.id)).map(({ setting }) => setting.complaint)
  expect(words).toContain('It stops now and then.')
  await page.close()
})

// ISO 216: A4. What a learner shows in a good term: four safe hands, 12 repairs, 12 checks, 16 causes.
it('the sheet of a good term is two pages of A4 at most, in print that can be read', async () => {
  const { fixes, steps, causes } = bench.knowledge
  const of = (skill: Shown['skill'], ids: readonly string[]) =>
    ids.map((subject) => ({ skill, kind, subject }))
  const own = <Entry extends { id: string; kinds: readonly string[] }>(list: readonly Entry[]) =>
    list.filter(({ kinds }) => kinds.includes(kind)).map(({ id }) => id)
  const shown = [
    ...(['dangers-first', 'plug-out-first', 'disinfected', 'set-aside'] as const).flatMap((it) =>
      of(it, ['']),
    ),
    ...of('mended', own(fixes).slice(0, 12)),
    ...of('looked', own(steps.filter(({ form }) => form === 'check')).slice(0, 12)),
    ...of(
      'found',
      causes
        .filter(({ shares }) => shares[kind] !== undefined)
        .map(({ id }) => id)
        .slice(0, 16),
    ),
  ]
  await work.ended(5, 300, outcomeWith({ causes: ['worn-brushes'], shown }))
  const page = await bench.open(desk)
  await page.goto(`${home}/people/${work.people[5]!.id}/skills`)
  const pdf = await page.pdf({ format: 'A4' })
  const pages = pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)!.length
  expect(pages).toBeLessThanOrEqual(2)
  expect(pages).toBeGreaterThan(0)
  await page.emulateMedia({ media: 'print' })
  const lines = await page.evaluate(
    `[...document.querySelectorAll('.skill-table tbody tr')].filter((row) => row.getClientRects().length > 0).length`,
  )
  // each row shown, and three to write by hand
  expect(lines).toBe(shown.length + 3)
  const smallest = await page.evaluate(
    `Math.min(...[...document.querySelectorAll('.skill-table th, .skill-table td')].map((it) => parseFloat(getComputedStyle(it).fontSize)))`,
  )
  // 1 pt is 4/3 px; 9 pt is our own bound
  expect(smallest).toBeGreaterThanOrEqual(9 * (4 / 3))
  await page.close()
})

it('nothing on these pages made the browser complain', () => {
  expect(bench.complaints).toEqual([])
})
