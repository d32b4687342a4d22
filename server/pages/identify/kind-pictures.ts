import type { Kind, Knowledge } from '../../../shared/knowledge.js'
import { identifyPath } from '../../forms/identify-form.js'

/** A picture of each kind, to tap. */
export interface KindPictures {
  readonly kinds: readonly {
    readonly id: string
    readonly name: string
    readonly look: string
    readonly drawing: string
  }[]
  /** where to find out the kind; null where there is nothing to find it by */
  readonly identify: string | null
}

export const kindPictures = ({ signs }: Knowledge, kinds: readonly Kind[]): KindPictures => ({
  kinds: kinds.map(({ id, plainName: name, look, drawing }) => ({ id, name, look, drawing })),
  identify: signs.length === 0 ? null : identifyPath,
})
