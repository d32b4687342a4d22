/** The practice bench over the project's own rulebook, through its pages alone: a whole exercise, and its moves. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { plansMove } from '../../server/practice/model-player.js'
import { playedOf } from '../../server/remembered/played.js'
import { keyOf } from '../../server/pages/practice/move-key.js'
import type { Classroom } from './practice-classroom.js'
import { KIND, LEVEL, addressOf, knowledge, make, offered, openClassroom } from './practice-classroom.js'
import { glancingRulebook } from '../the-rulebook.js'

let { bench, begun, stored, visitor } = {} as Classroom

beforeAll(async () => {
  ;({ bench, begun, stored, visitor } = await openClassroom())
})
afterAll(() => bench.close())

describe('a whole exercise, by the plan’s moves as the pages offer them', () => {
  it.each([
    [KIND, LEVEL, 1],
    ['rotary-cordless', 'a-chair', 4],
  ])('%s: ends in the debrief with all 100, for anyone who makes them', async (kind, _, seed) => {
    const level = kind === KIND ? LEVEL : 'own-chair'
    const exercise = await begun({ kind, level, seed })
    const home = addressOf(exercise)
    const it = await visitor().open(home)
    for (let turn = 0; turn < 60 && !it.at.endsWith('/debrief'); turn++) {
      // as the server remembers it, with what the plan made of it
      const played = await playedOf(await glancingRulebook(), await stored(exercise), {})
      const move = await plansMove(played.desk, played.now)
      if (move.type === 'spread') throw new Error('the plan spreads no points of its own')
      const rows = await offered(it, home)
      expect([...rows.keys()]).toContain(keyOf(move))
      await make(it, home, keyOf(move))
      if (it.at.includes('/points')) await it.send(`${home}/points`, { move: keyOf(move), other: '100' })
      if (!it.at.includes('/debrief')) expect(it.html).toContain('id="last"')
    }
    expect(it.at).toBe(`${home}/debrief`)
    while ((await bench.register.outcome(exercise.id))?.score == null)
      await new Promise((later) => setTimeout(later, 100))
    // whoever makes the plan's own moves loses nothing against it: that is what the score means
    expect((await bench.register.outcome(exercise.id))?.score).toBe(100)
    await it.open(home)
    expect(it.at).toContain('/debrief')
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

  it('sent twice is made once; one from an older page is not made, and offered again', async () => {
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

  it('of a list shows its name and price; how it is done and its single questions are folded', async () => {
    const it = await visitor().open(`${addressOf(await begun())}/moves?in=look`)
    expect(it.html).toContain('class="move-how"')
    const unfolded = it.html.replace(/<details[\s\S]*?<\/details>/g, '')
    expect(unfolded).not.toMatch(/class="move-how"|move-do-one/)
    expect(unfolded).toContain('name="move"')
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
