/** What differs between two rulebooks, for whoever has just changed one. */
import { isDeepStrictEqual } from 'node:util'
import { folderNames, type Knowledge } from '../../shared/knowledge.js'
import { questionIds } from './known-ids.js'

export interface RulebookChange {
  /** such as `findings/cuts-in-and-out`, `sources` or `moved` */
  readonly name: string
  readonly how: 'new' | 'changed' | 'gone'
}

/** Every file whose content differs, in the order of the folders. A file that was moved is one gone and one new. */
export function changesBetween(before: Knowledge, after: Knowledge): RulebookChange[] {
  const inFolders = folderNames.flatMap((folder): RulebookChange[] => {
    const old = new Map(before[folder].map((entry) => [entry.id, entry]))
    const fresh = new Map(after[folder].map((entry) => [entry.id, entry]))
    return [...new Set([...old.keys(), ...fresh.keys()])].sort().flatMap((id): RulebookChange[] => {
      const [was, is] = [old.get(id), fresh.get(id)]
      if (isDeepStrictEqual(was, is)) return []
      const how = was === undefined ? 'new' : is === undefined ? 'gone' : 'changed'
      return [{ name: `${folder}/${id}`, how }]
    })
  })
  const single = (['sources', 'moved'] as const).flatMap((name): RulebookChange[] =>
    isDeepStrictEqual(before[name], after[name]) ? [] : [{ name, how: 'changed' }],
  )
  return [...inFolders, ...single]
}

/**
 * Ids that are gone without a line in `moved.json` that says what took their place. Cases that name them
 * keep the words on file and lose their meaning.
 *
 * @returns such as `causes/worn-brushes`, or `questions/sparks` for a question inside a step or a fix
 */
export function lostIds(before: Knowledge, after: Knowledge): string[] {
  const named = ['kinds', 'causes', 'steps', 'fixes', 'stops'] as const
  const lost = (folder: string, was: readonly string[], is: readonly string[]): string[] => {
    const there = new Set([...is, ...Object.keys(after.moved[folder] ?? {})])
    return was.filter((id) => !there.has(id)).map((id) => `${folder}/${id}`)
  }
  return [
    ...named.flatMap((folder) => lost(folder, before[folder].map(idOf), after[folder].map(idOf))),
    ...lost('questions', questionIds(before), questionIds(after)),
  ]
}

const idOf = ({ id }: { readonly id: string }): string => id

const mostNamed = 8

/** "causes/loose-cap (new), findings/sparks and 3 more" */
export function changeWords(changes: readonly RulebookChange[]): string {
  const named = changes
    .slice(0, mostNamed)
    .map(({ name, how }) => (how === 'changed' ? name : `${name} (${how})`))
  const more = changes.length - named.length
  return more > 0 ? `${named.join(', ')} and ${more} more` : named.join(', ')
}
