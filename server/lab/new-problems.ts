/** What the checks say of a changed rulebook. */
import { folders, type Cause, type Finding, type Knowledge } from '../../shared/knowledge.js'
import { onceFor } from '../../shared/once-for.js'
import type { RulebookProblem } from '../errors.js'
import { problemLine } from '../errors.js'
import { runChecks } from '../rulebook/checks.js'
import { schemaProblems } from '../rulebook/file-problems.js'
import { fileOf, rulebookOf } from '../rulebook/rulebook.js'

/** What `npm run check:rules` would find wrong with the changed rulebook, and did not with the one it came from. */
export function newProblems(before: Knowledge, after: Knowledge): readonly RulebookProblem[] {
  if (after === before) return []
  const known = new Set(problemsOf(before).map(problemLine))
  const unshapely = (['findings', 'causes'] as const).flatMap((folder) =>
    after[folder].flatMap((entry, i) => (entry === before[folder][i] ? [] : shapeProblems(folder, entry))),
  )
  return [...unshapely, ...problemsOf(after).filter((problem) => !known.has(problemLine(problem)))]
}

function shapeProblems(folder: 'findings' | 'causes', entry: Finding | Cause): readonly RulebookProblem[] {
  const { id, ...data } = entry
  const parsed = folders[folder].safeParse(data)
  return parsed.success ? [] : schemaProblems(fileOf(folder, id), parsed.error.issues, data)
}

const problemsOf = onceFor((knowledge: Knowledge) => runChecks(rulebookOf(knowledge)).problems)
