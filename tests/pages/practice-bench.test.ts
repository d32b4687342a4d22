/** The practice bench over the project's own rulebook, through its pages alone. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { loadKnowledge } from '../../server/knowledge/load.js'
import { prepare } from '../../server/diagnosis/prepare.js'
import { layOut } from '../../server/practice/desk.js'
import { plansMove } from '../../server/practice/model-player.js'
import { playOut } from '../../server/practice/played.js'
import { keyOf } from '../../server/pages/practice/move-key.js'
import type { Exercise, Setting } from '../../shared/practice.js'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { realBook } from '../practice/bench.js'
import { Visitor } from './visitor.js'

const KIND = 'universal-motor'
const LEVEL = 'sweeping-the-floor'
const groups = ['safe', 'ask', 'look', 'test', 'mend', 'end'] as const
const shown: Setting = { hideSuspects: false, hidePrices: false }
const knowledge = loadKnowledge()

let bench: Bench
let learner = ''
let ofClass = ''

beforeAll(async () => {
  bench = await benchWith({ knowledge })
  ofClass = (await bench.register.addClass({ name: 'Mornings', at: OPENED })).id
  learner = (await bench.register.addLearner({ name: 'Ana', class: ofClass, at: OPENED })).id
}, 60_000)
afterAll(() => bench.close())

const begun = (
  more: Partial<Pick<Exercise, 'level' | 'seed' | 'setting' | 'kind'>> = {},
): Promise<Exercise> =>
  bench.register.begin({ learner, kind: KIND, level: LEVEL, seed: 1, setting: shown, at: OPENED, ...more })

const addressOf = ({ id }: Pick<Exercise, 'id'>): string => `/practice/exercises/${id}`
const stored = (exercise: Exercise) => bench.register.exercise(exercise.id)
const visitor = () => new Visitor(bench.app)

/** Makes a move from the page that is open. */
const make = (it: Visitor, home: string, move: string, more = {}) =>
  it.send(`${home}/moves`, { move, ...more })

/** The moves that the pages of an exercise offer, by their keys, with the words of their rows. */
async function offered(it: Visitor, home: string): Promise<Map<string, string>> {
  const rows = new Map<string, string>()
  for (const group of groups) {
    await it.open(`${home}/moves?in=${group}`)
    for (const [, key = '', words = ''] of it.html.matchAll(
      /name="move" value="([^"]+)">([\s\S]*?)<\/button>/g,
    ))
      rows.set(
        key,
        words
          .replace(/<[^>]+>/g, ' ')
          .replace(/\s+/g, ' ')
          .trim(),
      )
  }
  return rows
}

describe('a whole exercise, by the plan’s moves as the pages offer them', () => {
  it.each([
    [KIND, LEVEL, 1],
    ['rotary-cordless', 'a-chair', 4],
  ])(
    '%s: ends in the debrief with all 100, for whoever makes them',
    async (kind, _, seed) => {
      const level = kind === KIND ? LEVEL : 'own-chair'
      const exercise = await begun({ kind, level, seed })
      const home = addressOf(exercise)
      const it = await visitor().open(home)
      for (let turn = 0; turn < 60 && !it.at.endsWith('/debrief'); turn++) {
        const played = await playOut(await realBook(), await stored(exercise))
        const move = await plansMove(played.desk, played.now)
        if (move.type === 'spread') throw new Error('the plan spreads no points of its own')
        const rows = await offered(it, home)
        expect([...rows.keys()]).toContain(keyOf(move))
        await make(it, home, keyOf(move))
        if (it.at.includes('/points')) await it.send(`${home}/points`, { move: keyOf(move), other: '100' })
        if (!it.at.includes('/debrief')) expect(it.html).toContain('id="last"')
      }
      expect(it.at).toBe(`${home}/debrief`)
      for (let k = 0; (await bench.register.outcome(exercise.id))?.score == null && k < 100; k++)
        await new Promise((later) => setTimeout(later, 100))
      // whoever makes the plan's own moves loses nothing against it: that is what the score means
      expect((await bench.register.outcome(exercise.id))?.score).toBe(100)
      await it.open(home)
      expect(it.at).toContain('/debrief')
    },
    60_000,
  )
})

