/** Proves that no word of the rulebook can break the file, and that the test's own reader catches a broken one. */
import { describe, expect, it } from 'vitest'
import { modelFile } from '../../server/interchange/model-file.js'
import { networkNodes } from '../../server/interchange/network.js'
import { cut, kinds, plainModel, wholeModel } from './cuts.js'
import { readXmlbif } from './xmlbif-reader.js'

const small = plainModel({
  priors: [0.2, 0.1],
  exclusive: [false, false],
  leaks: [0.05, 0.01],
  strengths: [
    [0.5, 0.25],
    [0, 0],
  ],
})
const good = modelFile(small, 'ab12')

describe('words', () => {
  it.each([
    '<b> & "c" \'d\' ]]>',
    '--><!--',
    'ends in -',
    'a\u0000b\u001fc',
    'é ’ 你 \u{1F9F0}',
    '\ud800 alone',
  ])('%j', (words) => {
    const first = { ...small.causes[0]!, name: words }
    const text = modelFile(
      { ...small, kind: { ...small.kind, plainName: words }, causes: [first, small.causes[1]!] },
      words,
    )
    const read = readXmlbif(text).nodes.get('cause_c0')!.properties.get('name')
    // XML 1.0, production 2: control characters and halves of pairs are no characters; one stands for each
    expect(read).toBe(words.replace(/[\u0000\u001f]|\ud800(?=\s)/g, '\u{FFFD}').trim())
  })
})

describe('small models', () => {
  it('a finding that no cause trips is its leak', () => {
    expect(readXmlbif(good).nodes.get('finding_f1')).toMatchObject({ parents: [], rows: [[0.01, 0.99]] })
  })

  it('one cause alone is the trouble', () => {
    const { nodes } = readXmlbif(modelFile(cut(small, [0], [0]), ''))
    expect(nodes.get('in_trouble')).toMatchObject({ parents: ['cause_c0'], rows: [[1, 0], [0, 1]] }) // prettier-ignore
  })

  it.each(kinds)('a finding of %s that has our longest ids keeps names apart', (kind) => {
    const names = networkNodes(wholeModel(kind)).map(({ name }) => name)
    expect(new Set(names).size).toBe(names.length)
  })

  it('none, or two that both exclude all others, are refused', () => {
    expect(() => networkNodes(cut(small, [], [0]))).toThrow('without causes')
    const two = plainModel({ priors: [0.1, 0.2], exclusive: [true, true], leaks: [], strengths: [] })
    expect(() => networkNodes(two)).toThrow('c0 and c1 cannot both exclude')
  })
})

describe('the reader refuses', () => {
  it.each([
    ['text that is no XML', '<NETWORK>', '<NETWORK', /./],
    ['an element that the format does not have', '<NAME>', '<NICK/><NAME>', /NICK|NETWORK/],
    [
      'an outcome outside a variable',
      '</DEFINITION>',
      '<OUTCOME>x</OUTCOME></DEFINITION>',
      /OUTCOME|DEFINITION/,
    ],
    ['no version', '<BIF VERSION="0.3">', '<BIF>', /VERSION/],
    ['a type that the format does not have', 'TYPE="nature"', 'TYPE="chance"', /TYPE/],
    ['a table that is too short', '<TABLE>0.2 0.8</TABLE>', '<TABLE>0.2</TABLE>', /wrong size/],
    ['a second definition', '<FOR>cause_c1<', '<FOR>cause_c0<', /two definitions/],
  ])('%s', (_what, from, to, message) => {
    expect(good).toContain(from)
    expect(() => readXmlbif(good.replace(from, to))).toThrow(message)
  })
})
