/** The figures of a card out of the costs of single tools. */
import type { CardFigure } from '../../shared/card-figures.js'
import { keyOf } from '../simulation/chance.js'
import type { ToolCost } from './card-cost.js'
import type { Card } from './card.js'

/** @param costs of at least one tool */
export function cardFigure(card: Card, costs: readonly ToolCost[]): CardFigure {
  const meanOf = (value: (cost: ToolCost) => number) => estimate(costs.map(value)).mean
  return {
    tools: costs.length,
    questions: card.questions,
    paper: paperDigest(card),
    full: meanOf(({ full }) => full.money),
    fullMinutes: meanOf(({ full }) => full.minutes),
    minutes: meanOf((cost) => cost.card.minutes),
    more: estimate(costs.map((cost) => cost.card.money - cost.full.money)),
    lost: estimate(costs.map(({ lost }) => lost)),
    left: meanOf(({ left }) => Number(left)),
  }
}

/** The same for the same tree, so that figures of another card are known to be stale; 32 bits. */
export const paperDigest = ({ root }: Card): number => keyOf(JSON.stringify(root))

function estimate(values: readonly number[]): { mean: number; se: number } {
  const mean = values.reduce((sum, v) => sum + v, 0) / values.length
  const squares = values.reduce((sum, v) => sum + (v - mean) ** 2, 0)
  return { mean, se: Math.sqrt(squares / Math.max(1, values.length - 1) / values.length) }
}
