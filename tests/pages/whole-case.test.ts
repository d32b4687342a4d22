/** Whole cases as a person walks them: the real rulebook, the real diagnosis, a store in memory. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Express } from 'express'
import { bookOf } from '../../shared/book-of-kind.js'
import { benchWith } from '../api/bench.js'
import type { Fields } from './visitor.js'
import { Visitor } from './visitor.js'
import { knowledge as whole } from '../the-rulebook.js'

let app: Express
let me: Visitor
const knowledge = bookOf(whole, 'universal-motor')
const dangers = knowledge.steps.find(({ form }) => form === 'danger')!
const isSign = (id: string): boolean => dangers.questions.some((sign) => sign.id === id)

beforeAll(async () => {
  app = (await benchWith({ knowledge: whole })).app
  me = new Visitor(app)
})

/** Tell an answer without being asked. */
async function tell(home: string, question: string, fields: Fields): Promise<void> {
  await me.open(`${home}/answers/${question}`)
  await me.send(`${home}/answers/${question}`, fields)
}

describe('from the complaint to a tool that runs again', () => {
  // A fact of the trade, common practice, no source: comes and goes in use, the cord ruled out, brushes short:
  // a new pair of brushes, both at once.
  it('asks for danger first, then one step at a time, ends with new brushes, and keeps it', async () => {
    const home = await me.begin(['cuts-in-and-out'])
    expect(me.heading).toBe(dangers.title)
    expect(new Set(me.dangerSigns)).toEqual(new Set(dangers.questions.map(({ id }) => id)))

    await me.lookForDanger(home)
    expect(me.words).toContain('in 100')
    const first = me.field('step')
    expect(first).toBeDefined()
    await me.answerStep(home)
    expect(me.status).toBe(200)
    expect(me.field('step')).not.toBe(first)

    await tell(home, 'cord-flex-changes-it', { 'q-cord-flex-changes-it': 'no' })
    await tell(home, 'brush-length', { 'n-brush-length': '4' })
    await me.open(home)
    for (let more = 0; more < 10 && me.fix === undefined; more++)
      if (!(await me.lookFurther())) await me.answerStep(home)
    expect(me.fix).toBe('new-brush-pair')
    expect(me.heading).toBe(knowledge.fixes.find(({ id }) => id === me.fix)!.name)
    // The cautions stand before the work, where the hands are.
    expect(me.html).toContain('class="caution"')
    expect(me.html.indexOf('class="caution"')).toBeLessThan(me.html.indexOf('data-fold="all-work"'))
    expect(me.words).toMatch(/It cuts in and out[^.]*: that speaks for worn carbon brushes/)
    await me.open(`${home}/why`)
    expect(me.words).toMatch(/Worn carbon brushes/)
    expect(me.words).toMatch(/speaks (very )?strongly for/)

    // Screen by screen through the work, to where it asks whether that cured it.
    await me.open(home)
    for (let at = 1; me.field('fix') === undefined; at++) await me.open(`${home}?at=${at}`)
    expect(me.html.match(/name="outcome" value="[a-z]+"/g)).toHaveLength(3)
    await me.send(`${home}/tried`, { fix: 'new-brush-pair', outcome: 'cured' })
    expect(me.heading).toBe('It runs again')
    await me.send(`${home}/finish`, {
      state: 'running-again',
      cause: 'worn-brushes',
      disinfected: 'yes',
    })
    expect(me.heading).toBe('Running again')
    expect(me.words).toContain('Worn carbon brushes')
    await me.open('/')
    expect(me.words).toContain('Running again')
  })
})

