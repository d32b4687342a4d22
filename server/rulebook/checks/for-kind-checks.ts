/** What differs for a kind belongs to that kind. */
import { fileOf, listed, type Check, type Rulebook } from '../rulebook.js'

const folders = [
  'setups',
  'causes',
  'findings',
  'steps',
  'fixes',
  'stops',
  'care',
  'papers',
  'slips',
  'hearsay',
] as const

const ofItsKinds: Check = {
  name: 'differs-for-its-kinds',
  description: 'forKind names kinds that the file is for, and changes something.',
  run: (book) =>
    differences(book).flatMap(({ file, field, kind, kinds, own }) => {
      if (!kinds.includes(kind)) {
        const message = `this file is for ${listed(kinds)}, not for "${kind}"`
        return [{ file, field, message, remedy: 'remove it or add the kind to the file' }]
      }
      if (Object.keys(own).length > 0) return []
      return [{ file, field, message: 'it changes nothing', remedy: 'remove it or say what differs' }]
    }),
}

function differences(book: Rulebook) {
  return folders.flatMap((folder) =>
    book.knowledge[folder].flatMap((entry) =>
      Object.entries(entry.forKind ?? {}).map(([kind, own]) => ({
        file: fileOf(folder, entry.id),
        field: `forKind.${kind}`,
        kind,
        kinds: 'kinds' in entry ? entry.kinds : Object.keys(entry.shares),
        own: own as Readonly<Record<string, unknown>>,
      })),
    ),
  )
}

export const forKindChecks: readonly Check[] = [ofItsKinds]
