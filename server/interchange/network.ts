/**
 * The model of a kind as a Bayesian network of two-valued nodes with at most two parents each, so that programs
 * that know tables only can read it. Nothing is approximated:
 *
 *   leaky noisy-OR of n causes   a chain of n two-parent ORs, the strength folded into each link: a link is yes if the
 *                                one before it is, or if its cause is there and trips it; the first one is the leak
 *   "the tool is in trouble"     one node, the OR of all causes, also as a chain; to condition on it is to set it
 *   "nothing wrong"              the last link of that chain is an exclusive or: ordinary causes, or it alone
 *
 * Chains: Heckerman & Breese, "Causal independence for probability assessment and inference using Bayesian
 * networks", IEEE Trans. SMC-A 26(6):826–831, 1996 (from memory).
 */
import type { KindModel } from '../diagnosis/model.js'

/** What of a kind goes into the file. A part of a kind (fewer causes, fewer findings) will do as well. */
export type ExportedModel = Pick<
  KindModel,
  'kind' | 'causes' | 'findings' | 'questionOf' | 'priors' | 'exclusive' | 'leaks' | 'strengths'
>

export interface NetworkNode {
  /** a letter, then letters, digits and underscores */
  readonly name: string
  /** at most two, all of them nodes that stand before this one */
  readonly parents: readonly string[]
  /** P(yes | parents), by the parents' states: yes before no, the first parent changing slowest */
  readonly chances: readonly number[]
  /** what it is, for people; name and value */
  readonly properties: readonly (readonly [string, string])[]
}

/** The node to set to yes whatever else is asked. */
export const inTrouble = 'in_trouble'

/** Names: ids have no underscore and no two hyphens in a row, so no two nodes can come to the same one. */
const plain = (id: string): string => id.replaceAll('-', '_')
const causeName = (id: string): string => `cause_${plain(id)}`
const findingName = (id: string): string => `finding_${plain(id)}`

/** @throws RangeError without causes, or with two that each exclude all others; the rulebook check finds both first */
export function networkNodes(model: ExportedModel): NetworkNode[] {
  return [
    ...model.causes.map((_, i) => causeNode(model, i)),
    ...troubleNodes(model),
    ...model.findings.flatMap((_, f) => findingNodes(model, f)),
  ]
}

function causeNode({ causes, priors, kind }: ExportedModel, i: number): NetworkNode {
  const cause = causes[i]!
  return {
    name: causeName(cause.id),
    parents: [],
    chances: [priors[i]!],
    properties: [
      ['role', 'cause'],
      ['id', cause.id],
      ['name', cause.name],
      ['description', cause.description],
      ['per-1000', String(cause.shares[kind.id])],
      ...(cause.exclusive ? [['exclusive', 'yes'] as const] : []),
    ],
  }
}

const eitherOr = [0, 1, 1, 0]
const or = (strength: number) => [1, 1, strength, 0]
const same = [1, 0]

function troubleNodes({ causes, exclusive }: ExportedModel): NetworkNode[] {
  const ordinary = causes.filter((_, i) => !exclusive[i])
  const alone = causes.filter((_, i) => exclusive[i])
  if (causes.length === 0) throw new RangeError('a model without causes has no trouble to tell of')
  if (alone.length > 1)
    throw new RangeError(
      `${alone.map(({ id }) => id).join(' and ')} cannot both exclude every other cause in one network`,
    )
  const nodes: NetworkNode[] = []
  const inOrder = [...ordinary, ...alone]
  inOrder.forEach(({ id, name, exclusive: isAlone }, k) => {
    const isLast = k === inOrder.length - 1
    if (k === 0 && !isLast) return // the first cause is its own chain
    const before = k > 1 ? nodes.at(-1)!.name : causeName(inOrder[0]!.id)
    nodes.push({
      name: isLast ? inTrouble : `trouble__${plain(id)}`,
      parents: k === 0 ? [causeName(id)] : [before, causeName(id)],
      chances: k === 0 ? same : isAlone ? eitherOr : or(1),
      properties: isLast
        ? [
            ['role', 'condition'],
            ['says', 'Something is the matter, and nothing is excluded by anything else: always set to yes'],
          ]
        : [
            ['role', 'link'],
            ['says', `One of the causes down to this is there: ${name}`],
          ],
    })
  })
  return nodes
}

function findingNodes(model: ExportedModel, f: number): NetworkNode[] {
  const finding = model.findings[f]!
  const tripping = model.causes.flatMap((cause, i) => {
    const strength = model.strengths[f]![i]!
    return strength > 0 ? [{ id: cause.id, strength }] : []
  })
  const about: NetworkNode['properties'] = [
    ['role', 'finding'],
    ['id', finding.id],
    ['says', finding.says],
    ['because', finding.because],
    ['question', model.questionOf[f]!],
    ...(finding.topic === undefined ? [] : [['topic', finding.topic] as const]),
    ...(finding.running ? [['seen', 'on a running tool only'] as const] : []),
  ]
  const link: NetworkNode['properties'] = [['role', 'link']]
  const itself = findingName(finding.id)
  if (tripping.length === 0)
    return [{ name: itself, parents: [], chances: [model.leaks[f]!], properties: about }]
  let before = `leak__${plain(finding.id)}`
  const leak = {
    name: before,
    parents: [],
    chances: [model.leaks[f]!],
    properties: [['role', 'leak']] as const,
  }
  return [
    leak,
    ...tripping.map(({ id, strength }, k): NetworkNode => {
      const isLast = k === tripping.length - 1
      const name = isLast ? itself : `link__${plain(finding.id)}__${plain(id)}`
      const parents = [before, causeName(id)]
      before = name
      return { name, parents, chances: or(strength), properties: isLast ? about : link }
    }),
  ]
}
