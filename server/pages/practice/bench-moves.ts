/** Everything that can be done at the practice bench, named and priced, in the groups of its pages. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Currency } from '../../../shared/figures.js'
import type { Fix, Knowledge, Step } from '../../../shared/knowledge.js'
import type { PracticeMove } from '../../../shared/practice.js'
import type { Desk, BenchState } from '../../practice/desk.js'
import { findingsAt } from '../../practice/desk.js'
import { liftable } from '../../practice/plan-at.js'
import { priceOf } from '../../practice/prices.js'
import { moneyIn } from '../layout/money.js'
import { minutes } from '../layout/words.js'
import { answersOf, onlyAnswer } from './known-answers.js'
import { keyOf } from './move-key.js'
import { endWords, lowered, moveAsAdvice, undoneWords } from './move-words.js'
import { partOfFix, partOfStep } from './part-of.js'

export const groupIds = ['safe', 'ask', 'look', 'test', 'mend', 'end'] as const
export type GroupId = (typeof groupIds)[number]

export interface BenchMove {
  /** the value that the form sends */
  readonly key: string
  readonly name: string
  readonly group: GroupId
  /** the part of the tool that it is about, by its id; empty where it is about none */
  readonly part: string
  /** "about 3 minutes, €8"; empty where it costs nothing or prices are hidden */
  readonly price: string
  /** what was told of it before, as lines */
  readonly said: readonly string[]
  /** the questions that can be put one by one */
  readonly single: readonly Omit<BenchMove, 'group' | 'part' | 'single' | 'hasHow' | 'find'>[]
  /** can be opened: how it is done, with its drawing */
  readonly hasHow: boolean
  /** other words that find it */
  readonly find: readonly string[]
}

/** What an exercise hides, and in what money its prices are. */
export interface Showing {
  readonly hidePrices: boolean
  readonly currency: Currency
}

/** The price of a move as things stand, missing set-ups included; empty for nothing, and where prices are hidden. */
export function priceWords({ hidePrices, currency }: Showing, price: { minutes: number; parts: number }) {
  if (hidePrices) return ''
  const parts = price.parts > 0 ? moneyIn(price.parts, currency) : ''
  return [price.minutes > 0 ? minutes(price.minutes) : '', parts].filter(Boolean).join(', ')
}

/**
 * The whole list, the same for every tool of a kind about which as much is known: nothing of it looks at what is
 * hidden.
 *
 * @param knowledge the whole rulebook: a level's own leaves out causes, and with them what its repairs are for
 */
export async function benchMoves(
  knowledge: Knowledge,
  desk: Desk,
  standing: BenchState,
  showing: Showing,
): Promise<BenchMove[]> {
  const { model } = desk.kind
  const book = bookOf(knowledge, model.kind.id)
  const named = (
    move: Exclude<PracticeMove, { type: 'spread' }>,
    group: GroupId,
    name: string,
  ): BenchMove => ({
    key: keyOf(move),
    name,
    group,
    part: '',
    price: priceWords(showing, priceOf(model, standing.situation.standing, move)),
    said: [],
    single: [],
    hasHow:
      move.type === 'tried' ||
      (move.type === 'looked' && model.steps.some((it) => it.id === move.step && it.how.length > 0)),
    find: [],
  })
  const stops = liftable((await findingsAt(desk, standing.situation)).stops)
  const steps = model.steps.map((step) => ofStep(desk, standing, step, named, partOfStep(book, step)))
  const fixes = model.fixes.map((fix) => ofFix(standing, fix, named, partOfFix(book, fix.id)))
  const safe: BenchMove[] = [
    ...model.setups.map((setup) =>
      standing.situation.standing.includes(setup.id)
        ? named({ type: 'put-back', setup: setup.id }, 'safe', undoneWords(setup))
        : named({ type: 'stood', setup: setup.id }, 'safe', setup.name),
    ),
    ...steps.filter(({ group }) => group === 'safe'),
    named({ type: 'disinfected' }, 'safe', 'Clean and disinfect it'),
    ...stops.map(({ id }) => {
      const move = { type: 'made-safe', stop: id } as const
      return named(move, 'safe', moveAsAdvice(desk, move))
    }),
  ]
  const habits = book.slips.flatMap(({ id, offers, offeredAmong = 'mend', offeredAt = '' }) =>
    offers === undefined
      ? []
      : [{ ...named({ type: 'dared', act: id }, offeredAmong, offers), part: offeredAt }],
  )
  return [
    ...safe,
    ...among([...steps.filter(({ group }) => group !== 'safe'), ...fixes], habits),
    ...ends(desk, showing, named),
  ]
}

