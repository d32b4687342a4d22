import type { Frame } from '../layout/frame.js'
import type { Drawing } from '../layout/line-drawing.js'
import type { Fact } from '../case/next-words.js'
import type { SourceView } from '../layout/source-view.js'

/** A list of things in the rulebook, in groups. */
export interface ListPage {
  readonly frame: Frame
  readonly heading: string
  readonly lead: string
  readonly back: string | null
  readonly groups: readonly ListGroup[]
  /** what only some come for, one fold each */
  readonly folds: readonly {
    readonly heading: string
    readonly open: boolean
    readonly groups: readonly ListGroup[]
  }[]
}

interface ListGroup {
  readonly heading: string
  readonly items: readonly { readonly name: string; readonly href: string; readonly note: string }[]
}

/** One thing of the rulebook in full, or several short ones on one page. */
export interface EntryPage {
  readonly frame: Frame
  readonly eyebrow: string
  readonly heading: string
  readonly lead: string
  readonly back: { readonly href: string; readonly name: string }
  readonly drawing: Drawing | null
  readonly cautions: readonly string[]
  readonly facts: readonly Fact[]
  readonly sections: readonly Section[]
  readonly source: SourceView | null
}

export interface Section {
  /** for links to the section; null where nothing links to it */
  readonly id: string | null
  readonly heading: string
  /** closed until it is tapped, or opened by the address; null where it always stands open */
  readonly fold: 'open' | 'closed' | null
  readonly text: string
  /** a list in order, or not */
  readonly ordered: boolean
  readonly items: readonly Item[]
  /** what stands below the list */
  readonly after: string
  readonly source: SourceView | null
}

export interface Item {
  readonly text: string
  readonly href: string | null
  readonly note: string
}

/** A section with what is not given left empty. */
export function section(heading: string, given: Partial<Omit<Section, 'heading'>>): Section {
  return {
    id: null,
    fold: null,
    text: '',
    ordered: false,
    items: [],
    after: '',
    source: null,
    ...given,
    heading,
  }
}

/** An item with what is not given left empty. */
export function item(text: string, given: Partial<Omit<Item, 'text'>> = {}): Item {
  return { href: null, note: '', ...given, text }
}