describe('beginning', () => {
  const begin = async (fields: Record<string, string>) => {
    const it = visitor()
    await it.post('/practice/exercises', fields)
    return it
  }
  const latest = async () => (await bench.register.exercises({ learner })).map(({ id }) => id)

  it('puts the same set exercise in front of everybody, once each', async () => {
    const other = (await bench.register.addLearner({ name: 'Ben', class: ofClass, at: OPENED })).id
    const set = await bench.register.addSetExercise({
      class: ofClass,
      kind: KIND,
      level: LEVEL,
      seed: 77,
      setting: { ...shown, complaint: 'It eats the neck hair' },
      at: OPENED,
    })
    const one = await begin({ learner, set: set.id })
    const two = await begin({ learner: other, set: set.id })
    const again = await begin({ learner, set: set.id })
    expect(again.at).toBe(one.at)
    expect(two.at).not.toBe(one.at)
    expect(one.words).toContain('“It eats the neck hair”')
    const bare = (html: string) => html.replaceAll(/key\d+/g, '…').replaceAll(/Ana|Ben/g, '…')
    expect(bare(two.html)).toBe(bare(one.html))
  })

  it('asks who practises, and carries the lesson on', async () => {
    const it = await begin({ lesson: `parts/${KIND}/brushes`, kind: KIND })
    expect(it.at).toBe(
      `/practice?${new URLSearchParams({ lesson: `parts/${KIND}/brushes`, kind: KIND }).toString()}`,
    )
  })

  it('takes a tool after a lesson that has a trouble of that lesson', async () => {
    const { at } = await begin({ learner, lesson: `parts/${KIND}/brushes`, kind: KIND })
    const exercise = await bench.register.exercise(at.split('/').at(-1)!)
    const about = knowledge.causes.find(({ id }) => id === exercise.setting.about)
    expect(about?.part).toBe('brushes')
  })

  it('takes what is due next, within the level', async () => {
    const { at } = await begin({ learner, next: 'yes', level: LEVEL })
    const { setting, kind } = await bench.register.exercise(at.split('/').at(-1)!)
    expect(kind).toBe(KIND)
    expect(setting.about).toBeDefined()
  })

  it.each([
    [{ level: 'no-such-level' }, 'no such level'],
    [{ level: LEVEL, kind: 'rotary-cordless' }, 'no tools of that kind'],
    [{ level: LEVEL, kind: 'no-such-kind' }, 'no such kind'],
    [{ lesson: 'parts/nothing/here' }, 'no exercise to this lesson'],
    [{ level: '../../etc' }, 'something that is not here'],
    [{}, 'Say what to practise'],
  ])('tells in words what cannot be begun: %o', async (fields, words) => {
    const before = await latest()
    const it = await begin({ learner, ...fields } as Record<string, string>)
    expect(it.status).toBe(422)
    expect(it.words).toContain(words)
    expect(await latest()).toEqual(before)
  })

  it('keeps one class’s exercise from another’s people', async () => {
    const elsewhere = (await bench.register.addClass({ name: 'Evenings', at: OPENED })).id
    const set = await bench.register.addSetExercise({
      class: elsewhere,
      kind: KIND,
      level: LEVEL,
      seed: 5,
      setting: shown,
      at: OPENED,
    })
    const it = await begin({ learner, set: set.id })
    expect(it.status).toBe(422)
    expect(it.words).toContain('another class')
    expect((await begin({ learner: 'nobody-here', level: LEVEL })).status).toBe(404)
    expect((await begin({ learner, set: 'nothing-set' })).status).toBe(404)
  })
})

