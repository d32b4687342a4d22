import type { Knowledge } from '../../../shared/knowledge.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { KindPictures } from '../identify/kind-pictures.js'
import { kindPictures } from '../identify/kind-pictures.js'

/** Which kind the new tool is: one tap puts it on the list. */
export interface ToolNewPage {
  readonly frame: Frame
  readonly pictures: KindPictures
}

export const toolNewPage = (knowledge: Knowledge): ToolNewPage => ({
  frame: plainFrame('Add a tool', 'tools'),
  pictures: kindPictures(knowledge, knowledge.kinds),
})
