/**
 * Reads XMLBIF 0.3 with a general-purpose XML library (libxml2, compiled to WebAssembly), knowing nothing of what
 * wrote it. The format as published: http://sites.poli.usp.br/p/fabio.cozman/Research/InterchangeFormat/
 */
import type bayesjs from 'bayesjs'
import { DtdValidator, ParseOption, XmlDocument, XmlDtd, XmlElement } from 'libxml2-wasm'

/** A node as read; `rows` by the parents' states, the first parent slowest, each over the node's own outcomes. */
export interface ReadNode {
  readonly name: string
  readonly outcomes: readonly string[]
  readonly properties: ReadonlyMap<string, string>
  readonly parents: readonly string[]
  readonly rows: readonly (readonly number[])[]
}

export interface ReadNetwork {
  readonly name: string
  readonly nodes: ReadonlyMap<string, ReadNode>
}

// The declarations of the published format, to hold the files against whatever they say about themselves.
const published = `
  <!ELEMENT BIF ( NETWORK )*>
  <!ATTLIST BIF VERSION CDATA #REQUIRED>
  <!ELEMENT NETWORK ( NAME, ( PROPERTY | VARIABLE | DEFINITION )* )>
  <!ELEMENT NAME (#PCDATA)>
  <!ELEMENT VARIABLE ( NAME, ( OUTCOME | PROPERTY )* ) >
  <!ATTLIST VARIABLE TYPE (nature|decision|utility) "nature">
  <!ELEMENT OUTCOME (#PCDATA)>
  <!ELEMENT DEFINITION ( FOR | GIVEN | TABLE | PROPERTY )* >
  <!ELEMENT FOR (#PCDATA)>
  <!ELEMENT GIVEN (#PCDATA)>
  <!ELEMENT TABLE (#PCDATA)>
  <!ELEMENT PROPERTY (#PCDATA)>`

/** @throws XmlParseError or XmlValidateError where the text is not XML, or not of the format, or not what it declares */
export function readXmlbif(text: string): ReadNetwork {
  const document = XmlDocument.fromString(text, { option: ParseOption.XML_PARSE_DTDVALID })
  const dtd = XmlDtd.fromString(published)
  try {
    new DtdValidator(dtd).validate(document)
    return networkIn(document.root)
  } finally {
    dtd.dispose()
    document.dispose()
  }
}

function networkIn(root: XmlElement): ReadNetwork {
  const networks = childrenOf(root).NETWORK ?? []
  if (root.name !== 'BIF' || root.attr('VERSION')?.value !== '0.3' || networks.length !== 1)
    throw new Error('not one network of version 0.3')
  const { NAME: names, VARIABLE: variables = [], DEFINITION: definitions = [] } = childrenOf(networks[0]!)
  const given = new Map(definitions.map((it) => [onlyText(childrenOf(it).FOR), childrenOf(it)]))
  if (given.size !== definitions.length) throw new Error('two definitions for one variable')
  const outcomes = new Map(
    variables.map((it) => [onlyText(childrenOf(it).NAME), (childrenOf(it).OUTCOME ?? []).map(textOf)]),
  )
  if (outcomes.size !== variables.length) throw new Error('two variables of one name')
  const nodes = variables.map((variable): ReadNode => {
    const { NAME, PROPERTY = [] } = childrenOf(variable)
    const name = onlyText(NAME)
    const definition = given.get(name)
    if (!definition) throw new Error(`${name} has no definition`)
    const parents = (definition.GIVEN ?? []).map(textOf)
    const numbers = onlyText(definition.TABLE).split(/\s+/).map(Number)
    const width = outcomes.get(name)!.length
    const height = parents.reduce((n, parent) => n * outcomes.get(parent)!.length, 1)
    if (numbers.length !== width * height) throw new Error(`the table of ${name} is of the wrong size`)
    return {
      name,
      outcomes: outcomes.get(name)!,
      properties: new Map(PROPERTY.map((it) => pairIn(textOf(it)))),
      parents,
      rows: Array.from({ length: height }, (_, k) => numbers.slice(k * width, (k + 1) * width)),
    }
  })
  if (nodes.length !== definitions.length) throw new Error('a definition for no variable')
  return { name: onlyText(names), nodes: new Map(nodes.map((node) => [node.name, node])) }
}

/** The states of a node's parents, in the order of its rows. */
function parentStates(network: ReadNetwork, { parents }: ReadNode): Record<string, string>[] {
  return parents.reduce<Record<string, string>[]>(
    (all, parent) =>
      all.flatMap((so) => network.nodes.get(parent)!.outcomes.map((state) => ({ ...so, [parent]: state }))),
    [{}],
  )
}

/**
 * P(first outcome | the causes in `there`, no others) of a node, by the tables alone. Of a node's parents only one depends on
 * chance once the causes are known, so multiplying is right. Of two-valued nodes, yes first.
 */
export function chanceOfYes(network: ReadNetwork, name: string, there: ReadonlySet<string>): number {
  const { parents, rows, properties } = network.nodes.get(name)!
  if (properties.get('role') === 'cause') return there.has(name) ? 1 : 0
  const yes = parents.map((parent) => chanceOfYes(network, parent, there))
  return rows.reduce((sum, row, k) => {
    const weight = yes.reduce((w, p, at) => w * ((k >> (yes.length - 1 - at)) & 1 ? 1 - p : p), 1)
    return sum + weight * row[0]!
  }, 0)
}

/** The network as the reference library takes it. */
export function forLibrary(network: ReadNetwork): bayesjs.INetwork {
  return Object.fromEntries(
    [...network.nodes.values()].map((node) => {
      const byOutcome = (row: readonly number[]) =>
        Object.fromEntries(node.outcomes.map((outcome, k) => [outcome, row[k]!]))
      const cpt =
        node.parents.length === 0
          ? byOutcome(node.rows[0]!)
          : parentStates(network, node).map((when, k) => ({ when, then: byOutcome(node.rows[k]!) }))
      return [node.name, { id: node.name, states: [...node.outcomes], parents: [...node.parents], cpt }]
    }),
  )
}

function childrenOf(element: XmlElement): Partial<Record<string, XmlElement[]>> {
  const byName: Partial<Record<string, XmlElement[]>> = {}
  for (let node = element.firstChild; node; node = node.next)
    if (node instanceof XmlElement) (byName[node.name] ??= []).push(node)
  return byName
}

const textOf = (element: XmlElement): string => element.content.trim()

function onlyText(elements: readonly XmlElement[] | undefined): string {
  if (elements?.length !== 1) throw new Error(`${elements?.length ?? 0} elements where one belongs`)
  return textOf(elements[0]!)
}

function pairIn(text: string): [string, string] {
  const at = text.indexOf(' = ')
  if (at < 0) throw new Error(`"${text}" is no "name = value"`)
  return [text.slice(0, at), text.slice(at + 3)]
}