describe('a move', () => {
  it('costs its minutes, those of the set-ups that are missing, and its parts', async () => {
    const exercise = await begun()
    const it = visitor()
    const rows = await offered(it, addressOf(exercise))
    const fix = knowledge.fixes.find(({ id }) => id === 'new-brush-pair')!
    const minutes = ['plug-out', 'brush-caps-out'].reduce(
      (sum, id) => sum + knowledge.setups.find((setup) => setup.id === id)!.minutes,
      fix.minutes,
    )
    const parts = fix.parts.reduce((sum, { cost }) => sum + cost, 0)
    expect(rows.get('tried/new-brush-pair')).toMatch(
      new RegExp(`about ${Math.round(minutes)} minutes, .*${parts}`),
    )
  })

  it('tells its answer on top of the bench, and beside the same look in its list', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(home)
    await make(it, home, 'stood/plug-out')
    await make(it, home, 'looked/danger-signs/tingle-or-shock')
    expect(it.words).toMatch(/Asked “Has it given anybody a tingle or a shock\?”/)
    expect(it.html).toMatch(/<dd>(Yes|No)<\/dd>/)
    await it.open(`${home}/moves?in=safe`)
    expect(it.html).toMatch(/Has it given anybody a tingle[\s\S]{0,200}move-said">(Yes|No)</)
    await it.open(`${home}/moves?q=tingel`)
    expect(it.html).toContain('value="looked/danger-signs"')
  })

  it('that cannot be made is told on the page that it came from, and not stored', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(`${home}/moves?in=safe`)
    await make(it, home, 'put-back/plug-out', { in: 'safe', q: '' })
    expect(it.status).toBe(422)
    expect(it.heading).toBe('Make it safe')
    expect(it.words).toContain('That does not stand.')
    await it.open(home)
    await make(it, home, 'looked/no-such-look')
    expect(it.status).toBe(422)
    expect(it.words).toContain('There is no such thing in this rulebook')
    expect((await stored(exercise)).moves).toEqual([])
  })

  it.each(['', 'looked', 'looked/UPPER', 'spread/x', 'stood/a/b/c', '__proto__', 'ended/run-away'])(
    'named “%s” is no move',
    async (move) => {
      const exercise = await begun()
      const it = await visitor().open(addressOf(exercise))
      await make(it, addressOf(exercise), move)
      expect(it.status).toBe(422)
      expect(it.words).toContain('names no move')
      expect((await stored(exercise)).moves).toEqual([])
    },
  )

  it('needs a page that it comes from, and an exercise that is there', async () => {
    const home = addressOf(await begun())
    const it = visitor()
    expect((await it.post(`${home}/moves`, { move: 'disinfected' })).status).toBe(400)
    expect((await it.post(`${home}/moves`, { move: 'disinfected', seen: '-1' })).status).toBe(400)
    expect((await it.open('/practice/exercises/no-such-one')).status).toBe(404)
    expect(
      (await it.post('/practice/exercises/no-such-one/moves', { move: 'disinfected', seen: '0' })).status,
    ).toBe(404)
  })

  it('sent twice is made once; one from an older page is not made, and offered anew', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = visitor()
    await it.post(`${home}/moves`, { seen: '0', move: 'stood/plug-out' })
    await it.post(`${home}/moves`, { seen: '0', move: 'stood/plug-out' })
    expect([it.status, it.at]).toEqual([200, `${home}#last`])
    expect((await stored(exercise)).moves).toHaveLength(1)
    await it.post(`${home}/moves`, { seen: '0', move: 'disinfected' })
    expect(it.status).toBe(409)
    expect(it.words).toContain(
      '“Clean and disinfect it” was sent from a page that is no longer how things stand',
    )
    expect(it.words).toContain('Plug out')
    expect((await stored(exercise)).moves).toHaveLength(1)
    await make(it, home, 'disinfected')
    expect((await stored(exercise)).moves).toHaveLength(2)
  })

  // Common practice, no source: nobody opens a tool whose plug is in the wall.
  it('that opens a tool with its plug in is taken without a word of warning, and ends the exercise', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(`${home}/moves?in=look`)
    expect(it.words).not.toMatch(/warning|danger|plug in first|unplug/i)
    await make(it, home, 'looked/body-look')
    expect(it.at).toBe(`${home}/debrief`)
    expect((await bench.register.outcome(exercise.id))?.slips).toContain('opened-while-plugged-in')
    await it.post(`${home}/moves`, { seen: '1', move: 'disinfected' })
    expect(it.status).toBe(409)
    expect(it.words).toContain('over')
    expect((await stored(exercise)).moves).toHaveLength(1)
  })

  it('that is a bad habit stands among the honest ones, under no name of its own', async () => {
    const home = addressOf(await begun())
    const it = await visitor().open(`${home}/moves?in=mend`)
    const keys = [...it.html.matchAll(/name="move" value="([^"]+)"/g)].map(([, key]) => key)
    const at = keys.indexOf('dared/sprayed-the-running-blade')
    expect(keys[at - 1]).toMatch(/^tried\//)
    expect(keys[at + 1]).toMatch(/^tried\//)
    expect(it.words).not.toMatch(/habit/i)
  })

  it('knows bad habits only where the rulebook says at which part of the tool a hand comes upon them', () => {
    for (const slip of knowledge.slips.filter(({ offers }) => offers !== undefined)) {
      expect(slip.offeredAmong, slip.id).toBeDefined()
      for (const kind of knowledge.kinds.filter(({ id }) => slip.kinds.includes(id)))
        expect(
          kind.parts.map(({ id }) => id),
          `${slip.id} in ${kind.id}`,
        ).toContain(slip.offeredAt)
    }
  })
})

