import type { Currency } from '../../../shared/figures.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { NewTool, Tool } from '../../../shared/tool.js'
import { toolNamed } from '../../tools/tool-names.js'
import { readList } from '../../tools/tool-list.js'
import type { ToolField } from '../../forms/tool-form.js'
import { placeWords, toolFieldWords, toolFields, toolFrom } from '../../forms/tool-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

/** Tools from a spreadsheet: pasted or as a file, looked at, then put on the list. */
export interface ImportPage {
  readonly frame: Frame
  /** what was sent, to be sent again */
  readonly text: string
  readonly columns: string
  readonly kinds: readonly { readonly id: string; readonly name: string }[]
  readonly wrong: string | null
  /** null before anything was sent */
  readonly preview: {
    readonly good: readonly { readonly name: string; readonly kind: string; readonly place: string }[]
    readonly bad: readonly {
      readonly line: number
      readonly name: string
      readonly problems: readonly string[]
    }[]
    readonly unread: readonly string[]
  } | null
}

export interface ListedTools {
  readonly tools: readonly NewTool[]
  readonly bad: readonly {
    readonly line: number
    readonly name: string
    readonly problems: readonly string[]
  }[]
  /** columns that say nothing to this program */
  readonly unread: readonly string[]
}

/** The tools of a list, and the rows that are none; a name may be there once only. */
export function listedTools(
  text: string,
  knowledge: Knowledge,
  there: readonly Tool[],
  currency: Currency,
): ListedTools | { readonly wrong: string } {
  const read = readList(text)
  if (!read.ok) return { wrong: read.problem }
  const fieldOf = new Map(
    read.columns.flatMap((column) => fieldNamed(column).map((it) => [column, it] as const)),
  )
  if (![...fieldOf.values()].includes('name'))
    return { wrong: 'The first line must name the columns; one of them is “name”.' }
  const tools: NewTool[] = []
  const bad: ListedTools['bad'][number][] = []
  for (const { line, cells } of read.rows) {
    const sent = Object.fromEntries([...fieldOf].map(([column, field]) => [field, cells[column] ?? '']))
    const made = toolFrom(sent, knowledge.kinds, currency)
    const name = sent['name'] ?? ''
    const twice = made.ok && toolNamed([...there, ...tools.map(asThere)], made.tool.name)
    if (made.ok && !twice) tools.push(made.tool)
    else
      bad.push({
        line,
        name,
        problems: made.ok
          ? ['A tool of this name is there already.']
          : made.problems.map(({ message }) => message),
      })
  }
  return { tools, bad, unread: read.columns.filter((column) => column !== '' && !fieldOf.has(column)) }
}

const asThere = (tool: NewTool): Tool => ({ ...tool, id: '', addedAt: '' })
const plain = (text: string): string => text.toLocaleLowerCase('en').replace(/[^a-z]/g, '')

function fieldNamed(column: string): ToolField[] {
  const found = toolFields.find((field) => [field, toolFieldWords[field]].map(plain).includes(plain(column)))
  return found ? [found] : []
}

export function importPage(
  knowledge: Knowledge,
  text = '',
  listed: ListedTools | { readonly wrong: string } | null = null,
): ImportPage {
  const { kinds } = lookupOf(knowledge)
  return {
    frame: plainFrame('Tools from a list', 'tools'),
    text,
    columns: toolFields.join(','),
    kinds: knowledge.kinds.map(({ id, plainName: name }) => ({ id, name })),
    wrong: listed && 'wrong' in listed ? listed.wrong : null,
    preview:
      listed && 'tools' in listed
        ? {
            good: listed.tools.map(({ name, kind, place }) => ({
              name,
              kind: kinds.get(kind)?.plainName ?? kind,
              place: placeWords[place],
            })),
            bad: listed.bad,
            unread: listed.unread,
          }
        : null,
  }
}
