/** What is hidden from a learner: by an instructor, and the trouble of the tool itself. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { layOut } from '../../server/practice/desk.js'
import { playOut } from '../../server/practice/played.js'
import type { Exercise } from '../../shared/practice.js'
import type { Classroom } from './practice-classroom.js'
import {
  KIND,
  LEVEL,
  addressOf,
  groups,
  knowledge,
  make,
  openClassroom,
  shown,
} from './practice-classroom.js'
import { glancingRulebook } from '../the-rulebook.js'

let { bench, begun, stored, visitor } = {} as Classroom

beforeAll(async () => {
  ;({ bench, begun, stored, visitor } = await openClassroom())
})
afterAll(() => bench.close())

describe('what an instructor hides', () => {
  it('prices: neither minutes nor money stand on any page', async () => {
    const exercise = await begun({ setting: { ...shown, hidePrices: true } })
    const home = addressOf(exercise)
    const it = await visitor().open(home)
    await make(it, home, 'stood/plug-out')
    for (const page of ['', ...groups.map((group) => `/moves?in=${group}`), '/moves?q=brush', '/points']) {
      await it.open(`${home}${page}`)
      expect(it.html, page).not.toMatch(/class="move-price"|told-clock/)
      expect(it.words, page).not.toMatch(/[€$£]|about \d+ minutes|under a minute|about a minute/)
    }
  })

  it('suspects: none is shown until it is named, and points stay while another is looked for', async () => {
    const exercise = await begun({ setting: { ...shown, hideSuspects: true } })
    const home = addressOf(exercise)
    const it = await visitor().open(`${home}/points`)
    const names = knowledge.causes.map(({ name }) => name)
    expect(names.filter((name) => it.html.includes(name))).toEqual([])
    await it.open(`${home}/points?q=carbon+brushs`)
    expect(it.html).toContain('id="p-worn-brushes"')
    await it.open(`${home}/points?q=vents&p-worn-brushes=70&other=0`)
    expect(it.html).toMatch(/id="p-worn-brushes"[\s\S]*?value="70" selected/)
    expect(it.html).toContain('id="p-blocked-vents"')
    await it.open(`${home}/points?q=xyzzy`)
    expect(it.words).toContain('No suspect goes by that')
    await it.send(`${home}/points`, { 'p-worn-brushes': '70', other: '30' })
    expect((await stored(exercise)).moves).toHaveLength(1)
  })
})

describe('what is hidden stays hidden while the exercise goes on', () => {
  const pages = ['', ...groups.map((group) => `/moves?in=${group}`), '/moves?q=blade', '/points']
  const bare = (html: string, id: string) => html.replaceAll(id, 'ID')

  it('shows the same pages for two tools of which the same is known, whatever is wrong with them', async () => {
    const prepared = await glancingRulebook()
    const byComplaint = new Map<string, { cause: string; seed: number }[]>()
    for (let seed = 1; seed <= 200; seed++) {
      const about = { kind: KIND, level: LEVEL, seed, setting: shown }
      const desk = await layOut(prepared, {
        ...about,
        id: 'x',
        learner: 'x',
        begunAt: '',
        changedAt: '',
        moves: [],
      })
      const cause = desk.kind.model.causes[desk.tool.causes[0]!]!.id
      const key = [...desk.complaint].join()
      const same = byComplaint.get(key) ?? []
      if (!same.some((it) => it.cause === cause)) byComplaint.set(key, [...same, { cause, seed }])
    }
    const pairs = [...byComplaint.values()].filter((tools) => tools.length > 1)
    expect(pairs.length).toBeGreaterThan(2)
    let afterwards = 0
    for (const [one, two] of pairs.slice(0, 3)) {
      // words are drawn for each tool, so both get the instructor's
      const setting = { ...shown, complaint: 'It is not right' }
      const [a, b] = [await begun({ seed: one!.seed, setting }), await begun({ seed: two!.seed, setting })]
      for (const page of pages) {
        const [first, second] = [
          await visitor().open(`${addressOf(a)}${page}`),
          await visitor().open(`${addressOf(b)}${page}`),
        ]
        expect(bare(second.html, b.id), `${one!.cause} and ${two!.cause}: ${page}`).toBe(
          bare(first.html, a.id),
        )
      }
      // and after moves that told the same of both
      const [first, second] = [visitor(), visitor()]
      for (const move of ['stood/plug-out', 'looked/danger-signs', 'looked/shake', 'disinfected']) {
        await make(await first.open(addressOf(a)), addressOf(a), move)
        await make(await second.open(addressOf(b)), addressOf(b), move)
      }
      const answers = async (of: Exercise) =>
        JSON.stringify((await playOut(prepared, await stored(of))).now.situation.answers)
      if ((await answers(a)) !== (await answers(b))) continue
      afterwards++
      for (const page of pages) {
        await first.open(`${addressOf(a)}${page}`)
        await second.open(`${addressOf(b)}${page}`)
        expect(bare(second.html, b.id), `after moves: ${page}`).toBe(bare(first.html, a.id))
      }
    }
    expect(afterwards).toBeGreaterThan(0)
  })

  it('never names the trouble of eight tools, nor their draw', async () => {
    for (let seed = 1; seed <= 8; seed++) {
      const exercise = await begun({ level: 'own-chair', seed: 4_000_000_000 + seed })
      const { desk, start } = await playOut(await glancingRulebook(), exercise)
      const it = await visitor().open(addressOf(exercise))
      for (const c of start.causes) {
        const { id, name } = desk.kind.model.causes[c]!
        expect(it.html).not.toContain(`"${id}"`)
        expect(it.html).not.toContain(name)
      }
      for (const page of pages) {
        await it.open(`${addressOf(exercise)}${page}`)
        expect(it.html).not.toContain(String(exercise.seed))
      }
    }
  })
})
