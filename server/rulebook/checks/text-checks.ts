/** Texts and their origins: finished, and no source that nothing rests on. */
import { folderNames } from '../../../shared/knowledge.js'
import type { Check, Rulebook, RulebookText } from '../rulebook.js'

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

export const textChecks: readonly Check[] = [usedSources, finishedTexts]