describe('somebody who has looked enough', () => {
  it('gets the fix that is best so far after one tap, and the look again by Back', async () => {
    const home = await me.begin(['stalls-in-hair'])
    await me.lookForDanger(home)
    const look = me.field('step')
    expect(look).toBeDefined()
    expect(me.words).toMatch(/Stop looking: (fix that|try a fix)/)
    await me.lookedEnough(home)
    const best = me.fix
    expect(best).toBeDefined()
    await me.open(home)
    expect(me.fix).toBe(best)
    await me.send(`${home}/back`)
    expect(me.field('step')).toBe(look)

    // what was ticked on the way is kept
    await me.lookedEnough(home, me.field('asked')!.split(',').slice(0, 1))
    await me.open(`${home}/answers`)
    expect(me.words).toContain('Looked enough')
    await me.open(home)
    await me.send(`${home}/back`)
    await me.send(`${home}/back`)
    expect(me.field('step')).toBe(look)

    // what did not help is thought over: it may be worth a look then
    await me.lookedEnough(home)
    await me.send(`${home}/tried`, { fix: best!, outcome: 'no' })
    expect(me.fix).not.toBe(best)
  })
  // Common practice, no source: a worn battery that is sealed in goes to service, and little can be seen that speaks against it.
  it('is offered the service for a sealed worn battery after one look, and again after looking further', async () => {
    const home = await me.begin(['short-run-time'], 'Chair 7', 'rotary-cordless')
    await me.lookForDanger(home)
    expect(me.field('asked')).toBe('pack-comes-out')
    await me.answerStep(home)
    expect(me.heading).toBe('Send it in')
    expect(me.words).toContain('Worn-out battery')
    expect(await me.lookFurther()).toBe(true)
    expect(me.field('step')).toBeDefined()
    await me.lookedEnough(home)
    expect(me.heading).toBe('Send it in')
  })
  // Common practice, no source: a magnetic clipper that got loud and clatters has its power screw set before it is sent away.
  it('comes to the power screw of a loud, clattering magnetic clipper before any service', async () => {
    const home = await me.begin(['louder-than-before', 'loud-clatter'], 'Chair 8', 'magnetic-motor')
    await me.lookForDanger(home)
    for (let look = 0; look < 5 && me.field('step') !== undefined; look++) await me.answerStep(home)
    expect(me.fix).toBe('set-power-screw')
  })
  it('puts a reading that cannot be right first, and keeps what was typed', async () => {
    const home = await me.begin(['cuts-in-and-out'])
    await me.lookForDanger(home)
    const reading = { step: 'brush-look', asked: 'brush-length', 'n-brush-length': 'short' }
    await me.send(`${home}/looked-enough`, reading)
    expect(me.status).toBe(422)
    expect(me.html).toContain('value="short"')
  })
  it('is asked for the danger signs all the same', async () => {
    const home = await me.begin(['stalls-in-hair'])
    await me.lookForDanger(home, { 'tingle-or-shock': 'cant-tell' })
    await me.send(`${home}/looked-enough`, { step: 'how-it-runs' })
    expect(me.dangerSigns).toEqual(['tingle-or-shock'])
  })
})

