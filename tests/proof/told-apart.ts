/** Which causes a question tells apart, exactly. */
import type { KindFigures } from '../../shared/proof.js'
import type { KindModel } from '../../server/diagnosis/model.js'
import type { Asker } from '../../server/simulation/interview.js'
import type { RepairItems } from '../../server/proof/repair-items.js'

/** Findings whose chances differ by less than this tell two causes apart in fewer than three tools of ten. */
const leastApart = 0.3

/** Findings that the asker may settle, one of each topic: the one that the score takes. */
export function askable({ model, questions }: Asker): number[] {
  const asked = new Set(questions)
  const topics = new Set<string>()
  return [...model.findings.keys()].filter((f) => {
    const { topic } = model.findings[f]!
    if (!asked.has(model.questionOf[f]!) || (topic !== undefined && topics.has(topic))) return false
    if (topic !== undefined) topics.add(topic)
    return true
  })
}

/** P(finding true | this cause alone there). */
export const chanceAlone = (model: KindModel, finding: number, cause: number): number =>
  1 - (1 - model.leaks[finding]!) * (1 - model.strengths[finding]![cause]!)

/** Pairs of causes of which no finding is at least `leastApart` likelier under one than under the other. */
export function alikePairs(asker: Asker, items: RepairItems): KindFigures['alike'] {
  const { model } = asker
  const findings = askable(asker)
  const rows = model.causes.map((_, c) => findings.map((f) => chanceAlone(model, f, c)))
  const pairs: KindFigures['alike'] = []
  rows.forEach((row, a) => {
    for (let b = a + 1; b < rows.length; b++) {
      const apart = row.reduce((most, p, k) => Math.max(most, Math.abs(p - rows[b]![k]!)), 0)
      if (apart >= leastApart) continue
      const causes: [string, string] = [model.causes[a]!.id, model.causes[b]!.id]
      pairs.push({ causes, apart, sameRepair: items.of[a] === items.of[b] })
    }
  })
  return pairs.sort((x, y) => x.apart - y.apart)
}
