/**
 * What hurts, at the bench. Facts of the trade (common practice, no source) and, for mains and packs, the standards
 * and services that the slips themselves name in rules/slips/.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import type { Desk, BenchState } from '../../server/practice/desk.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import { makeMove } from '../../server/practice/moves.js'
import { slipsOf } from '../../server/practice/slips.js'
import { worthOf } from '../../server/practice/worth.js'
import type { PracticeMove } from '../../shared/practice.js'
import { exerciseOf } from './bench.js'
import { glancingRulebook } from '../the-rulebook.js'

let prepared: Prepared
beforeAll(async () => {
  prepared = await glancingRulebook()
})

/** A tool of which exactly these findings are true, whatever its causes would show. */
async function deskOf(kind: string, ...showing: string[]): Promise<Desk> {
  const desk = await layOut(prepared, exerciseOf({ kind, level: 'own-chair', seed: 3 }))
  const there = new Set(showing)
  const shows = (f: number) => there.has(desk.kind.model.findings[f]!.id)
  return { ...desk, complaint: [], heard: [], tool: { ...desk.tool, shows } }
}

async function after(desk: Desk, ...moves: PracticeMove[]): Promise<BenchState> {
  let now = startOf(desk)
  for (const move of moves) {
    const done = await makeMove(desk, now, move)
    expect(done.refused).toBeUndefined()
    now = done.after
  }
  return now
}

const ids = async (desk: Desk, standing: BenchState, move: PracticeMove) =>
  (await slipsOf(desk, standing, move)).map(({ id, grade }) => `${grade} ${id}`)

const plugOut: PracticeMove = { type: 'stood', setup: 'plug-out' }
const danger: PracticeMove = { type: 'looked', step: 'danger-signs' }
const dangerCordless: PracticeMove = { type: 'looked', step: 'danger-signs-cordless' }
const corded = 'universal-motor'
const cordless = 'rotary-cordless'

describe('opening', () => {
  it.each(['blade-off', 'brush-caps-out', 'gear-cover-off', 'body-open'])(
    'to %s with the plug in ends the exercise; with the plug out it is no slip',
    async (setup) => {
      const desk = await deskOf(corded)
      const open: PracticeMove = { type: 'stood', setup }
      expect(await ids(desk, startOf(desk), open)).toContain('ends opened-while-plugged-in')
      expect((await makeMove(desk, startOf(desk), open)).after.over).toBe('slip')
      expect(await ids(desk, await after(desk, plugOut), open)).toEqual([])
    },
  )

  it('a look inside is opening too, though nobody said “open”', async () => {
    const desk = await deskOf(corded)
    expect(await ids(desk, startOf(desk), { type: 'looked', step: 'brush-look' })).toContain(
      'ends opened-while-plugged-in',
    )
  })

  it('every run ends with the plug pulled, as its last line says: a look inside after it is no slip', async () => {
    const desk = await deskOf(corded)
    const ran = await after(
      desk,
      plugOut,
      danger,
      { type: 'stood', setup: 'blade-off' },
      { type: 'looked', step: 'run-without-blade-better' },
    )
    expect(ran.situation.standing).toEqual(['plug-out', 'blade-off'])
    expect(await ids(desk, ran, { type: 'looked', step: 'drive-look' })).toEqual([])
    const plugged = await makeMove(desk, ran, { type: 'put-back', setup: 'plug-out' })
    expect(await ids(desk, plugged.after, { type: 'stood', setup: 'blade-off' })).toContain(
      'ends opened-while-plugged-in',
    )
  })

  it('a look from outside with the plug in is noted only', async () => {
    const desk = await deskOf(corded)
    expect(await ids(desk, startOf(desk), { type: 'looked', step: 'vents-look' })).toEqual([
      'noted plug-left-in',
    ])
  })

  it('a cordless body is not opened on its charger', async () => {
    const desk = await deskOf(cordless)
    expect(await ids(desk, startOf(desk), { type: 'stood', setup: 'body-open' })).toContain(
      'ends opened-on-the-charger',
    )
  })
})

