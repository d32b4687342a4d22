/** Rules that come before the sum: over facts that there are, and deciding something. */
import { comparisonsOf } from '../../../shared/conditions.js'
import type { Verdict } from '../../../shared/knowledge.js'
import { canHold, type Domain } from '../satisfiable.js'
import { fileOf, type Check, type Rulebook } from '../rulebook.js'

const yesNo: Domain = { values: ['yes', 'no'] }
const percent: Domain = { min: 0, max: 100 }

/** The facts of a verdict that are always there, as listed beside its schema. */
const fixed: Readonly<Record<string, Domain>> = {
  'in-warranty': yesNo,
  'opening-voids': yesNo,
  covered: percent,
  'wear-part': percent,
  'own-doing': percent,
  opened: yesNo,
  'set-aside': yesNo,
  disinfected: yesNo,
  'can-safety-test': yesNo,
  'parts-to-be-had': yesNo,
  'needs-opening': percent,
  'age-of-life': { min: 0, max: 100_000 },
  'motor-faults-this-year': { min: 0, max: 20 },
}

const finding: Domain = { values: ['yes', 'no', 'cant-tell', 'unknown'] }

/** What a fact of a verdict can be; undefined for one that there is not. */
function domainOf(book: Rulebook, { kinds }: Verdict, fact: string): Domain | undefined {
  if (fixed[fact]) return fixed[fact]
  const { policy, findings, kinds: all } = book.knowledge
  if (policy.some(({ id }) => fact === `barred-by-${id}`)) return percent
  const parts = all.filter(({ id }) => kinds.includes(id)).flatMap((kind) => kind.parts)
  if (parts.some(({ id }) => fact === `suspected-${id}`)) return percent
  return findings.some((it) => it.id === fact && it.kinds.some((kind) => kinds.includes(kind)))
    ? finding
    : undefined
}

const verdictFacts: Check = {
  name: 'verdict-facts',
  description:
    'A verdict is over findings of its kinds and the facts of a verdict, with values that they can have.',
  needs: ['findings', 'policy', 'kinds'],
  run: (book) =>
    book.knowledge.verdicts.flatMap((verdict) => {
      const file = fileOf('verdicts', verdict.id)
      const of = (fact: string) => domainOf(book, verdict, fact)
      const wrong = comparisonsOf(verdict.when).flatMap((it) => {
        const domain = of(it.fact)
        if (domain === undefined) {
          const message = `"${it.fact}" is neither a finding of its kinds nor a fact of a verdict`
          const remedy = `use a finding, ${Object.keys(fixed).join(', ')}, barred-by-<policy> or suspected-<part>`
          return [{ file, field: 'when', message, remedy }]
        }
        if (canHold(it, () => domain)) return []
        const message = `"${it.fact}" is never ${it.operator} ${JSON.stringify(it.value)}`
        const allowed =
          'values' in domain
            ? `one of ${domain.values.join(', ')}`
            : `a number from ${domain.min} to ${domain.max}`
        return [{ file, field: 'when', message, remedy: `it is ${allowed}` }]
      })
      if (wrong.length > 0 || canHold(verdict.when, of)) return wrong
      const message = 'it can never hold: its parts contradict each other'
      return [{ file, field: 'when', message, remedy: 'use "any" where one of them is enough' }]
    }),
}

const decides: Check = {
  name: 'verdict-decides',
  description: 'A verdict bars a way out or speaks for one, and leaves one open.',
  run: (book) =>
    book.knowledge.verdicts.flatMap(({ id, bars, speaksFor }) => {
      const file = fileOf('verdicts', id)
      if (bars.length === 0 && speaksFor === undefined) {
        const message = 'it bars no way out and speaks for none'
        return [
          { file, field: 'bars', message, remedy: 'name the ways that it bars, or the one it speaks for' },
        ]
      }
      if (new Set(bars).size === 3) {
        const message = 'it bars every way out'
        return [{ file, field: 'bars', message, remedy: 'leave one open: there is always replacing' }]
      }
      if (speaksFor === undefined || !bars.includes(speaksFor)) return []
      const message = `it bars "${speaksFor}" and speaks for it`
      return [{ file, field: 'speaksFor', message, remedy: 'remove one of the two' }]
    }),
}

export const verdictChecks: readonly Check[] = [verdictFacts, decides]
