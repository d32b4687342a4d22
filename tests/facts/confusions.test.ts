/**
 * Twenty confusions that a good flow of questions keeps apart (confusions-table.ts): the question it names splits
 * the rivals, both ways; cheap tests come before any opening of the body; and the flow, from the complaint alone,
 * gets to the question and to the fault.
 *
 * Source of every expected value here: common practice, no source, or the records named in the table.
 */
import { describe, expect, it } from 'vitest'
import type { Answer } from '../../shared/situation.js'
import type { Confusion } from './confusions-table.js'
import { confusions } from './confusions-table.js'
import type { Walk } from './confusions-walk.js'
import { beliefsIn, KindBook, nameOf, walk } from './confusions-walk.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const books = knowledge.kinds.map(({ id }) => new KindBook(knowledge, id))
const prepared = await preparedRulebook()

/** The complaint that this fault shows most, of those of the confusion; undefined where it shows none. */
function complaintOf(own: KindBook, { told }: Confusion, cause: string): string | undefined {
  const shown = told.filter((finding) => own.points(finding, cause))
  return shown.sort((a, b) => own.chance(b, cause) - own.chance(a, cause))[0]
}

const concerns = (own: KindBook, { where }: Confusion): boolean => where === undefined || own.has(where)
const rivalsIn = (own: KindBook, confusion: Confusion): readonly string[] =>
  concerns(own, confusion)
    ? confusion.rivals.filter((cause) => own.has(cause) && complaintOf(own, confusion, cause) !== undefined)
    : []

/** Rivals, likeliest first. */
async function ranked(own: KindBook, rivals: readonly string[], answers: Record<string, Answer>) {
  const { order } = await beliefsIn(prepared, own.kind, answers)
  return order.filter((id) => rivals.includes(id))
}

/** Every splitter in every kind that has rivals on both sides of it. */
const splits = confusions.flatMap((confusion) =>
  books.flatMap((own) =>
    confusion.splitters.flatMap((splitter) => {
      const rivals = splitter.among?.filter(own.has) ?? rivalsIn(own, confusion)
      const both = new Set(rivals.map((cause) => splitter.pointsTo.includes(cause))).size === 2
      return both && concerns(own, confusion) && own.finding(splitter.finding)
        ? [{ confusion, own, splitter, rivals }]
        : []
    }),
  ),
)
const titled = splits.map((split) => ({
  ...split,
  title: `${split.confusion.no} ${split.confusion.looks}, ${split.own.kind}: ${split.splitter.finding}`,
}))

describe('the question it names splits the rivals', () => {
  it('in every kind that has two of them, and one of the questions needs no opening', () => {
    for (const own of books)
      for (const confusion of confusions) {
        if (rivalsIn(own, confusion).length < 2) continue
        const here = splits.filter((split) => split.own === own && split.confusion === confusion)
        expect.soft(here.length, `${confusion.no} in ${own.kind}`).toBeGreaterThan(0)
        const outside = here.filter(({ splitter }) =>
          own.askedBy(splitter.finding).every((act) => !own.opens(act)),
        )
        expect.soft(outside.length, `${confusion.no} in ${own.kind}, without opening`).toBeGreaterThan(0)
      }
  })

  it.each(titled)('$title', async ({ confusion, own, splitter, rivals }) => {
    const told = own.answers(splitter.told ?? confusion.told.slice(0, 1), splitter.ruledOut)
    const other = { ...own.answer(splitter.finding, false), ...own.answers(splitter.otherwise) }
    const yes = await ranked(own, rivals, { ...told, ...own.answer(splitter.finding, true) })
    const no = await ranked(own, rivals, { ...told, ...other })
    expect.soft(splitter.pointsTo, `yes: ${yes.join(' > ')}`).toContain(yes[0])
    expect.soft(splitter.pointsTo, `no: ${no.join(' > ')}`).not.toContain(no[0])
  })
})

/** One rival of each confusion is walked, another place in its list each time; the splits above hold for all of them. */
const walks = confusions.flatMap((confusion) => {
  const having = books.filter((own) => rivalsIn(own, confusion).length > 1)
  const walkable = confusion.rivals.filter((cause) =>
    having.some((own) => rivalsIn(own, confusion).includes(cause)),
  )
  const fault = walkable[confusion.no % walkable.length]
  if (fault === undefined) return []
  const own = having.filter((one) => rivalsIn(one, confusion).includes(fault))
  const kind = own[confusion.no % own.length]!
  const told = complaintOf(kind, confusion, fault)!
  return { confusion, own: kind, fault, told, title: `${confusion.no} ${kind.kind}: ${fault} (${told})` }
})

