/**
 * The order of work as a senior barber keeps it, over the guided flow of a dozen complaints. Each is answered
 * as one single fault would show.
 *
 * Source of every expected value here: common practice, no source.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Step } from '../../shared/knowledge.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const shop = ShopSettings.parse({})
const strengthOf = (finding: string, fault: string): number => {
  const strength = knowledge.findings.find(({ id }) => id === finding)?.strengths[fault] ?? 0
  return typeof strength === 'number' ? strength : 0
}

/** Screens looked at after the danger signs. */
const screens = 6

interface Walk {
  readonly fault: string
  readonly told: readonly string[]
  readonly steps: readonly Step[]
  readonly asked: readonly string[]
  readonly last: Assessment
}

const complaints: readonly (readonly [fault: string, ...told: string[]])[] = [
  ['worn-brushes', 'cuts-in-and-out'],
  ['broken-cord', 'cuts-in-and-out'],
  ['worn-brushes', 'wont-start'],
  ['dead-outlet', 'wont-start'],
  ['broken-switch', 'wont-start'],
  ['seized-bearing', 'hums-no-motion'],
  ['dry-bearing', 'hot-near-head'],
  ['blocked-vents', 'hot-all-over', 'slows-down'],
  ['dull-blade', 'pulls-or-snags'],
  ['rounded-drive-lever', 'blade-wobbles'],
  ['stiff-gear-grease', 'slows-down', 'whine-at-nose'],
  ['dry-blade', 'blade-gets-hot', 'louder-than-before'],
  ['misseated-blade', 'motor-runs-blade-still', 'after-blade-refit'],
  ['broken-tooth', 'leaves-lines'],
]

async function walk(prepared: Prepared, [fault, ...told]: (typeof complaints)[number]): Promise<Walk> {
  const situation = Situation.parse({
    kind: 'universal-motor',
    answers: Object.fromEntries(told.map((question) => [question, 'yes'])),
  })
  const steps: Step[] = []
  const asked: string[] = []
  let last = await assess(prepared, situation, shop)
  for (let screen = 0; screen <= screens; screen++) {
    const step = knowledge.steps.find(({ id }) => id === last.next.id)
    if (!step) break
    steps.push(step)
    for (const question of last.next.questions) {
      asked.push(question)
      const shows = strengthOf(question, fault) >= 0.5
      // Brushes are good unless they are the fault, and nobody here has a twin to compare the draw with.
      if (question === 'brush-length') situation.answers[question] = fault === 'worn-brushes' ? 4 : 10
      else if (question === 'no-load-draw') situation.answers[question] = 'cant-tell'
      else situation.answers[question] = shows ? 'yes' : 'no'
    }
    last = await assess(prepared, situation, shop)
  }
  return { fault, told, steps, asked, last }
}

let walks: readonly Walk[]
beforeAll(async () => {
  const prepared = await preparedRulebook()
  const done: Walk[] = []
  for (const complaint of complaints) done.push(await walk(prepared, complaint))
  walks = done
})

const walksTold = (complaint: string) => walks.filter(({ told }) => told.includes(complaint))
const name = ({ fault, told, steps }: Walk) =>
  `${fault} (${told.join(', ')}): ${steps.map(({ id }) => id).join(' > ')}`

describe('the order of work (common practice, no source)', () => {
  it('danger is looked at before anything else', () => {
    for (const one of walks) {
      expect(one.steps[0]?.form, name(one)).toBe('danger')
      expect(
        one.steps.slice(1).some(({ form }) => form === 'danger'),
        name(one),
      ).toBe(false)
    }
  })

  it('no screw comes out before something was asked or looked at from outside', () => {
    const opens = ['brush-caps-out', 'gear-cover-off', 'body-open']
    for (const one of walks)
      expect(one.steps[1]?.setups.some((setup) => opens.includes(setup)) ?? false, name(one)).toBe(false)
  })

  it('nothing is asked twice, and nothing that this shop cannot do', () => {
    for (const one of walks) {
      expect(new Set(one.asked).size, name(one)).toBe(one.asked.length)
      expect(
        one.steps.filter(({ skill }) => skill === 'S3' || skill === 'S4'),
        name(one),
      ).toEqual([])
    }
  })

  it('a dead tool is not asked how it cuts, sounds or heats, nor about the edge and oil of its blade', () => {
    const dead = walksTold('wont-start')
    expect(dead.length).toBeGreaterThan(2)
    const running = knowledge.findings.filter((finding) => finding.running).map(({ id }) => id)
    const edge = ['light-under-blade', 'grind-uneven', 'oil-overdue', 'after-sharpening', 'drive-tip-worn']
    for (const one of dead) {
      expect(
        one.asked.filter((question) => [...running, ...edge].includes(question)),
        name(one),
      ).toEqual([])
      expect(['oil-blade', 'swap-blade', 'slower-feed'], name(one)).not.toContain(one.last.next.id)
    }
  })

  it('a tool that only hums is not run before its drive was turned by hand', () => {
    for (const one of walksTold('hums-no-motion')) {
      const turned = one.steps.findIndex(({ questions }) => questions.some(({ id }) => id === 'shaft-locked'))
      const before = turned < 0 ? one.steps : one.steps.slice(0, turned)
      expect(
        before.filter(({ power }) => power).map(({ id }) => id),
        name(one),
      ).toEqual([])
    }
  })

  it('a missing tooth ends all running', () => {
    const [tooth] = walks.filter(({ fault }) => fault === 'broken-tooth')
    expect(tooth!.steps.slice(1).filter(({ power }) => power)).toEqual([])
  })
})

describe('hands or power, never both (common practice, no source)', () => {
  it('a check without power has its plug out, and so has every fix that takes something off', () => {
    for (const step of knowledge.steps.filter(({ form, power }) => form === 'check' && !power))
      expect(step.setups, step.id).toContain('plug-out')
    for (const fix of knowledge.fixes.filter(({ setups }) => setups.length > 0))
      expect(fix.setups, fix.id).toContain('plug-out')
  })
  it('whatever runs ends with the switch off or the plug out', () => {
    const off =
      /switch(ed)? (it )?off|unplug|plug out|pull the plug|off and locked|lock both|off at the wall|out of the wall/i
    for (const step of knowledge.steps.filter(({ power }) => power)) {
      const last = step.how.slice(-2).join(' ')
      expect(last, step.id).toMatch(off)
    }
  })
})
