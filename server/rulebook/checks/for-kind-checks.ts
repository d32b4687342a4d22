/** What differs for a kind belongs to that kind, and mentions only what there is. */
import type { RulebookProblem } from '../../errors.js'
import { fileOf, listed, missing, type Check, type Rulebook } from '../rulebook.js'

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

/** The fields that hold ids, and the folder where those ids live. */
const references = {
  setups: 'setups',
  needs: 'setups',
  afterwards: 'care',
} as const

const knownThere: Check = {
  name: 'differs-known',
  description: 'A set-up, care task or drawing that forKind names is there.',
  run: (book) =>
    differences(book).flatMap(({ file, field, own }): RulebookProblem[] => [
      ...Object.entries(references).flatMap(([name, folder]) => {
        const ids = own[name]
        if (!Array.isArray(ids)) return []
        return ids.flatMap((id, i) => missing(book, folder, String(id), file, `${field}.${name}[${i}]`))
      }),
      ...missingDrawing(book, own['drawing'], file, `${field}.drawing`),
    ]),
}

function missingDrawing(book: Rulebook, drawing: unknown, file: string, field: string): RulebookProblem[] {
  if (typeof drawing !== 'string' || book.drawings === undefined || book.drawings.has(drawing)) return []
  const message = `there is no views/partials/drawings/${drawing}.ejs`
  return [{ file, field, message, remedy: 'draw it or correct the name' }]
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

export const forKindChecks: readonly Check[] = [ofItsKinds, knownThere]
