import type { Currency } from '../../../shared/figures.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Tool } from '../../../shared/tool.js'
import { ToolPlace } from '../../../shared/tool.js'
import type { Problem } from '../../forms/answer-form.js'
import type { ToolField, ToolTexts } from '../../forms/tool-form.js'
import { placeWords, toolFieldWords, toolFields } from '../../forms/tool-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { toolNamed } from '../../tools/tool-names.js'
import { amountText } from '../layout/money.js'

interface FieldView {
  readonly name: ToolField
  readonly words: string
  readonly hint: string | null
  readonly value: string
  readonly type: 'text' | 'date'
  readonly problem: string | null
  /** null for a field that one types into */
  readonly choices:
    | readonly { readonly id: string; readonly words: string; readonly chosen: boolean }[]
    | null
}

/** What is known of a tool, to be told or put right. */
export interface ToolEditPage {
  readonly frame: Frame
  readonly home: string
  readonly name: string
  readonly first: readonly FieldView[]
  readonly more: readonly FieldView[]
  readonly open: boolean
  readonly hasPhoto: boolean
  readonly problems: readonly Problem[]
}

const hints: Partial<Record<ToolField, string>> = {
  clientsADay: 'About how many; care by running hours goes by it.',
  volts: 'Such as 220-240',
  strokes: 'By its plate, its manual or a sound twin; Listen keeps it here.',
}
const inFirst: readonly ToolField[] = ['name', 'kind', 'place', 'usedBy', 'clientsADay']

export function toolEditPage(
  knowledge: Knowledge,
  tool: Tool,
  currency: Currency,
  hasPhoto: boolean,
  sent: ToolTexts | null = null,
  problems: readonly Problem[] = [],
): ToolEditPage {
  const texts = sent ?? toolTexts(tool, currency)
  const view = (name: ToolField): FieldView => ({
    name,
    words: toolFieldWords[name],
    hint: hints[name] ?? null,
    value: texts[name] ?? '',
    type: name === 'bought' || name === 'warrantyUntil' ? 'date' : 'text',
    problem: problems.find(({ field }) => field === name)?.here ?? null,
    choices: choicesOf(name, knowledge)?.map((it) => ({ ...it, chosen: it.id === texts[name] })) ?? null,
  })
  const more = toolFields.filter((name) => !inFirst.includes(name))
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}${tool.name}`, 'tools'),
    home: `/tools/${tool.id}`,
    name: tool.name,
    first: inFirst.map(view),
    more: more.map(view),
    open: problems.some(({ field }) => more.includes(field as ToolField)),
    hasPhoto,
    problems,
  }
}

/** A name means one tool: a second of it, other than a retired one's, is told; one that was there before stays. */
export function nameProblems(tools: readonly Tool[], { id, name }: Tool, typed: string): readonly Problem[] {
  const others = tools.filter((it) => it.id !== id && it.place !== 'retired')
  if (typed === name || toolNamed(others, typed) === undefined) return []
  const here = 'another tool has this name already'
  return [{ field: 'name', message: `${toolFieldWords.name}: ${here}`, here }]
}

function choicesOf(name: ToolField, { kinds }: Knowledge) {
  if (name === 'kind') return kinds.map(({ id, plainName: words }) => ({ id, words }))
  if (name === 'place') return ToolPlace.options.map((id) => ({ id, words: placeWords[id] }))
  return null
}

/** What is known of a tool, as text for its fields. */
export function toolTexts({ name, kind, place, details }: Tool, currency: Currency): ToolTexts {
  const { price, watts, strokes, clientsADay, ...words } = details
  return {
    ...(words as ToolTexts),
    name,
    kind,
    place,
    ...(price !== undefined && { price: amountText(price, currency) }),
    ...(watts !== undefined && { watts: String(watts) }),
    ...(strokes !== undefined && { strokes: String(strokes) }),
    ...(clientsADay !== undefined && { clientsADay: String(clientsADay) }),
  }
}
