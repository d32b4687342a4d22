/**
 * Facts of the trade, from answers to the page that the hands read.
 *
 * Source of every expected value here: common practice, no source. A pattern stands for the meaning, not for
 * one wording; a text may be rewritten freely as long as it still says the fact.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { Visitor } from '../pages/visitor.js'
import { Apprentice } from './apprentice.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
beforeAll(async () => {
  bench = await benchWith({ knowledge })
})

const apprentice = (fault: string, cannot: readonly string[] = []) =>
  new Apprentice(bench, knowledge, fault, cannot)
async function rulebookPage(path: string): Promise<string> {
  const visitor = await new Visitor(bench.app).open(`/rulebook/${path}`)
  expect(visitor.status).toBe(200)
  return visitor.words
}

/** All of it on the page, each in some sentence of it. */
function says(page: string, ...facts: RegExp[]): void {
  for (const fact of facts) expect(page).toMatch(fact)
}
const times = (page: string, what: RegExp): number => [...page.matchAll(what)].length

const wait = /wait (for )?five minutes/gi
const discharge = /switch on for five seconds, then off/gi

describe('it comes and goes, and the cord is ruled out (common practice, no source)', () => {
  it('leads to a new pair of brushes, and the page says how they go in', async () => {
    const hand = apprentice('worn-brushes', ['brush-look', 'commutator-look'])
    const fix = await hand.toTheFix(['cuts-in-and-out', 'runs-after-tap', 'came-on-slowly'], {
      'cord-flex-changes-it': 'no',
    })
    expect(fix).toBe('new-brush-pair')
    says(
      hand.visitor.words,
      /both go/i,
      /other side in the same way, with the second new brush/i,
      /scoop\w*[^.]*round the copper of the commutator/i,
      /thumb[^.]*(away )?only when you have felt it catch/i,
      /caps[^.]*flush\. They only close the brush holes; there is no setting/i,
    )
    // Told once, where the caps come off, and not again for the fix.
    expect(times(hand.visitor.words, wait)).toBe(1)
    expect(times(hand.visitor.words, discharge)).toBe(1)
  })

  it('once the caps are out, the wait is behind one and the fix does not ask for it again', async () => {
    const { visitor } = apprentice('worn-brushes')
    const home = await visitor.begin(['cuts-in-and-out', 'runs-after-tap'])
    await visitor.lookForDanger(home)
    await visitor.open(home)
    await visitor.send(`${home}/answers`, {
      step: 'brush-look',
      asked: 'brush-shorter-than-new',
      'q-brush-shorter-than-new': 'yes',
    })
    await visitor.open(home)
    expect(visitor.fix).toBe('new-brush-pair')
    expect(times(visitor.words, wait)).toBe(0)
  })

  it('left alone it one day does not start, and many a tool that was sent in had nothing else', async () => {
    says(await rulebookPage('causes/worn-brushes'), /one day it does not start at all/i)
    const hand = apprentice('worn-brushes')
    const fix = await hand.toTheFix(['cuts-in-and-out'], {
      'cord-flex-changes-it': 'no',
      'brush-length': '4',
    })
    says(await hand.cured(fix), /service with new brushes and nothing else/i)
  })
})

describe('heat near the head (common practice, no source)', () => {
  it('leads to a drop at the sprung ball in the side, then to one at least monthly', async () => {
    const hand = apprentice('dry-bearing')
    const fix = await hand.toTheFix(['hot-near-head'], { squeals: 'yes' })
    expect(fix).toBe('oil-bearing')
    says(
      hand.visitor.words,
      /ball on a spring[^.]*side of the body near the head/i,
      /press until the ball gives, let in one drop/i,
    )
    says(await hand.cured(fix), /at least every month/i)
  })
})

describe('hot all over and slow (common practice, no source)', () => {
  it('leads to the vents: brushed, or the cover off, rinsed and dried', async () => {
    const hand = apprentice('blocked-vents')
    const fix = await hand.toTheFix(['hot-all-over', 'slows-down'], { 'vents-blocked-seen': 'yes' })
    expect(fix).toBe('clear-vents')
    says(
      hand.visitor.words,
      /brush the slots/i,
      /cover off, if it comes off by hand/i,
      /rinse them[^.]*dry right through/i,
      /never the clipper; nothing damp goes back/i,
    )
  })
})

describe('a wobble, and a rounded tip (common practice, no source)', () => {
  it('leads to a new lever, and to the blade that goes on the way its manual says', async () => {
    const hand = apprentice('rounded-drive-lever')
    const fix = await hand.toTheFix(['blade-wobbles'], { 'drive-tip-worn': 'yes' })
    expect(fix).toBe('new-drive-lever')
    says(
      hand.visitor.words,
      /hook the blade on, tool off and plug out, and shut it as its manual says/i,
      /thumb behind it and clear of the teeth/i,
      /plug still out, after turning the lever to face the slot/i,
      /hard push over a lever that has missed its slot[^.]*round/i,
    )
  })
  it('the way to seat a blade says that practice differs and that the maker’s manual decides', async () => {
    says(
      await rulebookPage('fixes/reseat-blade'),
      /practice differs; the maker’s manual decides/i,
      /small wobble/i,
    )
  })
})

describe('slow until it is warm, with a whine at the gears (common practice, no source)', () => {
  it('leads to fresh grease, due twice a year, the clock changes as a reminder where there are any', async () => {
    const hand = apprentice('stiff-gear-grease')
    const fix = await hand.toTheFix(['slow-until-warm', 'whine-at-nose'], { 'hot-near-head': 'no' })
    expect(fix).toBe('renew-grease')
    says(hand.visitor.words, /grease thickens with age[^.]*half a year/i)
    says(await hand.cured(fix), /twice a year/i, /where the clocks go forward and back/i, /elsewhere/i)
  })
})

describe('the blade (common practice, no source)', () => {
  it('hot and dry: oil at three points along the edge, and disinfected between clients', async () => {
    const hand = apprentice('dry-blade')
    const fix = await hand.toTheFix(['blade-gets-hot', 'oil-overdue', 'louder-than-before'])
    expect(fix).toBe('oil-blade')
    says(hand.visitor.words, /one drop[^.]*three points along the edge/i)
    says(await hand.cured(fix), /between clients/i, /both sides/i, /disinfect[^.]*wet for the whole time/i)
  })
  it('gummed: the loose blade about ten seconds in the wash, wiped, dried, oiled, weekly or oftener', async () => {
    const hand = apprentice('gummed-blade')
    // gum drags though the blade was oiled; without that answer a minute of oil is tried before ten of washing
    const oiled = { 'better-without-blade': 'yes', 'oil-overdue': 'no' }
    const fix = await hand.toTheFix(['slows-down', 'gum-or-residue-seen'], oiled)
    expect(fix).toBe('wash-blade')
    says(
      hand.visitor.words,
      /swish it for about ten seconds/i,
      /wipe both sides/i,
      /dry in moving air/i,
      /three points along the edge/i,
      /practice differs[^.]*safer way is the loose blade only/i,
    )
    says(await hand.cured(fix), /every week, oftener in a busy shop/i)
  })
})
