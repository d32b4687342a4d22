import type { Kind, Knowledge, Sign } from '../../../shared/knowledge.js'
import { identify, tellingApart } from '../../identify/identify.js'
import type { Identification } from '../../identify/identify.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { changeHref, fieldsOf, identifyPath, mayHurtField, signField } from '../../forms/identify-form.js'
import type { SaidOfSigns } from '../../forms/identify-form.js'
import type { Drawing } from '../layout/line-drawing.js'
import { lineDrawing } from '../layout/line-drawing.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { answerWords, inHundred } from '../layout/words.js'

/** One screen of the way to the kind of a tool: a question, or what it comes to. */
export interface IdentifyPage {
  readonly frame: Frame
  readonly problems: readonly Problem[]
  readonly eyebrow: string
  readonly heading: string
  readonly lead: string
  readonly cautions: readonly string[]
  readonly question: AskedSign | null
  /** the kinds it comes to, likeliest first; none while there is a question */
  readonly kinds: readonly KindCard[]
  /** what to look at again to tell those kinds apart */
  readonly apart: readonly { readonly statement: string; readonly how: string; readonly href: string }[]
  /** what to do where no kind fits; empty otherwise */
  readonly todo: readonly string[]
  readonly said: readonly { readonly statement: string; readonly answer: string; readonly change: string }[]
  /** is the list of what was said unfolded? it is where a slip has to be looked for */
  readonly saidOpen: boolean
  /** how the kinds stand meanwhile, in one sentence; empty before the first sign */
  readonly standing: string
}

interface AskedSign {
  readonly action: string
  readonly name: string
  readonly fields: readonly { readonly name: string; readonly value: string }[]
  readonly help: string
  readonly drawing: Drawing | null
}

interface KindCard {
  readonly id: string
  readonly fieldId: string
  readonly name: string
  readonly plainName: string
  readonly tell: readonly string[]
  readonly fits: string
  readonly drawing: Drawing | null
}

const flowName = 'Which kind is it?'

const mayHurt = {
  text: 'Has it given a shock, smoked or got wet, or is anything on it cracked or swollen?',
  statement: 'It has given a shock, smoked or got wet, or is cracked or swollen',
  help: 'A tingle, a smell of burning, a bare wire, a bulging or hot battery: all count. Nobody knows its story: can’t tell.',
  now: 'Plug out and off its charger first. It is not switched on to answer this.',
} as const

const keepOff = [
  'Leave it switched off, plug out, off its charger. It is not run to find out what it is: eyes are enough here.',
  'A battery that is swollen, hot or hissing is left where it lies, and people kept away from it. Once the kind is found, what to do stands in the case.',
] as const

/** How many signs are worth a second look. */
const mostApart = 3

