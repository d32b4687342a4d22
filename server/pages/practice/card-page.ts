/** The plan on paper: a card for a kind and a complaint, to hang at the bench. */
import type { CardFigure } from '../../../shared/card-figures.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Card } from '../../practice/card.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { bookOf } from '../../../shared/book-of-kind.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import type { CardFoot } from './card-foot.js'
import { cardFoot } from './card-foot.js'
import type { CardLines } from './card-words.js'
import { cardLines, guidedId } from './card-words.js'
import { cardsPath } from './cards-page.js'

export interface CardPage extends CardLines {
  readonly frame: Frame
  readonly kind: string
  readonly complaint: string
  readonly others: string
  readonly danger: {
    /** how the tool stands before anything is looked at */
    readonly first: string
    readonly signs: readonly string[]
  }
  readonly guided: { readonly id: string; readonly href: string; readonly address: string }
  readonly foot: CardFoot
}

export interface Shown {
  readonly dangers: ReadonlySet<string>
  /** null where the complaint was not measured */
  readonly figure: CardFigure | null
  /** of the kind's other measured complaints */
  readonly figures: readonly CardFigure[]
  /** do the figures belong to another rulebook or another card? */
  readonly stale: boolean
  /** when the rulebook was taken over */
  readonly since: Date
  /** where the program is reached, such as `http://bench.local:3000` */
  readonly host: string
}

/** @param card of this rulebook */
export function cardPage(knowledge: Knowledge, card: Card, shown: Shown): CardPage {
  const book = bookOf(knowledge, card.kind)
  const { kinds, questions } = lookupOf(book)
  const kind = kinds.get(card.kind)!
  const { statement } = questions.get(card.complaint)!.question
  const steps = book.steps.filter(({ form }) => form === 'danger')
  const signs = steps
    .flatMap((step) => step.questions)
    .filter(({ id }) => shown.dangers.has(id) && id !== card.complaint)
  const setups = setupsNeeded(
    book.setups,
    steps.flatMap((step) => step.setups),
  )
  return {
    frame: plainFrame(`Card: ${statement}`, 'practice'),
    kind: kind.plainName,
    complaint: statement,
    others: `${cardsPath}?kind=${card.kind}`,
    danger: {
      first: setups.map(({ name }) => name).join(', '),
      signs: signs.map((sign) => sign.statement),
    },
    ...cardLines(knowledge, card),
    guided: { id: guidedId, href: '/', address: shown.host },
    foot: cardFoot(card, shown),
  }
}
