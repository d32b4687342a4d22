/** Every check over the rulebook, and how they are run. A check is added here and nowhere else. */
import type { RulebookProblem } from '../errors.js'
import { causeChecks } from './checks/cause-checks.js'
import { chainChecks } from './checks/chain-checks.js'
import { conditionChecks } from './checks/condition-checks.js'
import { dangerChecks } from './checks/danger-checks.js'
import { findingChecks } from './checks/finding-checks.js'
import { forKindChecks } from './checks/for-kind-checks.js'
import { idChecks } from './checks/id-checks.js'
import { kindChecks } from './checks/kind-checks.js'
import { lessonChecks } from './checks/lesson-checks.js'
import { limitChecks } from './checks/limit-checks.js'
import { paperChecks } from './checks/paper-checks.js'
import { questionChecks } from './checks/question-checks.js'
import { referenceChecks } from './checks/reference-checks.js'
import { setupChecks } from './checks/setup-checks.js'
import { careChecks } from './checks/care-checks.js'
import { shareChecks } from './checks/share-checks.js'
import { signChecks } from './checks/sign-checks.js'
import { slipChecks } from './checks/slip-checks.js'
import { speechChecks } from './checks/speech-checks.js'
import { tellingChecks } from './checks/telling-checks.js'
import { textChecks } from './checks/text-checks.js'
import { verdictChecks } from './checks/verdict-checks.js'
import { whenChecks } from './checks/when-checks.js'
import type { Check, Rulebook } from './rulebook.js'

export const checks: readonly Check[] = [
  ...referenceChecks,
  ...idChecks,
  ...kindChecks,
  ...forKindChecks,
  ...conditionChecks,
  ...questionChecks,
  ...findingChecks,
  ...whenChecks,
  ...careChecks,
  ...causeChecks,
  ...shareChecks,
  ...setupChecks,
  ...dangerChecks,
  ...signChecks,
  ...slipChecks,
  ...chainChecks,
  ...lessonChecks,
  ...speechChecks,
  ...tellingChecks,
  ...textChecks,
  ...verdictChecks,
  ...paperChecks,
  ...limitChecks,
]

/** What the checks found, sorted by file; and the names of those that must wait for an unreadable file. */
export function runChecks(book: Rulebook): { problems: RulebookProblem[]; waiting: string[] } {
  const unreadableFolders = new Set([...book.unreadable].map((it) => it.split('/')[0]))
  const waiting = checks.filter((it) => it.needs?.some((folder) => unreadableFolders.has(folder)))
  const problems = checks.filter((it) => !waiting.includes(it)).flatMap((it) => it.run(book))
  return {
    problems: problems.sort((a, b) => (a.file < b.file ? -1 : a.file > b.file ? 1 : 0)),
    waiting: waiting.map((it) => it.name),
  }
}
