/** Set-ups: reachable, safe, and in keeping with what runs while they stand. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { questionOf } from '../../../shared/finding-rule.js'
import { fileOf, listed, type Check } from '../rulebook.js'

const noCycles: Check = {
  name: 'setup-cycles',
  description: 'No set-up needs itself, by whatever detour.',
  run: (book) =>
    book.knowledge.setups
      .filter((it) => needed(book.knowledge, it.needs).has(it.id))
      .map((it) => ({
        file: fileOf('setups', it.id),
        field: 'needs',
        message: `it needs itself (through ${listed(it.needs)}), so it can never stand`,
        remedy: 'break the circle',
      })),
}

const testAfterOpening: Check = {
  name: 'test-after-opening',
  description: 'A fix that bares mains parts calls for an electrical safety test.',
  needs: ['setups'],
  run: (book) =>
    book.knowledge.fixes
      .filter(({ id, kinds }) =>
        kinds.some((kind) => {
          const there = bookOf(book.knowledge, kind)
          const fix = there.fixes.find((it) => it.id === id)
          return fix !== undefined && !fix.safetyTest && opensBody(there, fix.setups)
        }),
      )
      .map((fix) => ({
        file: fileOf('fixes', fix.id),
        field: 'safetyTest',
        message: 'it opens the body, yet no electrical safety test follows',
        remedy: 'set it to true',
      })),
}

const runningNeedsPower: Check = {
  name: 'running-needs-power',
  description: 'A check for something that shows on a running tool only runs the tool.',
  run: (book) =>
    book.knowledge.findings.flatMap((finding) => {
      const question = questionOf(finding)
      const step = book.knowledge.steps.find(
        (it) =>
          it.form === 'check' &&
          !it.power &&
          it.kinds.some((kind) => finding.kinds.includes(kind)) &&
          it.questions.some((asked) => asked.id === question),
      )
      if (!finding.running || step === undefined) return []
      return [
        {
          file: fileOf('steps', step.id),
          field: 'power',
          message: `it settles "${finding.id}", which shows only on a running tool, with the tool switched off`,
          remedy: `set power to true, or running to false in ${fileOf('findings', finding.id)}`,
        },
      ]
    }),
}

/** Set-ups that these need, themselves included, however deep. */
function needed(knowledge: Knowledge, setups: readonly string[]): Set<string> {
  const all = new Set<string>()
  const visit = (id: string): void => {
    if (all.has(id)) return
    all.add(id)
    knowledge.setups.find((it) => it.id === id)?.needs.forEach(visit)
  }
  setups.forEach(visit)
  return all
}

function opensBody(knowledge: Knowledge, setups: readonly string[]): boolean {
  const all = needed(knowledge, setups)
  return knowledge.setups.some((it) => it.opensBody && all.has(it.id))
}

export const setupChecks: readonly Check[] = [noCycles, testAfterOpening, runningNeedsPower]
