/** Set-ups: reachable, safe, and in keeping with what runs while they stand. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { questionOf } from '../../../shared/finding-rule.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import { fileOf, listed, type Check } from '../rulebook.js'

const noCycles: Check = {
  name: 'setup-cycles',
  description: 'No set-up needs itself, by whatever detour.',
  run: (book) =>
    book.knowledge.setups
      .filter((it) => setupsNeeded(book.knowledge.setups, it.needs).includes(it))
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

const opensBody = ({ setups }: Knowledge, ids: readonly string[]): boolean =>
  setupsNeeded(setups, ids).some((it) => it.opensBody)

export const setupChecks: readonly Check[] = [noCycles, testAfterOpening, runningNeedsPower]
