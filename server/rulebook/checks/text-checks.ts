/** Texts and their origins: finished, and each with a source that exists. */
import { folderNames } from '../../../shared/knowledge.js'
import type { Check, Rulebook, RulebookText } from '../rulebook.js'

const knownSources: Check = {
  name: 'known-sources',
  description: 'Every source is a key of rules/sources.json.',
  run: (book) =>
    book.unreadable.has('sources')
      ? []
      : sourcesNamed(book)
          .filter(({ text }) => !Object.hasOwn(book.knowledge.sources, text))
          .map(({ file, field, text }) => ({
            file,
            field,
            message: `rules/sources.json has no "${text}"`,
            remedy: `add it there or use one of ${Object.keys(book.knowledge.sources).join(', ')}`,
          })),
}

const usedSources: Check = {
  name: 'used-sources',
  description: 'Every entry of rules/sources.json is named by some file.',
  needs: folderNames,
  run: (book) => {
    const named = new Set(sourcesNamed(book).map((it) => it.text))
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
    book.texts
      .filter(({ text }) => /\bTODO\b/.test(text))
      .map(({ file, field, text }) => ({
        file,
        field,
        message: `it still says "${text.slice(0, 40)}"`,
        remedy: 'write the text',
      })),
}

/** Every `source` in every file, however deep it stands. */
function sourcesNamed(book: Rulebook): RulebookText[] {
  return book.texts.filter(({ field }) => field === 'source' || field.endsWith('.source'))
}

export const textChecks: readonly Check[] = [knownSources, usedSources, finishedTexts]
