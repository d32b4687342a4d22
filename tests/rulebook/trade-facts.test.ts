/**
 * Facts of the trade that the rulebook must say, each where the hands need it.
 *
 * Source of every expected value here: common practice, no source. A pattern stands for the meaning,
 * not for one wording; a text may be rewritten freely as long as it still says the fact.
 */
import { describe, expect, it } from 'vitest'
import { knowledge } from '../the-rulebook.js'

function find<T extends { readonly id: string }>(list: readonly T[], id: string): T {
  const entry = list.find((one) => one.id === id)
  if (entry === undefined) throw new Error(`the rulebook has no readable ${id}`)
  return entry
}

/** Each step of a fix with the caution of its moment, in order. */
const stepsOf = (fix: string): string[] =>
  find(knowledge.fixes, fix).steps.map((step) => [step.do, step.caution ?? ''].join(' '))
const cautionsOf = (fix: string): string[] => [...find(knowledge.fixes, fix).cautions]
const careTold = (id: string): string[] => [...find(knowledge.care, id).how]
const careCautions = (id: string): string[] => [...find(knowledge.care, id).cautions]
const setupTold = (id: string): string[] => [...find(knowledge.setups, id).how]

/** Place of the first text that says all of it; fails where none does. */
function said(texts: readonly string[], ...meaning: RegExp[]): number {
  const place = texts.findIndex((text) => meaning.every((part) => part.test(text)))
  expect(place, `no text says ${meaning.join(' and ')} in:\n${texts.join('\n')}`).toBeGreaterThanOrEqual(0)
  return place
}

const share = (cause: string): number => find(knowledge.causes, cause).shares['universal-motor'] ?? 0

/** P(finding true | this cause alone), leak included: the noisy-OR of the rule file. */
function chance(finding: string, cause: string): number {
  const { leak, strengths } = find(knowledge.findings, finding)
  const strength = strengths[cause] ?? 0
  const ofKind = typeof strength === 'number' ? strength : (strength['universal-motor'] ?? 0)
  return 1 - (1 - leak) * (1 - ofKind)
}

/** Causes by share times chance of what was answered, likeliest first; fails where the first two tie. */
function ranked(answers: Record<string, boolean>): string[] {
  const weight = (cause: string): number =>
    Object.entries(answers).reduce(
      (product, [finding, yes]) => product * (yes ? chance(finding, cause) : 1 - chance(finding, cause)),
      share(cause),
    )
  const order = knowledge.causes.map((cause) => cause.id).sort((a, b) => weight(b) - weight(a))
  expect(weight(order[0]!), `${order[0]} and ${order[1]} tie`).toBeGreaterThan(weight(order[1]!))
  return order
}