/** Where it stands after what was said: the danger question, the next sign, or the kind. */
export function identifyPage(
  knowledge: Knowledge,
  said: SaidOfSigns,
  problems: readonly Problem[] = [],
): IdentifyPage {
  const answers = Object.fromEntries(said.answers.map(({ sign, answer }) => [sign, answer]))
  // whether it may hurt is asked only where the next look would switch it on
  const stands = identify(knowledge, answers, said.mayHurt === 'no' || said.mayHurt === null)
  const page = pageFor(knowledge, said, stands)
  return {
    ...page,
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}${page.heading}`),
    problems,
    said: saidOf(knowledge, said),
    saidOpen: problems.length > 0 || page.todo.length > 0,
    standing: said.answers.length === 0 ? '' : standingWords(knowledge, stands),
  }
}

type Body = Omit<IdentifyPage, 'frame' | 'problems' | 'said' | 'saidOpen' | 'standing'>
const empty = { lead: '', cautions: [], question: null, kinds: [], apart: [], todo: [] } as const

function pageFor(knowledge: Knowledge, said: SaidOfSigns, stands: Identification): Body {
  const again = knowledge.signs.find(({ id }) => id === said.change)
  const next = again ?? (stands.state === 'asking' ? stands.sign : undefined)
  if (said.change === mayHurtField || (said.mayHurt === null && next?.needsPower)) return dangerFirst(said)
  const off = said.mayHurt === 'no' ? [] : said.mayHurt === null ? [mayHurt.now] : keepOff
  if (next) return asking(said, next, off)
  return comesTo(knowledge, said, stands, off)
}

function dangerFirst(said: SaidOfSigns): Body {
  return {
    ...empty,
    eyebrow: `${flowName} Before it runs: can it hurt?`,
    heading: mayHurt.text,
    cautions: [mayHurt.now],
    question: {
      action: identifyPath,
      name: mayHurtField,
      fields: fieldsOf(said, mayHurtField),
      help: mayHurt.help,
      drawing: null,
    },
  }
}

function asking(said: SaidOfSigns, sign: Sign, off: readonly string[]): Body {
  const name = signField(sign.id)
  const place = said.answers.filter(({ sign: id }) => id !== sign.id).length + 1
  return {
    ...empty,
    eyebrow: `${flowName} Look ${place}`,
    heading: sign.text,
    cautions: [...off, ...(sign.caution === undefined ? [] : [sign.caution])],
    question: {
      action: identifyPath,
      name,
      fields: fieldsOf(said, name),
      help: sign.how ?? '',
      drawing: lineDrawing(sign.drawing, sign.statement),
    },
  }
}

function comesTo(
  knowledge: Knowledge,
  said: SaidOfSigns,
  stands: Identification,
  off: readonly string[],
): Body {
  if (stands.state === 'none')
    return {
      ...empty,
      cautions: off,
      eyebrow: flowName,
      heading: 'It fits none of the kinds here',
      lead: 'What was said fits no kind that the rulebook knows, or two answers do not go together.',
      todo: [
        'Go through what you said, below: one slip is enough, and each answer can be changed.',
        'Read the plate on the body and the first pages of its manual, or ask who bought it.',
        'A shaver with a foil, hand shears or a tool made up from parts is none of these kinds: go by its own manual, or send it in.',
      ],
    }
  const ids = stands.state === 'found' ? [stands.kind] : stands.state === 'between' ? stands.kinds : []
  const { kinds } = lookupOf(knowledge)
  const cards = ids.flatMap((id) => kinds.get(id) ?? []).map((kind) => cardOf(kind, stands))
  if (stands.state === 'found')
    return {
      ...empty,
      cautions: off,
      eyebrow: 'It is most likely this kind',
      heading: cards[0]?.plainName ?? '',
      lead: 'Compare the tool with what stands here before you go on.',
      kinds: cards,
    }
  const answers = Object.fromEntries(said.answers.map(({ sign, answer }) => [sign, answer]))
  return {
    ...empty,
    cautions: off,
    eyebrow: flowName,
    heading: headings[cards.length] ?? 'Too little to go by yet',
    lead: 'Nothing more that can be looked at now tells them apart. Compare the tool with each, and choose.',
    kinds: cards,
    apart: tellingApart(knowledge, stands.odds, ids, answers)
      .slice(0, mostApart)
      .map((sign) => ({
        statement: sign.statement,
        how: sign.how ?? sign.text,
        // A sign that needs the tool to run is told of, but not asked of one that may hurt.
        href: sign.needsPower && said.mayHurt !== 'no' ? '' : changeHref(said, sign.id),
      })),
  }
}

const headings: Readonly<Record<number, string>> = {
  2: 'It is one of these two',
  3: 'It is one of these three',
}

function cardOf(kind: Kind, { odds }: Identification): KindCard {
  const share = odds.kinds.find(({ id }) => id === kind.id)?.probability ?? 0
  return {
    id: kind.id,
    fieldId: `tool-${kind.id}`,
    name: kind.name,
    plainName: kind.plainName,
    tell: kind.tell,
    fits: `Of 100 tools that answer like this one, ${inHundred(share).replace(' in 100', '')} are of this kind.`,
    drawing: lineDrawing(kind.drawing, kind.plainName),
  }
}

/** "So far most like: Corded, it hums, 62 in 100." */
function standingWords(knowledge: Knowledge, { odds, state }: Identification): string {
  if (state !== 'asking') return ''
  const best = odds.kinds.reduce((a, b) => (b.probability > a.probability ? b : a))
  const name = lookupOf(knowledge).kinds.get(best.id)?.plainName ?? best.id
  return `So far most like: ${name}, ${inHundred(best.probability)}.`
}

function saidOf(knowledge: Knowledge, said: SaidOfSigns): IdentifyPage['said'] {
  const statements = new Map(knowledge.signs.map(({ id, statement }) => [id, statement]))
  const danger =
    said.mayHurt === null
      ? []
      : [
          {
            statement: mayHurt.statement,
            answer: answerWords(said.mayHurt),
            change: changeHref(said, mayHurtField),
          },
        ]
  const signs = said.answers.map(({ sign, answer }) => ({
    statement: statements.get(sign) ?? sign,
    answer: answerWords(answer),
    change: changeHref(said, sign),
  }))
  return [...danger, ...signs]
}
