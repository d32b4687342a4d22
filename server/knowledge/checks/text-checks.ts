/** Texts and their origins: finished, and each with a source that exists. */
import type { Folder } from '../../../shared/knowledge.js'
import { fieldPath } from '../file-problems.js'
import { fileOf, type Check, type Rulebook } from '../rulebook.js'

const knownSources: Check = {
  name: 'known-sources',
  description: 'Every source is a key of rules/sources.json.',
  run: (book) =>
    book.unreadable.has('sources')
      ? []
      : sourcesNamed(book)
          .filter(({ source }) => !Object.hasOwn(book.knowledge.sources, source))
          .map(({ file, field, source }) => ({
            file,
            field,
            message: `rules/sources.json has no "${source}"`,
            remedy: `add it there or use one of ${Object.keys(book.knowledge.sources).join(', ')}`,
          })),
}

const usedSources: Check = {
  name: 'used-sources',
  description: 'Every entry of rules/sources.json is named by some file.',
  needs: ['kinds', 'setups', 'causes', 'findings', 'steps', 'fixes', 'stops', 'relevance', 'policy', 'care'],
  run: (book) => {
    const named = new Set(sourcesNamed(book).map((it) => it.source))
    return Object.keys(book.knowledge.sources)
      .filter((source) => !named.has(source))
      .map((source) => ({
        file: 'rules/sources.json',
        field: source,
        message: 'no file names this source',
        remedy: 'name it where it belongs or remove it',
      }))
  },
}

const finishedTexts: Check = {
  name: 'finished-texts',
  description: 'No text still says TODO.',
  run: (book) =>
    [...book.ids.keys()].flatMap((folder) =>
      book.knowledge[folder].flatMap((entry) =>
        textsIn(entry)
          .filter(({ text }) => /\bTODO\b/.test(text))
          .map(({ path, text }) => ({
            file: fileOf(folder, entry.id),
            field: fieldPath(path),
            message: `it still says "${text.slice(0, 40)}"`,
            remedy: 'write the text',
          })),
      ),
    ),
}

interface NamedSource {
  readonly file: string
  readonly field: string
  readonly source: string
}

/** Every `source` in every file, however deep it stands. */
function sourcesNamed(book: Rulebook): NamedSource[] {
  return [...book.ids.keys()].flatMap((folder: Folder) =>
    book.knowledge[folder].flatMap((entry) =>
      textsIn(entry)
        .filter(({ path }) => path.at(-1) === 'source')
        .map(({ path, text }) => ({ file: fileOf(folder, entry.id), field: fieldPath(path), source: text })),
    ),
  )
}

function textsIn(
  value: unknown,
  path: readonly PropertyKey[] = [],
): { path: readonly PropertyKey[]; text: string }[] {
  if (typeof value === 'string') return [{ path, text: value }]
  if (typeof value !== 'object' || value === null) return []
  return Object.entries(value).flatMap(([key, inner]) =>
    textsIn(inner, [...path, Array.isArray(value) ? Number(key) : key]),
  )
}

export const textChecks: readonly Check[] = [knownSources, usedSources, finishedTexts]