describe('brushes (common practice, no source)', () => {
  const caught = /lock|latch|catch|caught|click/i

  it('a tool that comes and goes: brushes and cord lead, and the cord test parts them', () => {
    expect(ranked({ 'cuts-in-and-out': true }).slice(0, 2).sort()).toEqual(['broken-cord', 'worn-brushes'])
    expect(ranked({ 'cuts-in-and-out': true, 'cord-flex-changes-it': false })[0]).toBe('worn-brushes')
    expect(ranked({ 'cuts-in-and-out': true, 'cord-flex-changes-it': true })[0]).toBe('broken-cord')
  })

  it('left alone, worn brushes one day do not start it at all', () => {
    said([find(knowledge.causes, 'worn-brushes').ifIgnored], /(not|never) start|stays dead|no longer starts/i)
  })

  it('many tools that are sent in need nothing but brushes', () => {
    const others = knowledge.causes.filter((cause) => cause.id !== 'worn-brushes')
    expect(share('worn-brushes')).toBeGreaterThan(Math.max(...others.map((cause) => share(cause.id))))
    said(careTold('quarterly-brushes'), /many|often/i, /nothing (but|else)|only/i, /brush/i)
  })

  it('both brushes are replaced together', () => {
    said(stepsOf('new-brush-pair'), /\bboth (go|are (replaced|changed))|(replace|change) both/i)
    said(stepsOf('new-brush-pair'), /other side/i, /second (new )?brush/i)
    expect(
      find(knowledge.fixes, 'new-brush-pair')
        .parts.map((part) => part.name)
        .join(),
    ).toMatch(/pair/i)
    said(careTold('quarterly-brushes'), /pair/i, /both/i)
  })

  it.each(['new-brush-pair', 'free-brushes', 'new-brush-springs', 'clean-commutator'])(
    'the scooped end of a brush goes round the commutator: %s',
    (fix) => {
      said(stepsOf(fix), /scoop|hollow|curved (end|face)/i, /commutator/i)
    },
  )

  it.each(['new-brush-pair', 'free-brushes', 'new-brush-springs', 'clean-commutator'])(
    'an inner cap flies off its spring if the thumb leaves before it has caught: %s',
    (fix) => {
      said(stepsOf(fix), /inner cap/i, /thumb/i, /until|only when/i, caught, /throw|shot|shoot|flies|fly/i)
    },
  )

  it('the inner cap has caught before the outer cap goes on', () => {
    const steps = stepsOf('new-brush-pair')
    expect(said(steps, /thumb/i, caught)).toBeLessThan(said(steps, /outer cap/i))
  })

  it('the round caps at the sides close the brush holes and set nothing', () => {
    const told = [
      /caps?/i,
      /lid|cover|close/i,
      /no setting|no adjust|not adjust|nothing to (adjust|set)|sets? nothing/i,
    ]
    said(stepsOf('new-brush-pair'), ...told)
    said(setupTold('brush-caps-out'), ...told)
  })

  it('discharge and wait stand once, in the brush-cap set-up, and no fix or care repeats them', () => {
    const setup = setupTold('brush-caps-out')
    const wait = /\bwait\b[^.]*\bfive minutes\b|five minutes['’]? wait/i
    expect(setup.filter((line) => wait.test(line))).toHaveLength(1)
    const discharge = said(setup, /plug out/i, /switch on/i, /five seconds|5 s\b/i, /\boff\b/i)
    expect(discharge).toBeLessThan(said(setup, wait))
    expect(discharge).toBeLessThan(said(setup, /unscrew|cap off/i))
    const everywhere = [
      ...knowledge.fixes.flatMap((fix) => [...stepsOf(fix.id), ...fix.cautions]),
      ...knowledge.care.flatMap((care) => [...care.how, ...care.cautions]),
    ]
    expect(everywhere.length).toBeGreaterThan(300)
    expect(everywhere.filter((text) => wait.test(text) || /on for five seconds/i.test(text))).toEqual([])
    for (const fix of knowledge.fixes.filter((one) =>
      stepsOf(one.id).some((text) => /inner cap/i.test(text)),
    ))
      expect(
        fix.setups.some((setupId) => ['brush-caps-out', 'body-open'].includes(setupId)),
        fix.id,
      ).toBe(true)
  })
})

describe('drive bearing and gears (common practice, no source)', () => {
  it('a grip that heats near the head points to the dry drive bearing first', () => {
    expect(ranked({ 'hot-near-head': true })[0]).toBe('dry-bearing')
  })

  it('its drop of oil goes in through the sprung ball in the side', () => {
    said(stepsOf('oil-bearing'), /ball/i, /spring/i, /side/i, /near the head/i)
    said(stepsOf('oil-bearing'), /nozzle/i, /press/i, /ball/i, /one drop/i)
  })

  it('it gets a drop at least monthly', () => {
    const care = find(knowledge.care, 'monthly-ball-oiler')
    expect(care.every).toMatch(/at least/i)
    expect(care.everyDays).toBeLessThanOrEqual(31)
    expect(care.prevents).toContain('dry-bearing')
    expect(find(knowledge.fixes, 'oil-bearing').afterwards).toContain('monthly-ball-oiler')
  })

  it('gear grease goes stiff and drags; it is due twice a year at least', () => {
    const care = find(knowledge.care, 'twice-yearly-grease')
    expect(care.every).toMatch(/twice a year/i)
    expect(care.everyDays).toBeLessThanOrEqual(183)
    expect(care.prevents).toContain('stiff-gear-grease')
    said(care.how, /grease/i, /stiff|thick|hard/i, /gears/i, /labour|drag|strain/i)
    said(stepsOf('renew-grease'), /half a year|twice a year/i)
    expect(find(knowledge.fixes, 'renew-grease').afterwards).toContain('twice-yearly-grease')
  })

  it('the days on which clocks change are a reminder, with another for where they do not', () => {
    said(careTold('twice-yearly-grease'), /\bclocks?\b/i, /where|if/i, /elsewhere|otherwise|other places/i)
  })
})

describe('vents (common practice, no source)', () => {
  it('blocked vents make it slow and soon hot', () => {
    said([find(knowledge.causes, 'blocked-vents').description], /slow/i, /heat|hot/i, /fast|quick|soon/i)
    expect(ranked({ 'hot-all-over': true, 'slows-down': true })[0]).toBe('blocked-vents')
  })

  it('vents are brushed; a cover that comes off by hand is rinsed and dried', () => {
    const steps = stepsOf('clear-vents')
    said(steps, /brush/i, /slots|vents/i)
    const off = said(steps, /cover/i, /\boff\b/i, /by hand/i)
    const rinsed = said(steps, /rinse/i, /dry/i, /never the clipper|not the clipper/i)
    expect(rinsed).toBeGreaterThan(off)
  })
})

describe('fitting a blade (common practice, no source)', () => {
  it.each(['reseat-blade', 'new-drive-lever'])(
    'hooked on with the tool off, then shut running if the maker’s manual asks, else with the lever at its slot: %s',
    (fix) => {
      const steps = stepsOf(fix)
      const hooked = said(steps, /hook|hang/i, /tool off|switched off/i, /plug out|unplugged/i)
      const running = said(
        steps,
        /manual|maker/i,
        /running|switch on/i,
        /thumb/i,
        /(behind|clear of) (it|the teeth)/i,
      )
      const lined = said(
        steps,
        /plug (still )?(out|stays out)/i,
        /lever/i,
        /fac(e|es|ing)|opposite|line/i,
        /slot/i,
      )
      expect(running).toBeGreaterThanOrEqual(hooked)
      expect(lined).toBeGreaterThanOrEqual(hooked)
    },
  )

  it('shut over a lever that missed its slot, a blade wears the tips round and later wobbles', () => {
    const forced = [/force|press|push/i, /out of line|missed|not (in line|opposite|facing)/i, /round/i]
    const wobble = /(small|slight|little) wobble|wobbles? a little/i
    said(stepsOf('reseat-blade'), ...forced, /tip/i, wobble)
    said([find(knowledge.causes, 'rounded-drive-lever').description], ...forced, /tip/i, wobble)
    said(find(knowledge.setups, 'blade-off').back, ...forced, /tip/i, wobble)
    const { leak } = find(knowledge.findings, 'blade-wobbles')
    expect(chance('blade-wobbles', 'rounded-drive-lever')).toBeGreaterThan(5 * leak)
  })

  it('where practice differs on fitting, the maker’s manual decides', () => {
    said(stepsOf('reseat-blade'), /practice differs/i, /manual decides/i)
  })
})

describe('blade care (common practice, no source)', () => {
  it('the blade is brushed on both sides', () => {
    said(stepsOf('brush-out-hair'), /brush/i, /both sides/i)
    said(careTold('after-every-client'), /brush/i, /both sides/i)
  })

  it('loose blades are washed weekly or oftener for about ten seconds, wiped, dried and oiled', () => {
    const care = find(knowledge.care, 'weekly-blade-clean')
    expect(care.everyDays).toBeLessThanOrEqual(7)
    expect(care.every).toMatch(/oftener|more often/i)
    const washed = said(care.how, /loose blade/i, /cleaner/i, /about ten seconds/i)
    const wiped = said(care.how, /wipe/i, /dry/i)
    const oiled = said(care.how, /oil/i, /three points/i)
    expect(washed < wiped && wiped < oiled).toBe(true)
    said(stepsOf('wash-blade'), /cleaner/i, /about ten seconds/i)
  })

  it('oil goes on at three points along the edge', () => {
    const points = [/one drop/i, /three points/i, /along the edge/i]
    said(stepsOf('oil-blade'), ...points)
    said(stepsOf('wash-blade'), ...points)
    said(careTold('after-every-client'), ...points)
  })

  it('blades are disinfected between clients, as the label says and for its whole time', () => {
    const care = find(knowledge.care, 'after-every-client')
    expect(care.every).toMatch(/between clients/i)
    const cleaned = said(care.how, /brush/i)
    const disinfected = said(care.how, /disinfect/i, /label/i, /whole time|full time/i)
    const oiled = said(care.how, /oil/i)
    expect(cleaned < disinfected && disinfected < oiled).toBe(true)
  })
})

describe('risky habits: the safer way, that practice differs, and who decides (common practice, no source)', () => {
  const differs = /practice differs/i
  const dipped = [/running/i, /wash|cleaner/i, /motor/i, /safer/i, /loose blade only|only the loose blade/i]
  const decides = /(book|maker|label)[^.]*decide/i

  it('dipping a blade that runs on the clipper', () => {
    said(cautionsOf('wash-blade'), ...dipped, differs, decides)
    said(careCautions('weekly-blade-clean'), ...dipped, differs, decides)
  })

  it('spraying a running blade', () => {
    said(careCautions('after-every-client'), /spray/i, /runs/i, /plug out/i, differs, decides)
    said(cautionsOf('rest-and-rotate'), /spray/i, /running blade/i, differs, /label/i)
  })

  it('trying an edge or a gap on skin', () => {
    said(cautionsOf('reseat-blade'), /tissue|hank/i, /own arm|own skin/i, /cuts/i)
    said(stepsOf('set-cutter-back'), /tissue/i, /never on skin/i)
  })

  it('oiling a running blade', () => {
    said(stepsOf('oil-blade'), /oil/i, /running blade/i, /switched off/i, differs, decides)
  })
})
