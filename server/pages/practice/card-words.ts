/** The lines of a card in words: where a yes and a no lead, what a set-up and a repair are in short. */
import type { Fix, Knowledge, Question, Setup, Skill, Step } from '../../../shared/knowledge.js'
import { bookOf } from '../../../shared/book-of-kind.js'
import { comparisonsOf } from '../../../shared/conditions.js'
import type { Card, CardNode } from '../../practice/card.js'
import type { Lookup } from '../../../shared/rulebook-index.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import { partsWords } from '../case/fix-page.js'
import { minutes } from '../layout/words.js'

/** Where a line leads, piece by piece; a piece with an address is another line, a repair, or the guided flow. */
type Way = readonly { readonly words: string; readonly href: string | null }[]

interface CardLine {
  readonly number: number
  readonly question: string
  /** how the tool stands for it, how long it takes, who may do it */
  readonly facts: readonly string[]
  readonly cautions: readonly string[]
  readonly yes: Way
  /** what else a yes means, such as that it is kept off the client; empty where nothing */
  readonly yesToo: string
  readonly no: Way
}

interface CardRepair {
  readonly id: string
  readonly letter: string
  readonly name: string
  readonly facts: readonly string[]
  readonly cautions: readonly string[]
  /** the beginning of the work, with its own cautions */
  readonly how: string
  readonly href: string
}

interface CardSetup {
  readonly name: string
  readonly minutes: string
  readonly how: string
  readonly cautions: readonly string[]
}

/** What a card says, but for its head and foot. */
export interface CardLines {
  readonly start: Way
  readonly lines: readonly CardLine[]
  readonly repairs: readonly CardRepair[]
  readonly setups: readonly CardSetup[]
}

export function cardLines(knowledge: Knowledge, card: Card): CardLines {
  const book = bookOf(knowledge, card.kind)
  const lookup = lookupOf(book)
  const nodes = nodesOf(card.root)
  const fixes = [...new Set(nodes.flatMap((node) => (node.is === 'fix' ? [node.fix] : [])))]
  const letters = new Map(fixes.map((id, k) => [id, letterOf(k)]))
  const lines: CardLine[] = []
  /** @param looks the lines above on this way that took each look, since the last repair */
  const walk = (node: CardNode, looks: ReadonlyMap<string, number>): void => {
    if (node.is === 'fix') return walk(node.next, new Map())
    if (node.is !== 'question') return
    lines.push(lineOf(book, lookup, letters, node, looks.get(node.step)))
    const since = looks.has(node.step) ? looks : new Map([...looks, [node.step, node.number]])
    walk(node.yes, since)
    walk(node.no, since)
  }
  walk(card.root, new Map())
  const used = [
    ...nodes.flatMap((node) => (node.is === 'question' ? (lookup.steps.get(node.step)?.setups ?? []) : [])),
    ...fixes.flatMap((id) => lookup.fixes.get(id)?.setups ?? []),
  ]
  return {
    start: wayOf(letters, card.root),
    lines,
    repairs: fixes.map((id) => repairOf(book, lookup.fixes.get(id)!, letters.get(id)!)),
    setups: setupsNeeded(book.setups, [...new Set(used)]).map(setupOf),
  }
}

/** Every node, in the order of reading. */
export function nodesOf(node: CardNode): CardNode[] {
  if (node.is === 'question') return [node, ...nodesOf(node.yes), ...nodesOf(node.no)]
  return node.is === 'fix' ? [node, ...nodesOf(node.next)] : [node]
}

/** A to Z, then AA. */
const letterOf = (place: number): string =>
  place < 26
    ? String.fromCharCode(65 + place)
    : letterOf(Math.floor(place / 26) - 1) + String.fromCharCode(65 + (place % 26))

const repairId = (letter: string): string => `repair-${letter.toLowerCase()}`
export const guidedId = 'guided-flow'

/** "Repair B, then A. Still there: go to 4." */
function wayOf(letters: ReadonlyMap<string, string>, node: CardNode): Way {
  const row: string[] = []
  let next = node
  for (; next.is === 'fix'; next = next.next) row.push(letters.get(next.fix)!)
  const repairs = row.map((letter, k) => ({
    words: `${k === 0 ? 'Repair' : 'then'} ${letter}`,
    href: `#${repairId(letter)}`,
  }))
  const last =
    next.is === 'question'
      ? { words: `go to ${next.number}`, href: `#line-${next.number}` }
      : next.is === 'cut'
        ? { words: 'guided flow', href: `#${guidedId}` }
        : { words: next.way === 'send-in' ? 'send it in' : 'set it aside', href: null }
  if (row.length === 0) return [{ ...last, words: capital(last.words) }]
  return [...repairs, { ...last, words: `still there: ${last.words}` }]
}

