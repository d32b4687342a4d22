/** `npm run check:rules`: every problem of the rulebook, or one line of counts. Exit code 1 on problems. */
import { fileURLToPath } from 'node:url'
import { KnowledgeError } from '../errors.js'
import { folderNames } from '../../shared/knowledge.js'
import { staleSchemas } from './json-schemas.js'
import { readRulebook } from './load.js'

/** What the command prints, and whether all is well. */
export interface RulesReport {
  readonly ok: boolean
  readonly text: string
}

/** @param dir the rulebook's folder */
export function reportOnRules(dir: string): RulesReport {
  const { knowledge, problems, waiting } = readRulebook(dir)
  const stale = staleSchemas(dir)
  const counts = folderNames.map((folder) => `${knowledge[folder].length} ${folder}`)
  const lines = [
    ...(problems.length === 0 ? [] : [new KnowledgeError(problems, waiting.length).message]),
    ...(stale.length === 0
      ? []
      : [`rules/schema/ is out of date (${stale.join(', ')}); run npm run fix:rules`]),
  ]
  if (lines.length > 0) return { ok: false, text: lines.join('\n') }
  return { ok: true, text: `rules/ is in order: ${counts.join(', ')}` }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const { ok, text } = reportOnRules(
    process.argv[2] ?? fileURLToPath(new URL('../../rules/', import.meta.url)),
  )
  if (ok) console.log(text)
  else console.error(text)
  process.exitCode = ok ? 0 : 1
}
