/** Conditions of stops, relevance, papers and policy: over facts that exist, with values that they can have. */
import type { RulebookProblem } from '../../errors.js'
import { comparisonsOf, type Comparison, type Conditions } from '../../../shared/conditions.js'
import type { Folder } from '../../../shared/knowledge.js'
import { canHold, type Domain } from '../satisfiable.js'
import { fileOf, listed, type Check, type Rulebook } from '../rulebook.js'

/** How a finding can stand. */
const findingDomain: Domain = { values: ['yes', 'no', 'cant-tell', 'unknown'] }

/** The facts of a policy rule, as listed beside its schema. Levels are whole; S4 is three above S1. */
const policyDomains: Readonly<Record<string, Domain>> = {
  'skill-short-by': { values: [0, 1, 2, 3] },
  'needs-safety-test': { values: ['yes', 'no'] },
  'can-safety-test': { values: ['yes', 'no'] },
  'opens-body': { values: ['yes', 'no'] },
  'in-warranty': { values: ['yes', 'no'] },
  'needs-parts': { values: ['yes', 'no'] },
  'parts-to-be-had': { values: ['yes', 'no'] },
  'times-tried': { min: 0, max: 40 },
  for: { values: ['step', 'fix'] },
}

const overFindings: Check = {
  name: 'over-findings',
  description: 'A stop, relevance rule or line of a paper is over findings of its own kinds.',
  run: (book) =>
    findingRules(book).flatMap(({ folder, rule, field }) =>
      comparisonsOf(rule.when).flatMap(({ fact }) => {
        const file = fileOf(folder, rule.id)
        const finding = book.knowledge.findings.find((it) => it.id === fact)
        if (finding === undefined) {
          if (book.unreadable.has(`findings/${fact}`)) return []
          const message = `"${fact}" is no finding: there is no ${fileOf('findings', fact)}`
          return [{ file, field, message, remedy: 'add that file or correct the name' }]
        }
        if (finding.kinds.some((kind) => rule.kinds.includes(kind))) return []
        const message = `the finding "${fact}" is for ${listed(finding.kinds)}, this rule for ${listed(rule.kinds)}`
        return [{ file, field, message, remedy: 'use a finding of the same kind' }]
      }),
    ),
}

const findingValues: Check = {
  name: 'finding-values',
  description:
    'A stop, relevance rule or line of a paper compares a finding with "yes", "no", "cant-tell" or "unknown".',
  run: (book) =>
    findingRules(book).flatMap(({ folder, rule, field }) =>
      comparisonsOf(rule.when).flatMap((it) =>
        unfitting(fileOf(folder, rule.id), field, it, findingDomain, 'a finding'),
      ),
    ),
}

const policyFacts: Check = {
  name: 'policy-facts',
  description: 'A policy rule is over the facts of a policy, with values that they can have.',
  run: (book) =>
    book.knowledge.policy.flatMap(({ id, when }) =>
      comparisonsOf(when).flatMap((it) => {
        const domain = policyDomains[it.fact]
        const file = fileOf('policy', id)
        if (domain !== undefined) return unfitting(file, 'when', it, domain, `"${it.fact}"`)
        const message = `"${it.fact}" is no fact of a policy`
        return [
          { file, field: 'when', message, remedy: `use one of ${Object.keys(policyDomains).join(', ')}` },
        ]
      }),
    ),
}

const canEverHold: Check = {
  name: 'can-ever-hold',
  description:
    'The when of a stop, relevance or policy rule, or line of a paper, does not contradict itself.',
  run: (book) =>
    [
      ...findingRules(book).map((it) => ({ ...it, domainOf: (): Domain => findingDomain })),
      ...book.knowledge.policy.map((rule) => ({
        folder: 'policy' as const,
        field: 'when',
        rule,
        domainOf: (fact: string) => policyDomains[fact],
      })),
    ].flatMap(({ folder, rule, field, domainOf }) => {
      // a single value that cannot be is told by the checks above, with the place of that value
      const comparisons = comparisonsOf(rule.when)
      if (comparisons.some((it) => !canHold(it, domainOf)) || canHold(rule.when, domainOf)) return []
      const message = 'it can never hold: its parts contradict each other'
      return [
        {
          file: fileOf(folder, rule.id),
          field,
          message,
          remedy: 'use "any" where one of them is enough',
        },
      ]
    }),
}

const hidesSomething: Check = {
  name: 'hides-something',
  description: 'A relevance rule hides something.',
  run: (book) =>
    book.knowledge.relevance
      .filter(
        ({ hides }) =>
          !hides.running &&
          !hides.power &&
          !hides.safetyTest &&
          hides.questions.length + hides.fixes.length === 0,
      )
      .map(({ id }) => ({
        file: fileOf('relevance', id),
        field: 'hides',
        message: 'it hides nothing',
        remedy: 'set running, power or safetyTest, name questions or fixes, or remove the file',
      })),
}

/** A condition over findings, and where it stands. */
interface FindingRule {
  readonly folder: Folder
  readonly field: string
  readonly rule: { readonly id: string; readonly kinds: readonly string[]; readonly when: Conditions }
}

function findingRules(book: Rulebook): FindingRule[] {
  return [
    ...book.knowledge.stops.map((rule) => ({ folder: 'stops' as const, field: 'when', rule })),
    ...book.knowledge.relevance.map((rule) => ({ folder: 'relevance' as const, field: 'when', rule })),
    ...book.knowledge.papers.flatMap(({ id, kinds, when, unless }) =>
      Object.entries({ when, unless }).flatMap(([field, condition]) =>
        condition ? [{ folder: 'papers' as const, field, rule: { id, kinds, when: condition } }] : [],
      ),
    ),
  ]
}

/** The problem of a comparison that its fact can never meet. */
function unfitting(
  file: string,
  field: string,
  comparison: Comparison,
  domain: Domain,
  what: string,
): RulebookProblem[] {
  if (canHold(comparison, () => domain)) return []
  const allowed =
    'values' in domain ? `one of ${domain.values.join(', ')}` : `a number from ${domain.min} to ${domain.max}`
  const message = `${what} is never ${comparison.operator} ${JSON.stringify(comparison.value)} (${comparison.fact})`
  return [{ file, field, message, remedy: `it is ${allowed}` }]
}

export const conditionChecks: readonly Check[] = [
  overFindings,
  findingValues,
  policyFacts,
  canEverHold,
  hidesSomething,
]
