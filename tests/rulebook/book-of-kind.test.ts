import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { modelOf } from '../../server/diagnosis/model.js'
import { knowledgeOf, tinyFiles, type Files } from './tiny-rulebook.js'

/** The tiny rulebook with a second kind that shares its blade and cord, and differs in what its hands do. */
function twoKinds(): Files {
  const files = tinyFiles()
  files.kinds.other = { ...files.kinds.tiny, name: 'Other clipper', plainName: 'Other one', order: 2 }
  for (const folder of ['setups', 'findings', 'steps', 'fixes', 'care'] as const)
    for (const file of Object.values<{ kinds: string[] }>(files[folder])) file.kinds = ['tiny', 'other']
  files.causes['dull-blade'].shares.other = 900
  files.causes['nothing-wrong'].shares.other = 100
  files.findings['cord-damaged'].kinds = ['tiny']
  return files
}
const read = (change: (files: Files) => void = () => {}): Knowledge => {
  const files = twoKinds()
  change(files)
  return knowledgeOf(files)
}
const ids = (list: readonly { readonly id: string }[]) => list.map(({ id }) => id)

describe('the rulebook of a kind', () => {
  it('holds what that kind can have, and nothing else', () => {
    const book = bookOf(read(), 'other')
    expect(ids(book.kinds)).toEqual(['other'])
    expect(ids(book.causes)).toEqual(['dull-blade', 'nothing-wrong'])
    expect(ids(book.findings)).not.toContain('cord-damaged')
  })

  it('asks only questions that a finding of the kind is over', () => {
    const danger = (kind: string) => bookOf(read(), kind).steps.find(({ id }) => id === 'danger-signs')!
    expect(ids(danger('tiny').questions)).toEqual(['cord-damaged'])
    expect(ids(danger('other').questions)).toEqual([])
  })

  it('keeps of a fix the cures of causes that the kind can have', () => {
    const cord = (kind: string) => bookOf(read(), kind).fixes.find(({ id }) => id === 'new-cord')!
    expect(Object.keys(cord('tiny').cures)).toEqual(['broken-cord'])
    expect(Object.keys(cord('other').cures)).toEqual([])
  })

  it('puts what differs for the kind in its place, whole, and leaves the rest', () => {
    const knowledge = read((it) => {
      it.fixes['new-blade'].forKind = { other: { minutes: 9, cautions: ['Mind the screws.'] } }
    })
    const blade = (kind: string) => bookOf(knowledge, kind).fixes.find(({ id }) => id === 'new-blade')!
    expect(blade('other')).toMatchObject({ minutes: 9, cautions: ['Mind the screws.'] })
    expect(blade('other').name).toBe(blade('tiny').name)
    expect(blade('tiny')).toMatchObject({ minutes: 5, cautions: ['Mind the teeth.'] })
  })

  it('fills in no default where the kind says nothing of a field', () => {
    const knowledge = read((it) => {
      it.setups['body-open'].forKind = { other: { minutes: 2 } }
      it.fixes['new-cord'].forKind = { other: { minutes: 2 } }
    })
    const book = bookOf(knowledge, 'other')
    expect(book.setups.find(({ id }) => id === 'body-open')!.opensBody).toBe(true)
    expect(book.fixes.find(({ id }) => id === 'new-cord')!.safetyTest).toBe(true)
  })

  it('is made once, and is its own manual', () => {
    const knowledge = read()
    const book = bookOf(knowledge, 'tiny')
    expect(bookOf(knowledge, 'tiny')).toBe(book)
    expect(bookOf(book, 'tiny')).toBe(book)
  })

  it('is empty for a kind that there is not', () => {
    const book = bookOf(read(), 'nothing')
    expect([book.kinds, book.causes, book.findings, book.steps, book.fixes].flat()).toEqual([])
  })

  it('is what the numbers are made from', () => {
    const knowledge = read((it) => {
      it.findings.pulls.forKind = { other: { leak: 0.2 } }
      it.causes['broken-cord'].shares.other = 300
    })
    const model = modelOf(knowledge, 'other')
    expect(model.leaks[model.findingIndex.get('pulls')!]).toBe(0.2)
    expect(ids(model.causes)).toEqual(ids(bookOf(knowledge, 'other').causes))
  })
})
