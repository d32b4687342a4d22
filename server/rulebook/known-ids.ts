/** Every id that a file of the rulebook may name, so that an editor can complete it and underline a misspelt one. */
import type { IdList } from '../../shared/ids.js'
import type { Folder, Knowledge } from '../../shared/knowledge.js'
import { drawingNames } from './load.js'
import { readFiles } from './read-files.js'

/** The lists by name that files of `rules/` name ids from; each sorted, without doubles. */
export type KnownIds = Readonly<Record<NamedInRules, readonly string[]>>
type NamedInRules = Exclude<IdList, 'steps' | 'stops' | 'levels' | 'steps-or-fixes'>

/**
 * @param dir the rulebook's folder
 * @returns null while a file that ids stand inside (kinds, steps, fixes, sources) cannot be read: half a list would
 *   underline what is right
 */
export function knownIds(dir: string): KnownIds | null {
  const { knowledge, unreadable } = readFiles(dir)
  if ([...unreadable].some((name) => /^(kinds|steps|fixes|sources)\b/.test(name))) return null
  /** A file that cannot be read is still there, and may be named. */
  const files = (folder: Folder): string[] => [
    ...knowledge[folder].map(({ id }) => id),
    ...[...unreadable]
      .filter((name) => name.startsWith(`${folder}/`))
      .map((name) => name.slice(folder.length + 1)),
  ]
  return {
    kinds: sorted(files('kinds')),
    parts: sorted(knowledge.kinds.flatMap(({ parts }) => parts.map(({ id }) => id))),
    setups: sorted(files('setups')),
    causes: sorted(files('causes')),
    findings: sorted(files('findings')),
    questions: sorted(questionIds(knowledge)),
    fixes: sorted(files('fixes')),
    care: sorted(files('care')),
    sources: sorted(Object.keys(knowledge.sources)),
    drawings: sorted([...(drawingNames() ?? [])]),
    signs: sorted(files('signs')),
    slips: sorted(files('slips')),
    confusions: sorted(files('confusions')),
    speech: sorted(files('speech')),
  }
}

/** Every question that a step or a fix asks. */
export function questionIds({ steps, fixes }: Pick<Knowledge, 'steps' | 'fixes'>): string[] {
  const asked = [
    ...steps.flatMap(({ questions }) => questions),
    ...fixes.flatMap(({ outcome }) => outcome ?? []),
  ]
  return sorted(asked.map(({ id }) => id))
}

const sorted = (ids: readonly string[]): string[] => [...new Set(ids)].sort()
