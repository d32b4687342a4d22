/** The foot of a card: what it costs beside the full plan, in counts, minutes and money, and how far that can be trusted. */
import type { CardFigure } from '../../../shared/card-figures.js'
import { cardMark } from '../../../shared/card-figures.js'
import type { Card } from '../../practice/card.js'
import { cardShop } from '../../practice/card-start.js'
import { aboutMoney, countOf100, minutes, money } from '../layout/words.js'

export interface CardFoot {
  readonly cost: readonly string[]
  /** where the card loses more than it should; empty elsewhere */
  readonly warning: string
  /** where the figures are of another rulebook or card; empty elsewhere */
  readonly stale: string
  readonly reckoned: string
  readonly since: string
}

interface Known {
  readonly figure: CardFigure | null
  readonly figures: readonly CardFigure[]
  readonly stale: boolean
  readonly since: Date
}

export function cardFoot(card: Card, { figure, figures, stale, since }: Known): CardFoot {
  const { rate, sendIn, replace } = cardShop
  return {
    cost: figure ? measured(figure) : unmeasured(card, figures),
    warning: figure && lossOf(figure) > 100 * cardMark ? warningOf(figure) : '',
    stale: stale
      ? 'The rulebook or the card has changed since this was measured, so the figures are old: run npm run cards where the program lies.'
      : '',
    reckoned: `worked out with the figures of practice, not your shop’s: a competent bench hand, a minute ${money(rate)}, a service ${money(sendIn)}, a new tool ${money(replace)}.`,
    since: since.toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year: 'numeric' }),
  }
}

/** Whole in 100 of the full plan's cost; the plan's own reckoning, move by move, which is rather too much. */
const lossOf = ({ lost, full }: CardFigure): number => Math.round((100 * lost.mean) / full)

function measured(figure: CardFigure): string[] {
  const { full, fullMinutes, lost, more, left, tools } = figure
  const loss = lossOf(figure)
  return [
    `By this card ${aboutMoney(full + lost.mean)} a tool and ${minutes(figure.minutes)} of hands; by the guided flow alone ${aboutMoney(full)} and ${minutes(fullMinutes)}: ${loss < 1 ? 'fewer than 1' : `about ${loss}`} in 100 more, rather too much than too little.`,
    `Counted on the same ${tools} simulated tools, hands, parts and service: ${countedWords(Math.round((100 * more.mean) / full))}, give or take ${Math.max(1, Math.round((200 * more.se) / full))}.`,
    `Of 100 tools ${100 - countOf100(left)} come to an end on this card; the rest have a danger sign or go on with the guided flow.`,
  ]
}

const countedWords = (more: number): string =>
  more === 0 ? 'no more expensive' : more > 0 ? `${more} in 100 more expensive` : `${-more} in 100 cheaper`

const warningOf = (figure: CardFigure): string =>
  `That is more than a card should lose, ${countOf100(cardMark)} in 100. With a screen at hand, begin with the guided flow: it saves ${aboutMoney(figure.lost.mean)} a tool.`

/** The plan's own expectation, and what the others of the kind add. */
function unmeasured({ expected, cut }: Card, figures: readonly CardFigure[]): string[] {
  const losses = figures.map(lossOf).sort((a, b) => a - b)
  return [
    `By the guided flow ${aboutMoney(expected)} a tool, hands, parts and service, once no danger sign was found. What this card adds was not measured.`,
    ...(losses.length > 0
      ? [`The cards for the kind’s commonest complaints add ${losses[0]} to ${losses.at(-1)} in 100.`]
      : []),
    `Of 100 tools without a danger sign about ${100 - countOf100(cut)} come to an end on this card; the rest go on with the guided flow.`,
  ]
}
