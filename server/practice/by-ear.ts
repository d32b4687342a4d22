/** The lesson by ear: which sounds of a kind there are to tell apart, and which of them is played. */
import { bookOf } from '../../shared/book-of-kind.js'
import { comparisonsOf } from '../../shared/conditions.js'
import { questionOf } from '../../shared/finding-rule.js'
import type { Finding, Kind, Knowledge } from '../../shared/knowledge.js'
import { drawsFrom } from '../listening/made/draws.js'

/** What the tool does that is heard. */
const earSigns = [
  'slower',
  'faster',
  'drop-outs',
  'rhythm',
  'beat',
  'sinks',
  'droop',
  'grows',
  'fades',
] as const
export type EarSign = (typeof earSigns)[number]

/** A sound that can be told apart from the others of its kind. */
export interface EarChoice {
  /** null: it runs as it should */
  readonly sign: EarSign | null
  /** the finding that it means; null for a sound tool */
  readonly finding: Finding | null
}

/** A kind says how it sounds; without that there is nothing to make. */
export type SoundingKind = Kind & { readonly sound: NonNullable<Kind['sound']> }

/** Those in which there is something to tell apart. */
export const soundingKinds = (knowledge: Knowledge): readonly SoundingKind[] =>
  knowledge.kinds
    .filter((kind): kind is SoundingKind => kind.sound !== undefined)
    .filter(({ id }) => earChoices(knowledge, id).length > 1)

/** By what the rulebook lets a phone hear in this kind: each sign once, and the sound tool last. */
export function earChoices(knowledge: Knowledge, kind: string): readonly EarChoice[] {
  const book = bookOf(knowledge, kind)
  const heard = new Map(
    book.steps.flatMap(({ questions }) =>
      questions.flatMap(({ id, heard }) => (heard ? [[id, heard.what] as const] : [])),
    ),
  )
  const found = new Map<EarSign, Finding>()
  for (const finding of book.findings) {
    const what = heard.get(questionOf(finding) ?? '')
    if (what) for (const sign of signsOf(finding, what)) if (!found.has(sign)) found.set(sign, finding)
  }
  return [
    ...earSigns.flatMap((sign) => {
      const finding = found.get(sign)
      return finding ? [{ sign, finding }] : []
    }),
    { sign: null, finding: null },
  ]
}

/** A rate may be too low, too high, or either. */
function signsOf(
  finding: Finding,
  what: NonNullable<Knowledge['steps'][0]['questions'][0]['heard']>['what'],
) {
  if (what === 'falls') return ['sinks'] as const
  if (what !== 'rate') return [what]
  const off = comparisonsOf(finding.when).map(({ operator }) => operator)
  return [
    ...(off.some((it) => it.startsWith('less')) ? (['slower'] as const) : []),
    ...(off.some((it) => it.startsWith('greater')) ? (['faster'] as const) : []),
  ]
}

/** The sound of a number: each comes once before one comes again, in an order of its own each time. */
export function playedAs(choices: readonly EarChoice[], number: number): EarChoice {
  const draws = drawsFrom(Math.floor(number / choices.length))
  const order = choices.map((choice) => ({ choice, at: draws.unit() })).sort((a, b) => a.at - b.at)
  return order[number % choices.length]!.choice
}
