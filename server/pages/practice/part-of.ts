/** The part of the tool that a look or a repair is about: the one whose trouble it shows, or cures, best. */
import type { Knowledge, Step } from '../../../shared/knowledge.js'
import { questionOf, strengthIn } from '../../../shared/finding-rule.js'
import { onceForEach } from '../../../shared/once-for.js'

/** @param book the rulebook of one kind; the part's id, or empty where it is about none */
export function partOfFix({ causes, fixes }: Knowledge, fix: string): string {
  const cures = fixes.find(({ id }) => id === fix)?.cures ?? {}
  const best = Object.entries(cures).sort(([, a], [, b]) => b - a)[0]?.[0]
  return causes.find(({ id }) => id === best)?.part ?? ''
}

/** A book of a kind is made once, and its steps with it. */
const parts = onceForEach<Step, string>()

export const partOfStep = (book: Knowledge, step: Step): string =>
  parts(step, '', () => mostShown(book, step))

function mostShown(book: Knowledge, step: Step): string {
  const asked = new Set(step.questions.map(({ id }) => id))
  let best = { part: '', strength: 0 }
  for (const finding of book.findings) {
    if (!asked.has(questionOf(finding) ?? '')) continue
    for (const { id, part } of book.causes) {
      const strength = strengthIn(finding, id, book.kinds[0]!.id) ?? 0
      if (strength > best.strength) best = { part, strength }
    }
  }
  return best.part
}
