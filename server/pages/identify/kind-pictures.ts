import type { Kind, Knowledge } from '../../../shared/knowledge.js'
import { identifyPath, signField } from '../../forms/identify-form.js'

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

/** @param on what the tool runs on, where that was said: it is not asked again */
export const kindPictures = (
  { signs }: Knowledge,
  kinds: readonly Kind[],
  on?: Kind['runsOn'],
): KindPictures => {
  const sign = on && signs.find(({ yesRunsOn }) => yesRunsOn !== undefined)
  const said = sign ? `?${signField(sign.id)}=${sign.yesRunsOn === on ? 'yes' : 'no'}` : ''
  return {
    kinds: kinds.map(({ id, plainName: name, look, drawing }) => ({ id, name, look, drawing })),
    identify: signs.length === 0 ? null : `${identifyPath}${said}`,
  }
}
