/**
 * Two-valued networks in XMLBIF 0.3, the interchange format for Bayesian networks (Cozman and others, 1998),
 * http://sites.poli.usp.br/p/fabio.cozman/Research/InterchangeFormat/
 *
 * Coverage: NETWORK, NAME, PROPERTY ("name = value"), VARIABLE of type nature, OUTCOME, DEFINITION, FOR, GIVEN, TABLE.
 * Decisions and utilities are not in our model. A TABLE counts through the states of the variables in the order of
 * their declaration in the DEFINITION: the first GIVEN slowest, FOR fastest.
 */
import type { NetworkNode } from './network.js'

/** The format's own declaration, inside each file as in its published examples: validating readers ask for it. */
const declaration = [
  '<!DOCTYPE BIF [',
  '  <!ELEMENT BIF (NETWORK)*>',
  '  <!ATTLIST BIF VERSION CDATA #REQUIRED>',
  '  <!ELEMENT NETWORK (NAME, (PROPERTY | VARIABLE | DEFINITION)*)>',
  '  <!ELEMENT NAME (#PCDATA)>',
  '  <!ELEMENT VARIABLE (NAME, (OUTCOME | PROPERTY)*)>',
  '  <!ATTLIST VARIABLE TYPE (nature | decision | utility) "nature">',
  '  <!ELEMENT OUTCOME (#PCDATA)>',
  '  <!ELEMENT DEFINITION (FOR | GIVEN | TABLE | PROPERTY)*>',
  '  <!ELEMENT FOR (#PCDATA)>',
  '  <!ELEMENT GIVEN (#PCDATA)>',
  '  <!ELEMENT TABLE (#PCDATA)>',
  '  <!ELEMENT PROPERTY (#PCDATA)>',
  ']>',
]

/**
 * @param name     of the network: a letter, then letters, digits and underscores
 * @param comment  lines to stand at the top, for people
 * @param nodes    parents before children
 * @returns the whole file; the same for the same arguments
 */
export function xmlbif(name: string, comment: readonly string[], nodes: readonly NetworkNode[]): string {
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<!--',
    ...comment.map((line) => (line === '' ? '' : `  ${commentText(line)}`)),
    '-->',
    ...declaration,
    '<BIF VERSION="0.3">',
    '<NETWORK>',
    element('NAME', name),
    ...nodes.flatMap(variable),
    ...nodes.flatMap(definition),
    '</NETWORK>',
    '</BIF>',
    '',
  ].join('\n')
}

const variable = ({ name, properties }: NetworkNode): string[] => [
  '<VARIABLE TYPE="nature">',
  element('NAME', name),
  element('OUTCOME', 'yes') + element('OUTCOME', 'no'),
  ...properties.map(([key, value]) => element('PROPERTY', `${key} = ${value}`)),
  '</VARIABLE>',
]

const definition = ({ name, parents, chances }: NetworkNode): string[] => [
  '<DEFINITION>',
  [element('FOR', name), ...parents.map((parent) => element('GIVEN', parent))].join(''),
  // a number's shortest decimal form reads back to the same double
  element('TABLE', chances.map((p) => `${p} ${1 - p}`).join('  ')),
  '</DEFINITION>',
]

const element = (name: string, text: string): string => `<${name}>${escaped(text)}</${name}>`

const escaped = (text: string): string =>
  withoutControls(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')

/** A comment may hold neither two hyphens in a row nor one at its end. */
const commentText = (line: string): string => withoutControls(line).replaceAll(/-(?=-|$)/g, '- ')

/** XML 1.0, production 2: what is no character there cannot be written at all, not even escaped. */
const withoutControls = (text: string): string =>
  text.replaceAll(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '\u{FFFD}')