describe('a stop', () => {
  // Common practice, no source: a tool that gave a shock is unplugged and nobody goes on with it.
  it('is told of on the front page, before the tool’s other news, until it is lifted', async () => {
    const home = await me.begin([], 'Chair 9')
    await me.lookForDanger(home, { 'cord-damaged': 'yes' })
    await me.open('/')
    expect(me.words).toMatch(/Chair 9 [^“]*Danger: /)
    await me.open(`${home}/answers`)
    await me.send(`${home}/take-back`, { question: 'cord-damaged' })
    await me.open('/')
    expect(me.words).not.toContain('Danger: ')
  })

  it('ends the work, stays over a reload, and is lifted only by the act that it names', async () => {
    const home = await me.begin(['slows-down'])
    await me.lookForDanger(home, { 'tingle-or-shock': 'yes' })
    const stop = knowledge.stops.find(({ id }) => id === 'tingle-or-shock')!
    expect(me.heading).toBe(stop.name)
    expect(me.html).toContain('name="state" value="set-aside"')
    await me.open(home)
    expect(me.heading).toBe(stop.name)

    // No fix and no "running again" gets past it.
    await me.send(`${home}/tried`, { fix: 'new-brush-pair', outcome: 'cured' })
    expect(me.status).toBe(409)
    await me.open(home)
    await me.send(`${home}/finish`, { state: 'running-again' })
    expect([409, 422]).toContain(me.status)

    await me.open(home)
    await me.send(`${home}/stops/tingle-or-shock/lift`, { by: '  ' })
    expect(me.status).toBe(422)
    expect(me.title).toMatch(/^Error: /)
    await me.send(`${home}/stops/tingle-or-shock/lift`, { by: 'The test bench in town' })
    expect(me.status).toBe(200)
    expect(me.heading).not.toBe(stop.name)
    await me.open(`${home}/answers`)
    expect(me.words).toContain('The test bench in town')
  })

  it('comes at once where a no is changed to a yes, and the old no stands in sight', async () => {
    const home = await me.begin(['slows-down'])
    await me.lookForDanger(home)
    await tell(home, 'smoke-or-burning-smell', { 'q-smoke-or-burning-smell': 'yes' })
    const stop = knowledge.stops.find(({ id }) => id === 'smoke-or-burning-smell')!
    expect(me.heading).toBe(stop.name)
    await me.open(`${home}/answers`)
    expect(me.words).toContain('(changed later)')
    expect(me.words).not.toContain('No to all')
  })

  it('that was a mistake is taken back after one more question, and asked again', async () => {
    const home = await me.begin([])
    await me.lookForDanger(home, { 'smoke-or-burning-smell': 'yes' })
    const stop = knowledge.stops.find(({ id }) => id === 'smoke-or-burning-smell')!
    expect(me.heading).toBe(stop.name)
    await me.open(`${home}/stops/${stop.id}/mistake`)
    expect(me.words).toContain(stop.checkQuestion.replaceAll("'", '’'))
    await me.send(`${home}/stops/${stop.id}/mistake`)
    expect(me.heading).toBe(dangers.title)
    await me.lookForDanger(home)
    expect(me.heading).not.toBe(dangers.title)
  })

  it('of the milder grade lets the work go on with the plug out, and is told of all the way', async () => {
    const home = await me.begin([])
    await me.lookForDanger(home, { 'tooth-missing': 'yes' })
    const stop = knowledge.stops.find(({ id }) => id === 'tooth-missing')!
    expect(me.heading).toBe(stop.name)
    await me.open(home)
    await me.lookForDanger(home)
    expect(me.words).toContain(`Off the client: ${stop.name}`)
    await me.open(`${home}/finish`)
    await me.send(`${home}/finish`, { state: 'running-again' })
    expect(me.status).toBe(422)
    expect(me.words).toContain('still off the client')
    await me.open(`${home}/stops/${stop.id}/lift`)
    await me.send(`${home}/stops/${stop.id}/lift`, { by: 'me, new blade' })
    await me.open(`${home}/finish`)
    await me.send(`${home}/finish`, { state: 'running-again', note: 'new blade' })
    expect(me.heading).toBe('Running again')
    expect(me.words).toContain('new blade')
  })
})

it('cured under a milder stop: one tap leads to the act that clears it, and from there back into use', async () => {
  const home = await me.begin(['pulls-or-snags'])
  await me.lookForDanger(home, { 'tooth-missing': 'yes' })
  await me.open(home)
  await me.lookForDanger(home)
  const curing = knowledge.fixes.find(({ cures }) => (cures['broken-tooth'] ?? 0) > 0.5)!
  await me.send(`${home}/tried`, { fix: curing.id, outcome: 'cured' })
  const clear = /class="thumb"><a class="answer" href="([^"]+)"/.exec(me.html)![1]!
  await me.open(clear)
  expect(me.words).toContain(knowledge.stops.find(({ id }) => id === 'tooth-missing')!.lift)
  await me.send(clear, { by: 'Ines' })
  expect(me.html).toContain('value="running-again"')
})

describe('the danger screen', () => {
  it('takes a whole list too, asks only for what is left, and stores nothing of an empty form', async () => {
    const home = await me.begin([])
    const all = me.dangerSigns
    await me.send(`${home}/danger`)
    expect(me.status).toBe(422)
    expect(me.title).toMatch(/^Error: /)
    expect(me.dangerSigns).toEqual(all)
    await me.send(`${home}/danger`, { [`q-${all[0]}`]: 'no', [`q-${all[1]}`]: 'cant-tell' })
    expect(me.dangerSigns).toEqual(all.slice(2))
  })

  it('opens the stop at one tap, without asking for the others first', async () => {
    const home = await me.begin([])
    const { id, name } = knowledge.stops.find(({ grade, id }) => grade === 'set-aside' && isSign(id))!
    await me.send(`${home}/danger`, { yes: id })
    expect(me.heading).toBe(name)
  })

  it('takes "not sure" as no "no": it may be asked again, and nothing runs again before it is settled', async () => {
    const home = await me.begin(['slows-down'])
    const power = new Set(knowledge.steps.filter((step) => step.power).map(({ id }) => id))
    await me.lookForDanger(home, Object.fromEntries(me.dangerSigns.map((id) => [id, 'cant-tell'])))
    expect(me.status).toBe(200)
    for (let look = 0; look < 3 && me.field('step') !== undefined; look++) {
      expect(power).not.toContain(me.field('step'))
      await me.answerStep(home)
    }
    await me.open(`${home}/finish`)
    await me.send(`${home}/finish`, { state: 'running-again' })
    expect(me.status).toBe(422)
  })
})