/** Walks done, for what holds over all of them. */
const walked: { readonly confusion: Confusion; readonly own: KindBook; readonly done: Walk }[] = []

describe('the flow, from the complaint alone', () => {
  it.each(walks)('$title', async ({ confusion, own, fault, told }) => {
    const done = await walk(prepared, own, fault, told)
    walked.push({ confusion, own, done })
    const opened = done.course.findIndex((act) => own.opens(act))
    const outside = [...confusion.splitters.map(({ finding }) => finding), ...confusion.order.flat()]
    const asked = outside.flatMap((finding) => done.settled.get(finding) ?? [])
    const inTime = opened < 0 || asked.some((place) => place < opened)
    expect.soft(inTime, `opened before it was asked: ${nameOf(done)}`).toBe(true)
  })

  // A walk in fifty may be given up too early: the plan prices the person's minutes, and what is left is rare.
  it('ends well, nearly always', () => {
    const badly = walked.filter(({ own, done }) => !endsWell(own, done)).map(({ done }) => nameOf(done))
    expect(badly.length, badly.join('\n')).toBeLessThanOrEqual(Math.ceil(walked.length / 50))
  })

  it('names most of the faults, and sends in or stops at the others', () => {
    const came = walked.filter(({ done }) => named(done)).length
    const first = walked.filter(({ done }) => done.end.causes[0]!.id === done.fault).length
    console.info(`${walked.length} walks: ${came} came to the fault, ${first} with it as the likeliest`)
    expect(came / walked.length).toBeGreaterThan(0.9)
    expect(first / walked.length).toBeGreaterThan(0.8)
  })

  // The plan weighs what a check tells against its cost, so a strong sign may turn two checks round.
  it('keeps three in four of all these orders', () => {
    const all = confusions.flatMap(inOrder)
    const count = (number: (pair: (typeof all)[number]) => number) =>
      all.reduce((sum, pair) => sum + number(pair), 0)
    const [turned, of] = [count((pair) => pair.turned.length), count((pair) => pair.of)]
    console.info(`checks in the order of the trade: ${of - turned} of ${of}`)
    // few walks are left here; of five times as many, 10 of 12 kept the order (2026-11-29)
    expect(turned).toBeLessThanOrEqual(Math.ceil(of / 4))
  })
})

/** Of each two groups of checks: in how many walks both came, and those in which the later came first. */
function inOrder(confusion: Confusion) {
  return pairs(confusion.order).map(([early, late]) => {
    const both = walked
      .filter((one) => one.confusion === confusion)
      .map(({ done }) => ({ done, first: firstOf(done, early), second: firstOf(done, late) }))
      .filter(({ first, second }) => first >= 0 && second >= 0)
    const turned = both.filter(({ first, second }) => first > second).map(({ done }) => done)
    return { early, late, turned, of: both.length }
  })
}

const pairs = <T>(list: readonly T[]): (readonly [T, T])[] =>
  list.flatMap((early, k) => list.slice(k + 1).map((late) => [early, late] as const))

/** Where in the course the first of these was settled; -1 where none was, or before it began. */
function firstOf({ settled }: Walk, findings: readonly string[]): number {
  const places = findings.flatMap((finding) => settled.get(finding) ?? []).filter((place) => place >= 0)
  return places.length === 0 ? -1 : Math.min(...places)
}

/** It came to the fix for the fault, or ended with the fault as the likeliest. */
const named = ({ fault, cure, end }: Walk): boolean => cure !== undefined || end.causes[0]!.id === fault

/** Named; or a danger ended it; or it goes to a service, and nothing from outside would have cured it. */
function endsWell(own: KindBook, done: Walk): boolean {
  const { next } = done.end
  const step = next.step === 'offer' ? next.outlook!.ending : next.step
  if (named(done) || step === 'stop') return true
  const outside = own.book.fixes.some(
    (fix) => (fix.cures[done.fault] ?? 0) >= 0.5 && fix.skill <= 'S2' && !own.opens(fix),
  )
  return (step === 'send-in' || step === 'retire') && !outside
}
