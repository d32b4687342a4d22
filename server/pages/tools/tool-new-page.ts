import type { Knowledge } from '../../../shared/knowledge.js'
import { identifyPath } from '../../forms/identify-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

/** Which kind the new tool is: one tap puts it on the list. */
export interface ToolNewPage {
  readonly frame: Frame
  readonly kinds: readonly {
    readonly id: string
    readonly name: string
    readonly look: string
    readonly drawing: string
  }[]
  readonly identify: string | null
}

export function toolNewPage({ kinds, signs }: Knowledge): ToolNewPage {
  return {
    frame: plainFrame('Add a tool', 'tools'),
    kinds: kinds.map(({ id, plainName: name, look, drawing }) => ({ id, name, look, drawing })),
    identify: signs.length === 0 ? null : identifyPath,
  }
}