type Named = (move: Exclude<PracticeMove, { type: 'spread' }>, group: GroupId, name: string) => BenchMove

function ofStep(desk: Desk, standing: BenchState, step: Step, named: Named, part: string): BenchMove {
  const look = (question?: string) =>
    ({ type: 'looked', step: step.id, ...(question !== undefined && { question }) }) as const
  const group = groupOf(step)
  const single =
    step.questions.length < 2
      ? []
      : step.questions.map(({ id, text }) => {
          const { key, name, price } = named(look(id), group, text)
          return { key, name, price, said: onlyAnswer(desk, standing, id) }
        })
  return {
    ...named(look(), group, step.title),
    part,
    said: answersOf(desk, standing, step),
    single,
    find: step.questions.flatMap(({ text, statement, words }) => [text, statement, ...words]),
  }
}

const instrument = /(meter|tester|ruler)$/

/** Talk; a look at a tool at rest; or a test: it runs, or something is measured. */
function groupOf({ form, power, questions, tools }: Step): GroupId {
  if (form === 'danger') return 'safe'
  if (form === 'ask') return 'ask'
  const measured = questions.some(({ kind }) => kind === 'number') || tools.some((it) => instrument.test(it))
  return power || measured ? 'test' : 'look'
}

function ofFix({ situation }: BenchState, fix: Fix, named: Named, part: string): BenchMove {
  const move = named({ type: 'tried', fix: fix.id }, 'mend', fix.name)
  const parts = fix.parts.map(({ name }) => name)
  const said = situation.fixesTried.includes(fix.id) ? ['Done: the trouble went on'] : []
  return { ...move, part, said, find: [...parts, ...fix.tools] }
}

/** A bad habit stands after the first honest move on its part, where a hand would come upon it. */
function among(honest: readonly BenchMove[], habits: readonly BenchMove[]): BenchMove[] {
  const moves = [...honest]
  for (const habit of habits) {
    const at = moves.findIndex(({ group, part }) => group === habit.group && part === habit.part)
    moves.splice(at < 0 ? moves.length : at + 1, 0, habit)
  }
  return moves
}

function ends({ shop }: Desk, { hidePrices, currency }: Showing, named: Named): BenchMove[] {
  const ways = [
    { way: 'hand-back', cost: '' },
    { way: 'send-in', cost: `fee and carriage ${moneyIn(shop.sendIn, currency)}` },
    { way: 'set-aside', cost: `another one for it ${moneyIn(shop.replace, currency)}` },
  ] as const
  return ways.map(({ way, cost }) => ({
    ...named({ type: 'ended', way }, 'end', endWords[way].advice),
    price: hidePrices ? '' : cost,
  }))
}

/** "Plugged in, blade off, body closed": how every part of it stands that a hand takes off, opens or pulls. */
export function standsWords({ kind: { model } }: Desk, { situation }: BenchState): string {
  const words = model.setups.map((setup) =>
    situation.standing.includes(setup.id) ? setup.name : (setup.without ?? undoneWords(setup)),
  )
  return words.map((it, k) => (k === 0 ? it : lowered(it))).join(', ')
}