describe('power', () => {
  const run: PracticeMove = { type: 'looked', step: 'speed-by-ear' }
  it.each([
    ['tingle-or-shock', 'ran-a-tingling-tool'],
    ['cord-damaged', 'ran-a-tingling-tool'],
    ['after-wet', 'ran-a-wet-tool'],
    ['case-cracked', 'ran-a-dropped-tool'],
    ['smoke-or-burning-smell', 'ran-a-burning-tool'],
    ['wont-turn-off', 'ran-a-tool-that-will-not-stop'],
    ['flame-or-vapour', 'ran-with-a-wet-chemical'],
  ])('on a corded tool with %s ends the exercise, asked or not', async (finding, slip) => {
    const desk = await deskOf(corded, finding)
    expect(await ids(desk, startOf(desk), run)).toContain(`ends ${slip}`)
    expect(await ids(desk, await after(desk, plugOut, danger), run)).toContain(`ends ${slip}`)
  })

  it('before the danger questions is noted where nothing was hidden, and no slip after them', async () => {
    const desk = await deskOf(corded)
    expect(await ids(desk, startOf(desk), run)).toEqual(['noted ran-before-looking'])
    expect(await ids(desk, await after(desk, plugOut, danger), run)).toEqual([])
  })

  it.each(['pack-swollen-or-hot', 'pack-dented', 'after-wet'])(
    'and charging, on a battery with %s, ends the exercise',
    async (finding) => {
      const desk = await deskOf(cordless, finding)
      const charge: PracticeMove = { type: 'looked', step: 'on-and-off-its-lead' }
      expect(await ids(desk, startOf(desk), charge)).toContain('ends charged-a-hurt-pack')
      expect(await ids(desk, startOf(desk), { type: 'dared', act: 'charged-a-hurt-pack' })).toContain(
        'ends charged-a-hurt-pack',
      )
      expect(await ids(desk, startOf(desk), { type: 'looked', step: 'timed-run' })).toContain(
        'ends ran-a-hurt-pack',
      )
      expect(await ids(desk, startOf(desk), { type: 'ended', way: 'send-in' })).toContain(
        'ends posted-a-hurt-pack',
      )
    },
  )

  it('a sound battery may be charged', async () => {
    const desk = await deskOf(cordless)
    const looked = await after(desk, plugOut, dangerCordless)
    expect(await ids(desk, looked, { type: 'looked', step: 'on-and-off-its-lead' })).toEqual([])
  })
})

describe('a dead tool', () => {
  it('shows nothing that only a running one shows, and tells it again once it runs', async () => {
    const desk = await deskOf(corded, 'wont-start')
    const ran = await makeMove(
      desk,
      await after(desk, plugOut, danger, { type: 'looked', step: 'how-it-runs' }),
      {
        type: 'looked',
        step: 'minutes-to-hot',
      },
    )
    expect(ran.told).toEqual([{ question: 'minutes-to-hot', answer: 'cant-tell' }])
  })
})

describe('blades and clients', () => {
  it('an edge is never tried on skin, nor a running blade sprayed', async () => {
    const desk = await deskOf(corded)
    for (const act of ['tried-on-skin', 'sprayed-the-running-blade'])
      expect(await ids(desk, startOf(desk), { type: 'dared', act })).toEqual([`ends ${act}`])
  })

  it('a missing tooth goes back to no client until it was made safe', async () => {
    const desk = await deskOf(corded, 'tooth-missing')
    const back: PracticeMove = { type: 'ended', way: 'hand-back' }
    const known = await after(desk, plugOut, danger, { type: 'disinfected' })
    expect(await ids(desk, known, back)).toContain('ends handed-back-biting')
    const safe = await makeMove(desk, known, { type: 'made-safe', stop: 'tooth-missing' })
    expect(await ids(desk, safe.after, back)).toEqual(['noted handed-back-unmended'])
  })

  it('after blood it goes back disinfected or not at all', async () => {
    const desk = await deskOf(corded, 'drew-blood')
    const back: PracticeMove = { type: 'ended', way: 'hand-back' }
    const known = await after(desk, plugOut, danger)
    expect(await ids(desk, known, back)).toContain('ends handed-back-bloody')
    expect(await ids(desk, await after(desk, plugOut, danger, { type: 'disinfected' }), back)).not.toContain(
      'ends handed-back-bloody',
    )
  })

  it('nobody can make safe what they have not found, or what only a service may', async () => {
    const desk = await deskOf(corded, 'tooth-missing', 'tingle-or-shock')
    const lift = (stop: string): PracticeMove => ({ type: 'made-safe', stop })
    expect((await makeMove(desk, startOf(desk), lift('tooth-missing'))).refused).toBeDefined()
    const known = await after(desk, plugOut, danger)
    expect((await makeMove(desk, known, lift('tooth-missing'))).refused).toBeUndefined()
    expect((await makeMove(desk, known, lift('tingle-or-shock'))).refused).toBeDefined()
  })

  it('a fixed tool with a danger that only a service may lift is set aside, and that costs nothing', async () => {
    const desk = await deskOf(corded, 'tingle-or-shock')
    const mended = { ...(await after(desk, plugOut, danger)), causes: [] }
    const loss = async (way: 'hand-back' | 'send-in' | 'set-aside') =>
      (await worthOf(desk, mended, { type: 'ended', way })).loss
    expect(await loss('set-aside')).toBe(0)
    expect(await loss('hand-back')).toBeGreaterThan(0)
    const sound = await deskOf(corded)
    const well = { ...(await after(sound, plugOut, danger)), causes: [] }
    expect((await worthOf(sound, well, { type: 'ended', way: 'hand-back' })).loss).toBe(0)
    expect((await worthOf(sound, well, { type: 'ended', way: 'set-aside' })).loss).toBeGreaterThan(0)
  })

  it('each slip says why, and the right order in two steps or more, in every kind that has it', () => {
    for (const slip of prepared.knowledge.slips) {
      expect(slip.why.length).toBeGreaterThan(20)
      expect(slip.right.length).toBeGreaterThanOrEqual(2)
    }
  })
})