describe('a case that is changed along the way', () => {
  it('sets aside a check that cannot be done here, and can have it back', async () => {
    const home = await me.begin(['cuts-in-and-out'])
    await me.lookForDanger(home)
    const step = me.field('step')!
    const first = me.heading
    await me.send(`${home}/cannot-do`, { id: step })
    expect(me.field('step')).not.toBe(step)
    await me.open(`${home}/answers`)
    await me.send(`${home}/can-do`, { id: step })
    expect(me.heading).toBe(first)
  })

  it('takes an answer back without a trace in the next page', async () => {
    const home = await me.begin(['cuts-in-and-out'])
    await me.lookForDanger(home)
    const before = me.html.replace(/name="seen" value="\d+"/g, '')
    await me.open(`${home}/answers/cord-flex-changes-it`)
    await me.send(`${home}/answers/cord-flex-changes-it`, { 'q-cord-flex-changes-it': 'yes' })
    expect(me.words).toContain('Yes')
    await me.send(`${home}/take-back`, { question: 'cord-flex-changes-it' })
    expect(me.words).toContain('Taken back')
    await me.open(home)
    expect(me.html.replace(/name="seen" value="\d+"/g, '')).toBe(before)
  })

  it('asks what it does now after a fix that did not cure, and remembers the fix', async () => {
    const home = await me.begin(['wont-start'])
    await me.lookForDanger(home)
    await me.send(`${home}/tried`, { fix: 'new-brush-pair', outcome: 'better' })
    expect(me.heading).toBe('What does it do now?')
    // What decides whether it runs at all comes first.
    expect(/type="checkbox" id="q-([a-z-]+)"/.exec(me.html)?.[1]).toBe('wont-start')
    await me.send(`${home}/now`, { rest: 'no', 'q-slows-down': 'yes' })
    expect(me.status).toBe(200)
    expect(me.fix).not.toBe('new-brush-pair')
    await me.open(`${home}/answers/wont-start`)
    expect(me.words).toContain('You said: No')
    await me.open(`${home}/answers/slows-down`)
    expect(me.words).toContain('You said: Yes')
    await me.open(`${home}/answers`)
    expect(me.words).toContain('better')
    await me.open(`${home}/slip`)
    expect(me.words).toMatch(/Fit a new pair of brushes: better/)
  })

  it('takes no change for what it says: the same as before, and goes on; back takes back the try', async () => {
    const home = await me.begin(['wont-start'])
    await me.lookForDanger(home)
    await me.send(`${home}/tried`, { fix: 'new-brush-pair', outcome: 'no' })
    expect(me.heading).not.toBe('What does it do now?')
    expect(me.fix).not.toBe('new-brush-pair')
    await me.open(`${home}/answers/wont-start`)
    expect(me.words).toContain('You said: Yes')
    await me.open(`${home}/slip`)
    expect(me.words).toMatch(/No change: Fit a new pair of brushes/)
    await me.send(`${home}/back`)
    await me.open(`${home}/slip`)
    expect(me.words).not.toMatch(/No change/)
  })

  it('goes on when the cure did not last', async () => {
    const home = await me.begin(['cuts-in-and-out'])
    await me.lookForDanger(home)
    await me.send(`${home}/tried`, { fix: 'new-brush-pair', outcome: 'cured' })
    expect(me.heading).toBe('It runs again')
    await me.send(`${home}/came-back`)
    expect(me.heading).toBe('What does it do now?')
    await me.open(`${home}/answers`)
    await me.send(`${home}/untried`, { fix: 'new-brush-pair' })
    expect(me.words).toContain('Taken back as not tried')
  })

  it('can be ended and put back on the bench', async () => {
    const home = await me.begin([])
    await me.open(`${home}/finish`)
    await me.send(`${home}/finish`, { state: 'boxed-for-service', cause: 'worn-brushes', note: 'by courier' })
    expect(me.heading).toBe('Boxed for service')
    expect(me.words).toContain('Worn carbon brushes')
    await me.send(`${home}/reopen`)
    expect(me.status).toBe(200)
    expect(me.heading).not.toBe('Boxed for service')
  })
})

