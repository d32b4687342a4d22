/**
 * Facts of the trade about the two kinds whose arm is pulled by a coil: readings, danger and order of work.
 *
 * Source of every expected value here: common practice, no source, unless it says otherwise beside it.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { chance, kinds, knowledge, look, order, safe } from './vibrator-bench.js'

describe.each(kinds)('%s: readings', (kind) => {
  // Physics: a coil pulls twice in a mains cycle, 120 strokes a minute for each hertz (any book on electromagnets).
  const percent = (mains: number, plate: number) => (100 * (120 * mains)) / (120 * plate)
  it.each([
    ['60 Hz tool on 50 Hz', percent(50, 60), true],
    ['50 Hz tool on 60 Hz', percent(60, 50), true],
    ['on its own mains', percent(50, 50), false],
    ['the grid 1 % off (EN 50160:2010)', percent(50.5, 50), false],
    ['an arm with a magnet: once a cycle', percent(50, 50) / 2, false],
    ['such an arm, 60 Hz on 50 Hz', percent(50, 60) / 2, true],
  ])('count of strokes, %s', async (_case, reading, off) => {
    const at = await look(kind, { 'stroke-rate-percent': reading })
    expect(at.findings.get('stroke-rate-off')).toBe(off ? 'yes' : 'no')
  })

  it('ohms of a coil against its twin: missing turns read low (common practice, no source)', async () => {
    const at = async (reading: number) =>
      order(await look(kind, { 'hot-all-over': 'yes', 'coil-percent-of-twin': reading }))
    expect((await at(62))[0]).toBe('shorted-coil')
    expect((await at(97))[0]).not.toBe('shorted-coil')
  })

  it('heat of a winding: the worked example is the standard’s formula (IEC 60335-1, clause 11, k = 234.5)', async () => {
    const [r1, r2, t1, t2] = [50, 58, 20, 22]
    const rise = ((r2 - r1) / r1) * (234.5 + t1) - (t2 - t1)
    const how = bookOf(knowledge, kind)
      .steps.find(({ id }) => id === 'winding-rise')!
      .how.join(' ')
    expect(how).toContain(`${rise.toFixed(1)} degrees`)
    expect((await look(kind, { 'winding-rise': rise })).findings.get('winding-rise-high')).toBe('no')
    // 75 K: limit of class 105 windings, Table 3 of the same standard, from memory
    expect((await look(kind, { 'winding-rise': 80 })).findings.get('winding-rise-high')).toBe('yes')
  })

  it('every reading of ohms is taken with the plug out, and the body is never open under power', () => {
    for (const step of bookOf(knowledge, kind).steps) {
      if (step.setups.includes('body-open')) expect(step.power, step.id).toBe(false)
      if (step.questions.some(({ unit }) => unit === 'ohm'))
        expect(step.setups, step.id).toContain('plug-out')
      if (step.tools.includes('meter')) expect(step.how.join(' '), step.id).toMatch(/plug (still )?out/i)
    }
  })
})

describe.each(kinds)('%s: danger and order of work (common practice, no source)', (kind) => {
  it.each([
    'tingle-or-shock',
    'smoke-or-burning-smell',
    'trips-safety-breaker',
    'cord-damaged',
    'case-cracked',
    'after-wet',
    'wont-turn-off',
    'plug-hot-or-scorched',
  ])('%s ends the work, whatever leads', async (sign) => {
    const { next, stops } = await look(kind, { [sign]: 'yes' })
    const id = sign === 'trips-safety-breaker' ? 'tripped' : sign
    expect(next).toMatchObject({ step: 'stop', id })
    expect(stops[0]).toMatchObject({ id, grade: 'set-aside' })
  })
  it('on the wrong mains it is not run, banging or not, and no setting of the screw is offered', async () => {
    const { steps, relevance } = bookOf(knowledge, kind)
    for (const clatter of ['yes', 'no'] as const) {
      const at = await look(kind, { ...safe(kind), 'loud-clatter': clatter, 'plate-mismatch': 'yes' })
      expect(at.stops.map(({ id }) => id)).toEqual(['wrong-mains'])
      expect(steps.find(({ id }) => id === at.next.id)?.power ?? false).toBe(false)
      const hiding = relevance.filter(({ id }) => at.fired.relevance.includes(id))
      expect(hiding.flatMap(({ hides }) => hides.fixes)).toContain('set-power-screw')
    }
  })
  it('a dead tool is not asked what shows on a running one', async () => {
    const at = await look(kind, { ...safe(kind), 'wont-start': 'yes' })
    for (const running of [
      'loud-clatter',
      'slows-down',
      'stroke-short',
      'blade-gets-hot',
      'power-screw-cures',
    ])
      expect(at.findings.get(running), running).toBe('unknown')
    expect(at.next.questions.filter((it) => ['loud-clatter', 'slows-down'].includes(it))).toEqual([])
  })
  it('a dead tool is tried on another outlet before a meter comes out', async () => {
    const at = await look(kind, { ...safe(kind), 'wont-start': 'yes' })
    expect(at.hidden.has('pins-read-open')).toBe(true)
    const tried = await look(kind, { ...safe(kind), 'wont-start': 'yes', 'other-outlet-cures': 'no' })
    expect(tried.hidden.has('pins-read-open')).toBe(false)
  })
  it('it hums and stands still: nothing is run until the arm has given by hand', async () => {
    const waits = await look(kind, { ...safe(kind), 'hums-no-motion': 'yes' })
    const runs = bookOf(knowledge, kind).steps.filter(({ power }) => power)
    for (const { questions } of runs)
      for (const { id } of questions) expect(waits.next.questions, id).not.toContain(id)
  })
  it('a weak or pulling one is looked at, oiled or given a blade before its body is opened', () => {
    const steps = [...bookOf(knowledge, kind).steps].sort((a, b) => a.order - b.order)
    const firstOpen = steps.findIndex(({ setups }) => setups.includes('body-open'))
    for (const early of [
      'rating-plate',
      'blade-in-place',
      'known-good-blade',
      'cord-flex',
      'pins-against-twin',
    ])
      expect(
        steps.findIndex(({ id }) => id === early),
        early,
      ).toBeLessThan(firstOpen)
  })
  it('whatever opens the body ends in an electrical safety test', () => {
    for (const fix of bookOf(knowledge, kind).fixes)
      if (fix.setups.includes('body-open')) expect(fix.safetyTest, fix.id).toBe(true)
  })
  it('the power screw is turned by quarters from a mark, with an insulated driver, and no way round is named', () => {
    const { steps, tools, cautions } = bookOf(knowledge, kind).fixes.find(
      ({ id }) => id === 'set-power-screw',
    )!
    const words = [...steps.map((it) => it.do), ...cautions].join(' ')
    expect(tools.join(' ')).toContain('insulated')
    expect(words).toMatch(/quarter turn/)
    expect(words).toMatch(/mark/i)
    expect(words).not.toMatch(/clockwise/i)
  })
  it('nothing in it is told to turn, snap on, be brushed with carbon or cooled by a fan', () => {
    const book = bookOf(knowledge, kind)
    const words = [
      ...book.setups.flatMap(({ how, cautions }) => [...how, ...cautions]),
      ...book.steps.flatMap(({ title, tells, how, cautions }) => [title, tells, ...how, ...cautions]),
      ...book.fixes.flatMap(({ name, steps, cured }) => [
        name,
        cured,
        ...steps.flatMap((it) => [it.do, it.caution ?? '']),
      ]),
    ]
    for (const text of words)
      expect(text).not.toMatch(
        /commutator|armature|carbon|\bgears?\b|bearing|hinge|snap-on|\bfan\b|ball oiler|drive lever/i,
      )
  })
  it('danger is not weighed away: what leads changes nothing about a stop', async () => {
    const at = await look(kind, { 'tooth-missing': 'yes', 'pulls-or-snags': 'yes' })
    expect(at.stops.map(({ id }) => id)).toContain('tooth-missing')
    expect(chance(at, 'broken-tooth')).toBeGreaterThan(0.5)
  })
})
