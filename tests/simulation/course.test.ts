/** One tool from complaint to end, against sums done by hand. */
import { describe, expect, it } from 'vitest'
import { prepare } from '../../server/diagnosis/prepare.js'
import type { Act, Choice, Course, CourseInput } from '../../server/simulation/course.js'
import { runCourse } from '../../server/simulation/course.js'
import type { DrawnTool } from '../../server/simulation/tool.js'
import type { Knowledge } from '../../shared/knowledge.js'
import {
  allOf,
  cause,
  finding,
  fix,
  is,
  KIND,
  question,
  relevance,
  rulebook,
  setup,
  shop,
  step,
  stop,
} from '../diagnosis/small-rulebook.js'

const told = (id: string) => question(id, { sense: 'eyes' })
const book = rulebook({
  setups: [
    setup('plug-out', { minutes: 1 }),
    setup('cap-off', { minutes: 3, needs: ['plug-out'], order: 2 }),
  ],
  causes: [cause('brush', 50), cause('cord', 30), cause('rotted', 20, { service: 'retire' })],
  findings: [
    finding('slow', { brush: 0.9 }),
    finding('dead', { cord: 0.9 }),
    finding('sparks', { brush: 0.9 }, { running: true }),
    finding('shock', { cord: 0.1 }),
    finding('worn', { brush: 0.95 }),
  ],
  steps: [
    step('danger', ['shock'], { form: 'danger', minutes: 1 }),
    step('ask', [told('slow'), told('dead'), told('sparks')], { form: 'ask', minutes: 2 }),
    step('look', ['worn'], { minutes: 4, setups: ['cap-off'] }),
  ],
  fixes: [
    fix(
      'new-brush',
      { brush: 0.9 },
      { minutes: 5, setups: ['cap-off'], parts: [{ name: 'brushes', cost: 7 }] },
    ),
    fix('new-cord', { cord: 0.9 }, { minutes: 6, setups: ['plug-out'] }),
  ],
  stops: [stop('live-case', 'set-aside', allOf(is('shock')))],
  relevance: [relevance('dead-tool', allOf(is('dead')), { running: true })],
})
const figures = shop({ rate: 2, sendIn: 50, turnaroundDays: 3, dayWithout: 4, replace: 200, skill: 'S3' })

/** A tool that shows exactly these findings while any of its causes is there, and nothing once it is cured. */
function tool(causes: number[], shown: string[], cures = true): DrawnTool {
  const index = book.findings.map(({ id }) => id)
  return {
    number: 1,
    causes,
    main: causes[0]!,
    shows: (f, there) => there.length > 0 && shown.includes(index[f]!),
    cures: (_, __, g) => cures && g > 0,
    chance: (purpose) => (purpose === 'wrong' ? 0.5 : 0.1),
  }
}

/** Follows a list of choices, and ends when it is used up. */
function follow(choices: Choice[]) {
  const left = [...choices]
  return () => left.shift() ?? ({ kind: 'end', index: 0 } as const)
}

async function course(
  own: DrawnTool,
  choices: Choice[],
  more: Partial<CourseInput> = {},
  knowledge: Knowledge = book,
): Promise<Course> {
  const prepared = await prepare(knowledge)
  return runCourse({ prepared, kind: KIND, shop: figures, tool: own, policy: follow(choices), ...more })
}

const look: Choice = { kind: 'step', index: 2 }
const newBrush: Choice = { kind: 'fix', index: 0 }
const newCord: Choice = { kind: 'fix', index: 1 }

describe('a course', () => {
  it('pays set-ups once while they stand, then the fix and its parts', async () => {
    const { end, cost, minutes, screens, fixes } = await course(tool([0], ['slow', 'worn']), [look, newBrush])
    // look: 4 + 1 + 3 minutes; the set-ups stand, so the fix is 5 minutes and 7 of parts: (8 + 5)·2 + 7
    expect({ end, cost, minutes, screens, fixes }).toEqual({
      end: 'cured',
      cost: 33,
      minutes: 13,
      screens: 1,
      fixes: 1,
    })
  })

  it('puts the tool together for the test run after a fix that does not cure, and pays for the next set-up', async () => {
    const own = tool([1], ['slow'])
    const { end, cost } = await course(own, [newBrush, newCord])
    // (5 + 4)·2 + 7, then (6 + 1)·2
    expect({ end, cost }).toEqual({ end: 'cured', cost: 39 })
  })

  it('sends in for fee, carriage and the days without', async () => {
    const { end, cost } = await course(tool([0], ['slow']), [])
    expect({ end, cost }).toEqual({ end: 'sent-in', cost: 50 + 3 * 4 })
  })

  it('buys a new one after all where the service can fix nothing', async () => {
    expect((await course(tool([2], []), [])).cost).toBe(62 + 200)
  })

  it('retires for the price of a new one', async () => {
    const { end, cost } = await course(tool([2], []), [{ kind: 'end', index: 1 }])
    expect({ end, cost }).toEqual({ end: 'retired', cost: 200 })
  })

  it('ends at a danger at once, for what it then costs', async () => {
    const { end, cost, stops, screens } = await course(tool([1], ['shock']), [look])
    expect({ end, cost, stops, screens }).toEqual({
      end: 'set-aside',
      cost: 62,
      stops: ['live-case'],
      screens: 0,
    })
  })

  it('tells two things unasked, and says can’t tell of what a dead tool hides', async () => {
    const { trail } = await course(tool([0], ['slow', 'dead', 'sparks', 'worn']), [look])
    expect(trail.filter((word) => word.startsWith('+'))).toEqual(['+slow', '+dead', '+worn'])
  })

  it('turns answers round where the chance falls under the share, but not the complaint', async () => {
    const own = tool([0], ['slow', 'worn'])
    const { trail } = await course(own, [look], { wrong: 0.6 })
    expect(trail).toContain('+slow') // told
    expect(trail).toContain('+shock') // asked: it is not so
    expect(trail).not.toContain('+worn')
  })

  it('tells of every act what it cost, asking and ending too', async () => {
    const acts: Act[] = []
    await course(tool([0], ['slow'], false), [look, newBrush], { onAct: (act) => acts.push(act) })
    expect(acts.map(({ choice, cost }) => [choice.kind, cost])).toEqual([
      ['step', 16],
      ['fix', 17],
      ['end', 62],
    ])
  })

  it('does not go round for ever', async () => {
    const stubborn = tool([0], [], false)
    const again: Choice[] = Array.from({ length: 500 }, () => look)
    await expect(course(stubborn, again)).rejects.toThrow('did not come to an end')
  })
})