describe('points', () => {
  it('are asked for before the first repair, which is made right after', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(home)
    await make(it, home, 'stood/plug-out')
    await make(it, home, 'tried/clear-vents')
    expect(it.at).toBe(`${home}/points?move=tried%2Fclear-vents`)
    expect(it.words).toContain('Before “Brush out filter and vents”')
    await it.send(`${home}/points`, {
      move: it.field('move')!,
      'p-blocked-vents': '60',
      'p-dry-bearing': '30',
      other: '10',
    })
    const { moves } = await stored(exercise)
    expect(moves.map(({ type }) => type)).toEqual(['stood', 'spread', 'tried'])
    expect(moves[1]).toEqual({
      type: 'spread',
      spread: { points: { 'blocked-vents': 60, 'dry-bearing': 30 }, other: 10 },
    })
    expect(it.words).toMatch(/It runs as it should|The trouble goes on/)
    // from now on they stand
    expect((await it.open(`${home}/points`)).at).toBe(`${home}#last`)
    expect(it.words).toContain('Your points stand: Blocked vents or filter 60')
  })

  it('are asked for before sending in, and neither before setting aside nor before handing back', async () => {
    const sent = addressOf(await begun())
    const it = await visitor().open(sent)
    await make(it, sent, 'ended/send-in')
    expect(it.at).toContain('/points')
    for (const way of ['set-aside', 'hand-back']) {
      const home = addressOf(await begun())
      await it.open(home)
      await make(it, home, `ended/${way}`)
      expect(it.at).toBe(`${home}/debrief`)
    }
  })

  it.each([
    [{ 'p-dry-blade': '60', other: '30' }, '90 given, 10 left'],
    [{ 'p-dry-blade': '60', other: '60' }, '120 given, 20 too many'],
    [{ 'p-dry-blade': '55', other: '45' }, 'steps of 10'],
    [{ 'p-no-such-cause': '50', other: '50' }, 'not in the rulebook'],
    [{}, '0 given, 100 left'],
  ])('that do not come to 100 in tens come back with all that was given: %o', async (fields, words) => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(`${home}/points?move=tried/clear-vents`)
    await it.send(`${home}/points`, { move: 'tried/clear-vents', ...(fields as Record<string, string>) })
    expect(it.status).toBe(422)
    expect(it.words).toContain(words)
    expect(it.field('move')).toBe('tried/clear-vents')
    if ('p-dry-blade' in fields && fields['p-dry-blade'] === '60')
      expect(it.html).toMatch(/id="p-dry-blade"[\s\S]*?value="60" selected/)
    expect((await stored(exercise)).moves).toEqual([])
  })

  it('are remembered, and changed as often as one likes', async () => {
    const exercise = await begun()
    const home = addressOf(exercise)
    const it = await visitor().open(`${home}/points`)
    for (const given of ['100', '70']) {
      await it.send(`${home}/points`, { 'p-dry-blade': given, other: String(100 - Number(given)) })
      await it.open(`${home}/points`)
      expect(it.html).toMatch(new RegExp(`id="p-dry-blade"[\\s\\S]*?value="${given}" selected`))
    }
    expect((await stored(exercise)).moves).toHaveLength(2)
  })

  it('stand by the parts of the tool, the names in their order, never by how likely they are', async () => {
    const home = addressOf(await begun({ level: 'own-chair' }))
    const it = await visitor().open(`${home}/points`)
    const fields = [...it.html.matchAll(/id="p-([a-z-]+)"/g)].map(([, id]) => id!)
    const parts = knowledge.kinds.find(({ id }) => id === KIND)!.parts.map(({ id }) => id)
    const own = knowledge.causes.filter(({ shares }) => shares[KIND] !== undefined)
    const expected = parts.flatMap((part) =>
      own
        .filter((cause) => cause.part === part)
        .sort((a, b) => a.name.localeCompare(b.name, 'en'))
        .map(({ id }) => id),
    )
    expect(fields).toEqual(expected)
  })
})

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
    const prepared = await prepare(knowledge)
    const byComplaint = new Map<string, { cause: string; seed: number }[]>()
    for (let seed = 1; seed <= 120; seed++) {
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
    for (const [one, two] of pairs.slice(0, 6)) {
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
    }
  }, 60_000)

  it('never names the trouble of twenty tools, nor their draw', async () => {
    for (let seed = 1; seed <= 20; seed++) {
      const exercise = await begun({ level: 'own-chair', seed: 4_000_000_000 + seed })
      const { desk, start } = await playOut(await realBook(), exercise)
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
  }, 60_000)
})
