/**
 * Handling is a cause too: put back wrong, another supply, blade not seated, hair wet, fed too fast, a lock that is on,
 * a cold room. It is asked early, without blame and without a tool in hand, and it ends with a fix from outside.
 *
 * Source of every expected value here: common practice, no source. In 21 of 238 repairs that others told the tool was
 * not broken but handled (our reading of them).
 */
import { describe, expect, it } from 'vitest'
import { questionOf } from '../../shared/finding-rule.js'
import { KindBook, nameOf, walk } from './confusions-walk.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const books = knowledge.kinds.map(({ id }) => new KindBook(knowledge, id))
const prepared = await preparedRulebook()

/** What was done, and what people then say. */
const handled: readonly (readonly [cause: string, told: string])[] = [
  ['misseated-blade', 'pulls-or-snags'],
  ['wet-or-dirty-hair', 'pulls-or-snags'],
  ['forced-feed', 'stalls-in-hair'],
  ['pressed-skin', 'reddens-or-nicks-skin'],
  ['wrong-supply', 'slows-down'],
  ['travel-lock', 'wont-start'],
]
/** Each in two of the kinds that have it, others each time. */
const cases = handled.flatMap(([cause, told], turn) => {
  const having = books.filter((own) => own.has(cause) && own.finding(told))
  const two = new Set([having[turn % having.length]!, having[(turn + 3) % having.length]!])
  return [...two].map((own) => ({ own, cause, told, title: `${own.kind}: ${cause} (${told})` }))
})

describe.each(books.map((own) => ({ own, kind: own.kind })))('$kind', ({ own }) => {
  const story = own.book.steps.find(({ id }) => id === 'how-it-was-used')

  it('is asked by word of mouth, before anything is checked', () => {
    expect(story).toMatchObject({ form: 'ask', power: false, skill: 'S1', setups: [] })
    const checks = own.book.steps.filter(({ form }) => form === 'check')
    expect(Math.min(...checks.map(({ order }) => order))).toBeGreaterThan(story!.order)
  })
  it('asks for seat, control, supply, wet hair, one hand and cold', () => {
    const asked = own.book.steps.filter(({ form }) => form === 'ask').flatMap(({ questions }) => questions)
    for (const about of [
      'back-in-hurry',
      'control-elsewhere',
      'after-other-supply',
      'bad-only-in-wet-hair',
      'one-users-hands',
      'cold-room',
    ])
      expect(asked.map(({ id }) => id)).toContain(about)
  })
  it('blames nobody', () => {
    const said = JSON.stringify(story)
    expect(said).not.toMatch(/\b(fault of|your fault|blame on|mistake|careless|wrongly|misuse)\b/i)
  })
  it('tells handling from wear: a yes to each raises a cause that is no broken part', () => {
    const about = own.book.findings.filter((finding) =>
      story!.questions.some(({ id }) => id === questionOf(finding)),
    )
    expect(about.length).toBeGreaterThanOrEqual(6)
    for (const finding of about) expect(finding.because.length, finding.id).toBeGreaterThan(20)
  })
})

describe('from the complaint alone', () => {
  it.each(cases)(
    '$title ends with a fix from outside, and nothing is opened for it',
    async ({ own, cause, told }) => {
      const done = await walk(prepared, own, cause, told)
      const opened = done.course.filter((act) => own.opens(act))
      expect
        .soft(
          opened.map(({ id }) => id),
          nameOf(done),
        )
        .toEqual([])
      if (done.end.next.step !== 'stop') expect.soft(done.cure, nameOf(done)).toBeDefined()
    },
  )
})
