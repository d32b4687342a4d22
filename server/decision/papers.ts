/** Which lines of the papers that go with a tool hold, by what was found on it. */
import type { FindingState } from '../../shared/diagnosis.js'
import type { Knowledge, Paper } from '../../shared/knowledge.js'
import { comparisonsOf } from '../../shared/conditions.js'
import { firedRules } from '../diagnosis/fired-rules.js'

/**
 * The lines that hold, in rulebook order.
 *
 * @param book     the rulebook of the tool's kind
 * @param findings how they stand; one that is missing is unknown
 */
export async function papersFor(
  { papers }: Pick<Knowledge, 'papers'>,
  findings: ReadonlyMap<string, FindingState>,
): Promise<readonly Paper[]> {
  const rules = papers.flatMap(({ id, when, unless }) => [
    ...(when ? [{ id: `${id} when`, when }] : []),
    ...(unless ? [{ id: `${id} unless`, when: unless }] : []),
  ])
  const facts: Record<string, string> = {}
  for (const { when } of rules)
    for (const { fact } of comparisonsOf(when)) facts[fact] = findings.get(fact) ?? 'unknown'
  const held = new Set(await firedRules(rules, facts))
  return papers.filter(
    ({ id, when, unless }) => (!when || held.has(`${id} when`)) && (!unless || !held.has(`${id} unless`)),
  )
}