describe('the complaint', () => {
  it('shows what the words seem to mean, to confirm, and stores nothing before that', async () => {
    const home = await me.begin([])
    await me.open(`${home}/complaint?q=blade+wobles`)
    expect(me.html).toMatch(/name="q-blade-wobbles" value="yes" checked/)
    expect(me.html).toContain('value="blade wobles"')
    await me.open(`${home}/answers`)
    expect(me.words).not.toContain('wobles')
  })
  it('says plainly that it understood nothing, and keeps the words', async () => {
    const home = await me.begin([])
    await me.open(`${home}/complaint?q=xyzzy`)
    expect(me.html).toMatch(/role="status"[^>]*>[^<]*xyzzy/)
    expect(me.field('say')).toBeDefined()
  })
  it('is told by one tap, and needs none', async () => {
    const me = new Visitor(app)
    await me.open('/new?on=cord')
    await me.send('/cases', { kind: 'universal-motor' })
    const home = me.at.replace('/complaint', '')
    const said = me.field('say')!
    await me.send(`${home}/complaint`, { say: said })
    expect(me.heading).toBe(dangers.title)
    await me.open(`${home}/answers/${said}`)
    expect(me.words).toContain('You said: Yes')
    const second = await me.begin([])
    await me.open(second)
    expect(me.heading).toBe(dangers.title)
  })
  it('stores the words, and what is not ticked is no answer', async () => {
    const home = await me.begin([])
    await me.open(`${home}/complaint`)
    await me.send(`${home}/complaint`, { q: 'it wobbles & whines', 'q-blade-wobbles': 'yes' })
    await me.open(`${home}/slip`)
    expect(me.html).toContain('it wobbles &amp; whines')
    expect(me.words).toContain('nothing')
    await me.open(`${home}/answers/slows-down`)
    expect(me.words).toContain('Nothing is said to this now')
  })
  it('takes back what is no longer ticked', async () => {
    const home = await me.begin(['slows-down', 'blade-wobbles'])
    await me.open(`${home}/complaint`)
    await me.send(`${home}/complaint`, { 'q-slows-down': 'yes' })
    await me.open(`${home}/answers/blade-wobbles`)
    expect(me.words).toContain('Nothing is said to this now')
    await me.open(`${home}/answers/slows-down`)
    expect(me.words).toContain('You said: Yes')
  })
})

describe('one screen back', () => {
  it('takes back what was said last, and then leads to the complaint', async () => {
    const home = await me.begin(['cuts-in-and-out'])
    await me.lookForDanger(home)
    const first = me.heading
    await me.answerStep(home)
    expect(me.html).toContain(`action="${home}/back"`)
    await me.send(`${home}/back`)
    expect(me.heading).toBe(first)
    await me.send(`${home}/back`)
    expect(me.heading).toBe(dangers.title)
    expect(me.html).toMatch(new RegExp(`class="line-back" href="${home}/complaint"`))
  })
})

describe('the tool of a case', () => {
  it('gets its name later, and another kind', async () => {
    const home = await me.begin(['slows-down'], '')
    const other = whole.kinds.find(({ id }) => id !== 'universal-motor')!
    await me.open(`${home}/tool`)
    await me.send(`${home}/tool`, { tool: 'Chair 7', kind: other.id })
    expect(me.status).toBe(200)
    await me.open(`${home}/tool`)
    expect(me.html).toContain('value="Chair 7"')
    expect(me.html).toMatch(new RegExp(`value="${other.id}" selected`))
  })
  it('of a case begun by mistake goes with it', async () => {
    const home = await me.begin([], 'Chair 99')
    await me.open(`${home}/tool`)
    await me.send(`${home}/remove`)
    expect(me.words).not.toContain('Chair 99')
    await me.open(home)
    expect(me.status).toBe(404)
  })
})

it('a server that comes up on the same file shows the case as it was', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'whole-case-'))
  const file = join(folder, 'cases.db')
  const first = await benchWith({ knowledge: whole, file })
  const before = new Visitor(first.app)
  const home = await before.begin(['cuts-in-and-out'])
  await before.lookForDanger(home)
  await before.answerStep(home)
  await before.open(home)
  await first.close()

  const second = await benchWith({ knowledge: whole, file })
  const after = await new Visitor(second.app).open(home)
  expect(after.words).toBe(before.words)
  await second.close()
  rmSync(folder, { recursive: true })
})
