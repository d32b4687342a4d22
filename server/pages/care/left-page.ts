import type { Tool } from '../../../shared/tool.js'
import type { LeftUndone } from '../../care/left.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { dayWords } from '../tools/tool-words.js'

/** Care that nobody does, and tools whose care is nobody's. */
export interface LeftPage {
  readonly frame: Frame
  readonly tasks: readonly {
    readonly id: string
    readonly name: string
    readonly words: string
    readonly how: readonly string[]
  }[]
  readonly tools: readonly { readonly href: string; readonly name: string }[]
}

/** @param tools those in use that nobody's name stands beside */
export const leftPage = (left: readonly LeftUndone[], tools: readonly Tool[]): LeftPage => ({
  frame: plainFrame('What nobody does', 'tools'),
  tasks: left.map(({ task, tools, last }) => ({
    id: task.id,
    name: task.name,
    words: `${tools} ${tools === 1 ? 'tool' : 'tools'}, ${last === null ? 'never logged' : `last on ${dayWords(last)}`}`,
    how: task.how,
  })),
  tools: tools.map(({ id, name }) => ({ href: `/tools/${id}/edit`, name })),
})
