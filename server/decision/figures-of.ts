/** Which figure counts, and whose word it is: the usual, the shop's, the tool's own, or what was said in this case. */
import { Figures, type FigureFrom, type FigureName, type SomeFigures } from '../../shared/figures.js'

export interface FiguresInForce {
  readonly figures: Figures
  readonly from: Readonly<Record<FigureName, FigureFrom>>
}

/**
 * What is known, each more to the point than the one before. `tool` is the record of the tool: its price, age, warranty.
 */
export interface Sources {
  readonly shop: SomeFigures
  readonly tool?: SomeFigures
  readonly case?: SomeFigures
}

const figureNames = Object.keys(Figures.shape) as readonly FigureName[]

/** The figures of the most pointed source that has them. Ranges given upside down are turned round. */
export function figuresInForce(sources: Sources): FiguresInForce {
  const usual = Figures.parse({})
  const figures: Record<string, unknown> = { ...usual }
  const from = {} as Record<FigureName, FigureFrom>
  for (const name of figureNames) from[name] = 'usual'
  for (const source of ['shop', 'tool', 'case'] as const)
    for (const name of figureNames) {
      const value = sources[source]?.[name]
      if (value === undefined) continue
      figures[name] = value
      from[name] = source
    }
  return { figures: inOrder(figures as Figures), from }
}

function inOrder(figures: Figures): Figures {
  const [feeLow, feeHigh] = sorted(figures.feeLow, figures.feeHigh)
  const [daysAwayLow, daysAwayHigh] = sorted(figures.daysAwayLow, figures.daysAwayHigh)
  return { ...figures, feeLow, feeHigh, daysAwayLow, daysAwayHigh }
}

const sorted = (a: number, b: number): [number, number] => (a <= b ? [a, b] : [b, a])
