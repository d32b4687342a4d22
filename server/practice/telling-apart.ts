/** The one look that tells two causes apart best. */
import type { Finding, Step } from '../../shared/knowledge.js'
import type { KindModel } from '../diagnosis/model.js'

/** A finding and in how many tools it shows, with either cause alone there; chances in (0, 1). */
export interface Apart {
  readonly finding: Finding
  /** where it is looked for */
  readonly step: Step
  readonly withFirst: number
  readonly withSecond: number
}

/**
 * How well a yes-or-no finding tells two causes apart: Jeffreys' divergence (Jeffreys, "An invariant form for the prior
 * probability in estimation problems", Proc. R. Soc. A 186, 1946), which is the weight of evidence that it is
 * expected to bring, taken from both sides. In nats; 0 where it shows as often with either.
 */
export const divergence = (p: number, q: number): number => (p - q) * (logit(p) - logit(q))

const logit = (p: number) => Math.log(p / (1 - p))

/** Less than this is no telling apart: 6 of 10 against 4 of 10 comes to 0.16. */
const least = 0.2

/**
 * @param first  ids of two different causes of the kind
 * @param barred ids of steps that may not be done at this bench
 * @returns undefined where nothing tells the two apart
 */
export function tellingApart(
  model: KindModel,
  first: string,
  second: string,
  barred: ReadonlySet<string> = new Set(),
): Apart | undefined {
  const [a, b] = [model.causeIndex.get(first), model.causeIndex.get(second)]
  if (a === undefined || b === undefined) return undefined
  let best: Apart | undefined
  let most = least
  model.findings.forEach((finding, f) => {
    const step = model.steps.find(({ questions }) => questions.some(({ id }) => id === model.questionOf[f]))
    if (!step || barred.has(step.id)) return
    const shown = (cause: number) => 1 - (1 - model.leaks[f]!) * (1 - model.strengths[f]![cause]!)
    const told = divergence(shown(a), shown(b))
    if (told <= most) return
    most = told
    best = { finding, step, withFirst: shown(a), withSecond: shown(b) }
  })
  return best
}
