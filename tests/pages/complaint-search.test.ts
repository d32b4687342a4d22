import { describe, expect, it } from 'vitest'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { matching, tellable } from '../../server/pages/case/complaint-search.js'

const knowledge = loadKnowledge()
const kind = 'universal-motor'
const found = (words: string): readonly string[] => matching(knowledge, kind, words)

// How people say it at the bench: facts of the trade, common practice, no source.
describe('own words lead to statements', () => {
  it.each([
    ['it cuts in and out', 'cuts-in-and-out'],
    ['keeps cutting out on me', 'cuts-in-and-out'],
    ['dead, nothing happens when I switch it on', 'wont-start'],
    ['will not start', 'wont-start'],
    ['runs slow', 'slows-down'],
    ['gives me a shock', 'tingle-or-shock'],
    ['tingles in the hand', 'tingle-or-shock'],
    ['burning smell', 'smoke-or-burning-smell'],
    ['it smokes', 'smoke-or-burning-smell'],
    ['gets hot near the head', 'hot-near-head'],
    ['the whole thing gets hot', 'hot-all-over'],
    ['the blade wobbles', 'blade-wobbles'],
    ['damaged cord', 'cord-damaged'],
  ])('"%s" finds %s among the first five', (words, question) => {
    expect(found(words).slice(0, 5)).toContain(question)
  })
})

describe('typing errors are forgiven', () => {
  it.each([
    ['buring smel', 'smoke-or-burning-smell'],
    ['wobles', 'blade-wobbles'],
    ['tingels', 'tingle-or-shock'],
    ['smokng', 'smoke-or-burning-smell'],
    ['hott hed', 'hot-near-head'],
    ['wobb', 'blade-wobbles'],
  ])('"%s" still finds %s', (words, question) => {
    expect(found(words)).toContain(question)
  })
})

describe('what fits nothing', () => {
  it.each(['', '   ', 'zzzzqqq', '!!!', '\u0000', '<script>'.repeat(20)])('finds nothing for %j', (words) => {
    expect(found(words)).toEqual([])
  })
})

it('offers only what can be ticked, and never more than a dozen', () => {
  const ids = new Set(tellable(knowledge, kind).map(({ id }) => id))
  const matches = found('it gets hot and slow and stops and smells and rattles and the blade and the cord')
  expect(matches.length).toBeLessThanOrEqual(12)
  expect(matches.every((id) => ids.has(id))).toBe(true)
})
