/** The dry run as a browser without scripts sees it, over a small rulebook. */
import { readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { fixRules } from '../../server/rulebook/fix-rules.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { benchWith, type Bench } from '../api/bench.js'
import { tinyFiles, writtenRules } from '../rulebook/tiny-rulebook.js'
import { Visitor } from '../pages/visitor.js'

let dir: string
let bench: Bench
let me: Visitor
beforeAll(async () => {
  const files = tinyFiles()
  files.kinds.tiny.drawing = 'universal-motor'
  files.findings['blade-thin'].strengths['dull-blade'] = 0.9
  // A second kind that shares a sign, with a name of its own.
  files.kinds['other'] = { ...files.kinds.tiny, plainName: 'Other one', order: 2 }
  for (const folder of [
    'setups',
    'findings',
    'steps',
    'fixes',
    'stops',
    'relevance',
    'care',
    'papers',
    'slips',
  ] as const)
    for (const entry of Object.values(files[folder])) entry.kinds = ['tiny', 'other']
  for (const cause of Object.values(files.causes)) cause.shares.other = cause.shares.tiny
  dir = writtenRules(files)
  await fixRules(dir)
  bench = await benchWith({ knowledge: loadKnowledge(dir) })
  me = new Visitor(bench.app)
})
afterAll(async () => {
  await bench.close()
  rmSync(dir, { recursive: true })
})

const open = (query: Record<string, string>) => me.open(`/lab?${new URLSearchParams(query).toString()}`)

/** The count in the last column of a suspect's row. */
function countOf(name: string): number {
  const row = new RegExp(`>${name}</a></th>(.*?)</tr>`, 's').exec(me.html)?.[1] ?? ''
  const counts = [...row.matchAll(/class="num">(?:<b>)?([^<]*)/g)].map((match) => match[1]!)
  return Number(counts.at(-1)!.replace(/under |over /, ''))
}
const pastedFields = () =>
  [...me.html.matchAll(/<h3><code>rules\/(.*?)<\/code><\/h3>.*?<pre[^>]*>(.*?)<\/pre>/gs)].map((match) => ({
    file: match[1]!,
    text: match[2]!.replaceAll('&#34;', '"'),
  }))

describe('the page', () => {
  it('is linked from the rulebook and not from the bench', async () => {
    await me.open('/rulebook')
    expect(me.html).toContain('href="/lab"')
    await me.open('/')
    expect(me.html).not.toContain('href="/lab')
  })
  it('opens on the first kind with nothing said, and offers the others', async () => {
    await open({})
    expect(me.status).toBe(200)
    expect(me.heading).toBe('Dry run')
    expect(me.html).toContain('href="/lab?kind=other"')
    expect(me.words).toContain('Nothing is said yet')
    // of 1000 troubled tools, as written in the rulebook, but for the tools with two faults at once
    expect(countOf('Dull blade')).toBeGreaterThan(55)
  })
  it('has a field for every question and a label for every field', async () => {
    await open({ kind: 'tiny' })
    for (const name of ['q-cord-damaged', 'q-pulls', 'q-runs-well', 'n-thickness'])
      expect(me.html).toContain(`name="${name}"`)
    const ids = [...me.html.matchAll(/<(?:select|input)(?! type="(?:hidden|checkbox)")[^>]* id="([^"]+)"/g)]
    expect(ids.length).toBeGreaterThan(5)
    for (const [, id] of ids) expect(me.html).toContain(`for="${id}"`)
  })
})

describe('the address', () => {
  const everything = {
    kind: 'tiny',
    find: '',
    'q-cord-damaged': '',
    'q-pulls': 'yes',
    'q-runs-well': '',
    'n-thickness': '',
    open: 'finding:pulls',
    's.pulls.dull-blade': '90',
    'l.pulls': '7',
    'add-to': 'pulls',
    'add-cause': '',
    'add-count': '',
    balance: '',
  }
  it('keeps what was said and changed, and nothing else', async () => {
    await open(everything)
    expect(me.at).toBe('/lab?kind=tiny&q-pulls=yes&l.pulls=7&open=finding%3Apulls')
    const html = me.html
    await me.open(me.at)
    expect(me.html).toBe(html)
  })
  it('takes a cause that is added to a sign as a number of that sign', async () => {
    await open({ ...everything, 'add-cause': 'broken-cord', 'add-count': '30' })
    expect(new URL(me.at, 'http://x').searchParams.get('s.pulls.broken-cord')).toBe('30')
    expect(me.at).not.toContain('add-')
  })
  it('keeps what is to be put right as it was typed', async () => {
    await open({ ...everything, 'l.pulls': 'lots', 'n-thickness': 'thin' })
    expect(me.status).toBe(422)
    expect(me.at).toContain('l.pulls=lots')
    expect(me.at).toContain('n-thickness=thin')
  })
})

describe('answers', () => {
  it('move the suspects, tell why, and say what comes next', async () => {
    await open({ kind: 'tiny' })
    const before = countOf('Broken cord')
    await open({ kind: 'tiny', 'q-cord-damaged': 'yes' })
    expect(countOf('Broken cord')).toBeGreaterThan(before)
    expect(me.words).toMatch(/Cord damaged: yes .*speaks (strongly |very strongly )?for/)
    expect(me.words).toContain('Stop: Damaged cord')
    await open({ kind: 'tiny', 'q-cord-damaged': 'no', 'q-pulls': 'yes', 'n-thickness': '1,5' })
    expect(countOf('Dull blade')).toBeGreaterThan(90)
    expect(me.words).toContain('Next: Fit a new blade')
    expect(me.html).toContain('name="n-thickness" value="1,5"')
  })
  it('of "can’t tell" and of nothing at all are no evidence', async () => {
    await open({ kind: 'tiny' })
    const untold = countOf('Dull blade')
    await open({ kind: 'tiny', 'q-pulls': 'cant-tell', 'q-runs-well': '', 'n-thickness': '' })
    expect(countOf('Dull blade')).toBe(untold)
    expect(me.html).toMatch(/name="q-pulls">.*value="cant-tell" selected/)
  })
  it('to all danger signs can be no at one press, so that the rest can be planned', async () => {
    await open({ kind: 'tiny' })
    expect(me.words).toMatch(/Next: Danger\?/)
    await open({ kind: 'tiny', safe: 'yes' })
    expect(me.words).toContain('No to danger signs 1')
    expect(me.words).not.toMatch(/Next: Danger\?/)
  })
  it('are found by their words', async () => {
    await open({ kind: 'tiny', find: 'puls' })
    expect(me.words).toMatch(/Found It is pulls/)
    await open({ kind: 'tiny', find: 'xylophone' })
    expect(me.words).toContain('No question fits those words')
  })
  it('that cannot be are told beside their field, and nothing is lost', async () => {
    await open({ kind: 'tiny', 'q-pulls': 'yes', 'n-thickness': '12 cm', 's.pulls.dull-blade': '4oo' })
    expect(me.status).toBe(422)
    expect(me.title).toMatch(/^Error: /)
    expect(me.words).toContain('2 things to put right')
    expect(me.html).toContain('value="12 cm"')
    expect(me.html).toContain('value="4oo"')
    expect(me.html).toMatch(/name="q-pulls">.*value="yes" selected/)
    expect(me.words).toContain('Enter a count of 100, such as 40 or 12.5')
    for (const [, field] of me.html.matchAll(/href="#([^"]+)">[^<]*: /g))
      expect(me.html).toContain(`id="${field}"`)
  })
  it('to what the rulebook does not have (any more) are named and left out', async () => {
    await open({ kind: 'tiny', 'q-hums': 'yes', 's.hums.dull-blade': '40', 'q-pulls': 'yes' })
    expect(me.status).toBe(200)
    expect(me.words).toMatch(/Left out.*hums; hums, dull-blade/)
    expect(me.html).toMatch(/name="q-pulls">.*value="yes" selected/)
  })
  it.each([
    ['q-pulls', 'maybe'],
    ['q-pulls', '<script>'],
    ['q-thickness', 'yes'],
  ])('that no form of ours sends are refused: %s=%s', async (name, value) => {
    await open({ kind: 'tiny', [name]: value })
    expect(me.status).toBe(400)
    expect(me.html).not.toContain('<script>alert')
  })
  it.each(['constructor', '__proto__', 'toString', '', 'nowhere'])(
    'of the kind %j are of the first kind',
    async (kind) => {
      await open({ kind, open: `finding:${kind}`, balance: kind })
      expect(me.status).toBe(200)
    },
  )
})

describe('other numbers', () => {
  it('change the counts on this page only', async () => {
    await open({ kind: 'tiny', 'q-pulls': 'yes' })
    const asItIs = countOf('Dull blade')
    await open({ kind: 'tiny', 'q-pulls': 'yes', 's.pulls.dull-blade': '6', open: 'finding:pulls' })
    expect(countOf('Dull blade')).toBeLessThan(asItIs)
    expect(me.words).toContain('90 in the rulebook')
    await open({ kind: 'tiny', 'q-pulls': 'yes' })
    expect(countOf('Dull blade')).toBe(asItIs)
    expect(me.words).not.toContain('To keep it')
  })
  it('are laid open sign by sign; what is changed elsewhere stays', async () => {
    await open({ kind: 'tiny', open: 'finding:pulls', 'l.runs-well': '7' })
    expect(me.html).toContain('name="s.pulls.dull-blade" value="90"')
    expect(me.html).toContain('name="l.pulls" value="5"')
    expect(me.html).toContain('name="l.runs-well" value="7"')
    expect(me.words).toContain('This sign is also looked for in: Other one.')
    await open({ kind: 'tiny', open: 'cause:dull-blade' })
    expect(me.html).toContain('name="p.dull-blade" value="600"')
  })
  it('can make a sign point to one more cause', async () => {
    await open({
      kind: 'tiny',
      'add-to': 'pulls',
      'add-cause': 'broken-cord',
      'add-count': '30',
      open: 'finding:pulls',
    })
    expect(me.html).toContain('name="s.pulls.broken-cord" value="30"')
    expect(me.words).toContain('not in the rulebook')
    await open({
      kind: 'tiny',
      'add-to': 'pulls',
      'add-cause': 'broken-cord',
      'add-count': 'some',
      open: 'finding:pulls',
    })
    expect(me.status).toBe(422)
    expect(me.html).toContain('value="some"')
  })
  it('of shares tell their sum, and take the difference from whom one says', async () => {
    await open({ kind: 'tiny', 'p.broken-cord': '320' })
    expect(me.words).toContain('sum to 1020, and should to 1000: take 20 from other causes')
    await open({ kind: 'tiny', 'p.broken-cord': '320', balance: 'dull-blade' })
    expect(me.words).toContain('sum to 1000, as they should')
    expect(pastedFields().map(({ file }) => file)).toEqual([
      'causes/broken-cord.json',
      'causes/dull-blade.json',
    ])
  })
  it('that the checks would not pass are told with what the checks would say', async () => {
    await open({ kind: 'tiny', 'l.pulls': '95' })
    expect(me.words).toMatch(
      /check:rules would say .*findings\/pulls\.json, strengths\.dull-blade : 0\.9 is not above/,
    )
  })
  it('with which nothing can be worked out are told, and the page stands', async () => {
    await open({ kind: 'tiny', 'p.dull-blade': '950', balance: 'nothing-wrong' })
    expect(me.status).toBe(200)
    expect(me.words).toMatch(/nothing can be worked out/)
    expect(me.words).toMatch(/causes\/nothing-wrong\.json, shares\.tiny/)
  })
  it('show what they do to the marks when asked', async () => {
    await open({ kind: 'tiny', marks: 'yes' })
    expect(me.words).toMatch(/The right fix is the first \d+ in 100, give or take/)
    await open({ kind: 'tiny', marks: 'yes', 'l.blade-thin': '80' })
    expect(me.words).toMatch(/The same tools under both rulebooks: /)
  })
})

describe('what is to be pasted', () => {
  it.each([
    { 's.pulls.dull-blade': '40', 's.pulls.broken-cord': '60' },
    { 's.pulls.dull-blade': '40', 'l.pulls': '2', only: 'yes' },
    { 'l.pulls': '12.5', 'p.broken-cord': '310', balance: 'dull-blade' },
  ])(
    '%j: put in its place it is what was tried, and npm run fix:rules has nothing to fix',
    async (changes) => {
      await open({ kind: 'tiny', 'q-pulls': 'yes', ...(changes as Record<string, string>) })
      const tried = ['Dull blade', 'Broken cord', 'Nothing wrong'].map(countOf)
      const before = new Map<string, string>()
      const pasted = pastedFields()
      expect(pasted.length).toBeGreaterThan(0)
      for (const { file, text } of pasted) {
        const path = join(dir, file)
        const old = readFileSync(path, 'utf8')
        if (!before.has(file)) before.set(file, old)
        writeFileSync(path, withField(old, text))
      }
      try {
        expect(await fixRules(dir)).toEqual([])
        const after = await benchWith({ knowledge: loadKnowledge(dir) })
        const they = new Visitor(after.app)
        await they.open('/lab?kind=tiny&q-pulls=yes')
        const html = me.html
        me.html = they.html
        expect(['Dull blade', 'Broken cord', 'Nothing wrong'].map(countOf)).toEqual(tried)
        me.html = html
        await after.close()
      } finally {
        for (const [file, text] of before) writeFileSync(join(dir, file), text)
      }
    },
  )
})

/** As somebody with an editor does it: the lines of the field replaced, or put at the end of the file. */
function withField(old: string, text: string): string {
  const name = /^ {2}"([^"]+)"/.exec(text)![1]!
  const lines = old.split('\n')
  const from = lines.findIndex((line) => line.startsWith(`  "${name}":`))
  if (from < 0) return old.replace(/\n}\n$/, `,\n${text}\n}\n`)
  const closes = /[{[]$/.test(lines[from]!)
  const to = closes ? lines.findIndex((line, i) => i > from && /^ {2}[}\]],?$/.test(line)) : from
  return [...lines.slice(0, from), text, ...lines.slice(to + 1)].join('\n')
}
