/**
 * Answers that made less likely what was there: honest ones that a tool with this fault gives now and then, and wrong
 * ones where a level has them. Knows the hidden tool.
 */
import type { Desk } from './desk.js'
import type { Done } from './moves.js'
import type { Tells } from './told-by.js'
import type { WrongAnswer } from './wrong-answers.js'
import { chanceOf } from './agreeing.js'

export interface Misled {
  readonly question: string
  readonly finding: string
  readonly present: boolean
  /** the cause that was there, and that it spoke against; undefined for a wrong answer that spoke against none */
  readonly against: string | undefined
  /** of tools with what was there, the share that answers so; in [0, 1] */
  readonly chance: number
  readonly wrong: WrongAnswer | undefined
}

/** @param tells all that this move's answers told */
export function misledBy(
  { kind: { model } }: Desk,
  { before, told }: Done,
  tells: readonly Tells[],
  wrong: readonly WrongAnswer[],
): Misled[] {
  return told.flatMap(({ question }): Misled[] => {
    const over = new Set(model.findingsOfQuestion.get(question)?.map((f) => model.findings[f]!.id))
    const isThere = ({ cause }: Tells) => before.causes.includes(model.causeIndex.get(cause)!)
    const [against] = tells
      .filter((it) => over.has(it.finding) && it.decibans < 0 && isThere(it))
      .sort((a, b) => a.decibans - b.decibans)
    const wrongly = wrong.find((it) => it.question === question)
    const [first] = over
    const finding = against?.finding ?? first
    if (finding === undefined || (!against && !wrongly)) return []
    const shows = chanceOf(model, model.findingIndex.get(finding)!, before.causes)
    const present = against?.present ?? true
    return [
      {
        question,
        finding,
        present,
        against: against?.cause,
        chance: present ? shows : 1 - shows,
        wrong: wrongly,
      },
    ]
  })
}