type Asked = Extract<CardNode, { is: 'question' }>

/** @param before the line above on the same way that took this look */
function lineOf(
  book: Knowledge,
  { steps, questions, findings, stops }: Lookup,
  letters: ReadonlyMap<string, string>,
  node: Asked,
  before: number | undefined,
): CardLine {
  const step = steps.get(node.step)!
  const { question } = questions.get(node.question)!
  const finding = findings.get(node.finding)!
  const keptOff = [...stops.values()].some(
    ({ grade, when }) =>
      grade === 'off-the-client' && comparisonsOf(when).some(({ fact }) => fact === node.finding),
  )
  return {
    number: node.number,
    question: questionWords(question, finding.says),
    facts: before === undefined ? factsOf(book, step) : [`the look of ${before}`],
    cautions: before === undefined ? step.cautions.slice(0, 1).map(firstSentence) : [],
    yes: wayOf(letters, node.yes),
    yesToo: keptOff ? 'Off the client until it is put right.' : '',
    no: wayOf(letters, node.no),
  }
}

/** A reading is asked as what it would mean. */
const questionWords = ({ kind, text }: Question, says: string): string =>
  kind === 'yes-no' ? text : `Measure: ${text} Yes means: ${says.charAt(0).toLowerCase()}${says.slice(1)}.`

function factsOf(book: Knowledge, { setups, power, minutes: takes, skill, form }: Step): string[] {
  return [
    ...standing(book, setups, power),
    ...(form === 'ask' && takes < 0.75 ? [] : [minutes(takes).replace('about ', '')]),
    ...handOf(skill),
  ]
}

/** Set-ups outermost first, so that the plug comes before anything that is opened. */
function standing(book: Knowledge, setups: readonly string[], power: boolean): string[] {
  const names = setupsNeeded(book.setups, setups).map(({ name }) => name)
  if (names.length > 0) return [names.join(', then ').concat(power ? '; then it runs' : '')]
  return power ? ['put together, it runs'] : []
}

const hands = { S1: null, S2: 'trained hand', S3: 'bench hand', S4: 'specialist' } as const satisfies Record<
  Skill,
  string | null
>
const handOf = (skill: Skill): string[] => (hands[skill] === null ? [] : [hands[skill]])

function repairOf(book: Knowledge, fix: Fix, letter: string): CardRepair {
  return {
    id: repairId(letter),
    letter,
    name: fix.name,
    facts: [
      ...standing(book, fix.setups, false),
      minutes(fix.minutes).replace('about ', ''),
      ...handOf(fix.skill),
      ...(fix.parts.length > 0 ? [partsWords(fix)] : []),
      ...(fix.safetyTest ? ['electrical safety test after it'] : []),
    ],
    cautions: fix.cautions.slice(0, 1),
    how: shortHow(fix),
    href: `/rulebook/fixes/${fix.id}`,
  }
}

/** Letters that the short how of a repair, and of a set-up, may fill. */
const roomForRepair = 120
const roomForSetup = 230

/** The first sentences of its steps as far as they fit; a step is never told without its caution. */
const shortHow = ({ steps }: Fix): string =>
  fitting(
    steps.map(({ do: words, caution }) =>
      [firstSentence(words), ...(caution === undefined ? [] : [firstSentence(caution)])].join(' '),
    ),
    roomForRepair,
  )

/** The first of these as far as there is room; the very first at any length. */
function fitting(texts: readonly string[], room: number): string {
  let all = ''
  for (const text of texts) {
    if (all !== '' && all.length + text.length > room) break
    all = all === '' ? text : `${all} ${text}`
  }
  return all
}

const firstSentence = (text: string): string => /^.*?[.!?](?=\s|$)/.exec(text)?.[0] ?? text
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

/** What a set-up needs comes before it in the list, and so is not said again. */
function setupOf({ name, minutes: takes, how, cautions, withPower }: Setup): CardSetup {
  const back = how.findIndex((line) => line.startsWith('To go back'))
  return {
    name,
    minutes: minutes(takes).replace('about ', ''),
    how: fitting(
      how.slice(0, back < 0 ? how.length : back).flatMap((line) => line.split(/(?<=[.!?]) /)),
      roomForSetup,
    ),
    // what bares live or sharp insides has two dangers at least
    cautions: cautions.slice(0, withPower ? 1 : 2).map(firstSentence),
  }
}
