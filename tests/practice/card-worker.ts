/** One of the processes that measure cards: takes a complaint, sends back what its card costs. */
import type { CardFigure } from '../../shared/card-figures.js'
import { kindOf, prepare } from '../../server/diagnosis/prepare.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { cardCosts } from '../../server/practice/card-cost.js'
import { cardShop } from '../../server/practice/card-start.js'
import { cardFigure } from '../../server/practice/card-figures.js'
import { compileCard } from '../../server/practice/card.js'

export interface CardJob {
  readonly kind: string
  readonly complaint: string
  readonly tools: number
}

const ready = prepare(loadKnowledge())

async function measured({ kind, complaint, tools }: CardJob): Promise<CardFigure> {
  const prepared = await ready
  const card = await compileCard(kindOf(prepared, kind), complaint, cardShop)
  return cardFigure(card, await cardCosts(prepared, card, cardShop, tools))
}

process.on('message', (job: CardJob) => {
  void measured(job).then((figure) => process.send!(figure))
})
