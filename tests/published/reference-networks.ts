/** Networks with general tables, for the reference library; and noisy-OR networks written out as such tables. */
import bayesjs from 'bayesjs'
import { onceFor } from '../../shared/once-for.js'
import type { NoisyOrModel } from '../../server/diagnosis/noisy-or.js'

type Network = bayesjs.INetwork
type Evidence = Readonly<Record<string, boolean>>

const states = (record: Evidence): Record<string, string> =>
  Object.fromEntries(Object.entries(record).map(([id, is]) => [id, is ? 'yes' : 'no']))
const both = (p: number) => ({ yes: p, no: 1 - p })

/** A two-valued node; `chance` takes the parents' truth in order. */
function node(id: string, parents: string[], chance: (...truth: boolean[]) => number): bayesjs.INode {
  if (parents.length === 0) return { id, states: ['yes', 'no'], parents, cpt: both(chance()) }
  const cpt = Array.from({ length: 1 << parents.length }, (_, mask) => {
    const truth = parents.map((_, k) => (mask & (1 << k)) !== 0)
    const when = states(Object.fromEntries(parents.map((p, k) => [p, truth[k]!])))
    return { when, then: both(chance(...truth)) }
  })
  return { id, states: ['yes', 'no'], parents, cpt }
}

const networkOf = (...nodes: bayesjs.INode[]): Network => Object.fromEntries(nodes.map((n) => [n.id, n]))

/** P(nodes | given), by the library's enumeration of all states. */
export const probability = (network: Network, nodes: Evidence, given: Evidence = {}): number =>
  bayesjs.inferences.enumeration.infer(network, states(nodes), states(given))

/** P(one node is true | given), by the library's junction tree, which keeps what it worked out for the same `given`. */
export const belief = (network: Network, id: string, given: Evidence): number =>
  bayesjs.inferences.junctionTree.infer(network, states({ [id]: true }), junctionGiven(given))
const junctionGiven = onceFor(states)

/** Lauritzen & Spiegelhalter, JRSS-B 50(2):157–224, 1988. */
export const chestClinic = networkOf(
  node('asia', [], () => 0.01),
  node('smoke', [], () => 0.5),
  node('tub', ['asia'], (asia) => (asia ? 0.05 : 0.01)),
  node('lung', ['smoke'], (smoke) => (smoke ? 0.1 : 0.01)),
  node('bronc', ['smoke'], (smoke) => (smoke ? 0.6 : 0.3)),
  node('either', ['tub', 'lung'], (tub, lung) => (tub || lung ? 1 : 0)),
  node('xray', ['either'], (either) => (either ? 0.98 : 0.05)),
  node('dysp', ['bronc', 'either'], (bronc, either) => (bronc ? (either ? 0.9 : 0.8) : either ? 0.7 : 0.1)),
)

/** Pearl 1988; Russell & Norvig, ch. "Probabilistic reasoning". */
export const alarm = networkOf(
  node('burglary', [], () => 0.001),
  node('earthquake', [], () => 0.002),
  node('alarm', ['burglary', 'earthquake'], (b, e) => (b ? (e ? 0.95 : 0.94) : e ? 0.29 : 0.001)),
  node('john', ['alarm'], (a) => (a ? 0.9 : 0.05)),
  node('mary', ['alarm'], (a) => (a ? 0.7 : 0.01)),
)

/** Pearl 1988; Murphy, "The Bayes Net Toolbox for Matlab", 2001. */
export const sprinkler = networkOf(
  node('cloudy', [], () => 0.5),
  node('sprinkler', ['cloudy'], (c) => (c ? 0.1 : 0.5)),
  node('rain', ['cloudy'], (c) => (c ? 0.8 : 0.2)),
  node('wet', ['sprinkler', 'rain'], (s, r) => (s ? (r ? 0.99 : 0.9) : r ? 0.9 : 0)),
)

/** Causes `c0`… and findings `f0`…, each finding with a full table over all the causes. */
export function writtenOut(model: NoisyOrModel): Network {
  const causes = model.priors.map((_, i) => `c${i}`)
  return networkOf(
    ...causes.map((id, i) => node(id, [], () => model.priors[i]!)),
    ...model.leaks.map((leak, f) =>
      node(`f${f}`, causes, (...there) => {
        const missed = there.reduce((q, is, i) => (is ? q * (1 - model.strengths[f]![i]!) : q), 1 - leak)
        return 1 - missed
      }),
    ),
  )
}
