/**
 * The real rulebook made smaller by drawing from it, or larger by copying it under new names, so that causes,
 * findings, steps and fixes grow together.
 */
import { comparisonsOf } from '../../shared/conditions.js'
import type { Condition, Conditions } from '../../shared/conditions.js'
import type { Cause, Finding, Fix, Knowledge, Step } from '../../shared/knowledge.js'

interface Part {
  readonly causes: readonly Cause[]
  readonly findings: readonly Finding[]
  readonly steps: readonly Step[]
  readonly fixes: readonly Fix[]
}

/**
 * @param causes how many causes of the kind to end with, at least 2
 * @param random uniform in [0, 1)
 */
export function scaledRulebook(
  knowledge: Knowledge,
  kind: string,
  causes: number,
  random: () => number,
): Knowledge {
  const whole = ofKind(knowledge, kind)
  const size = whole.causes.length
  const parts: Part[] = []
  for (let left = causes; left > 0; left -= size) {
    const part = left >= size ? whole : drawn(whole, left, random)
    parts.push(parts.length === 0 ? part : renamed(part, `-${parts.length + 1}`))
  }
  const findings = parts.flatMap((part) => part.findings)
  const known = new Set(findings.map(({ id }) => id))
  const holds = ({ when }: { when: Conditions }) => comparisonsOf(when).every(({ fact }) => known.has(fact))
  return {
    ...knowledge,
    causes: parts.flatMap((part) => part.causes),
    findings,
    steps: parts.flatMap((part) => part.steps),
    fixes: parts.flatMap((part) => part.fixes),
    stops: knowledge.stops.filter(holds),
    relevance: knowledge.relevance.filter(holds),
  }
}

function ofKind({ causes, findings, steps, fixes }: Knowledge, kind: string): Part {
  const has = ({ kinds }: { kinds: readonly string[] }) => kinds.includes(kind)
  return {
    causes: causes.filter(({ shares }) => shares[kind] !== undefined),
    findings: findings.filter(has),
    steps: steps.filter(has),
    fixes: fixes.filter(has),
  }
}

/** So many of the causes, the same share of the steps, and what belongs to these. */
function drawn(whole: Part, count: number, random: () => number): Part {
  const causes = some(whole.causes, count, random)
  const ids = new Set(causes.map(({ id }) => id))
  const danger = whole.steps.filter(({ form }) => form === 'danger')
  const others = whole.steps.filter(({ form }) => form !== 'danger')
  const share = count / whole.causes.length
  const steps = [...danger, ...some(others, Math.round(others.length * share), random)]
  const fixes = whole.fixes
    .map((fix) => ({ ...fix, cures: only(fix.cures, ids) }))
    .filter(({ cures }) => Object.keys(cures).length > 0)
  const asked = new Set([
    ...steps.flatMap(({ questions }) => questions.map(({ id }) => id)),
    ...fixes.flatMap(({ outcome }) => outcome?.id ?? []),
  ])
  const findings = whole.findings
    .filter(({ when }) => comparisonsOf(when).every(({ fact }) => asked.has(fact)))
    .map((finding) => ({ ...finding, strengths: only(finding.strengths, ids) }))
  return { causes, findings, steps, fixes }
}

/** A copy under new names; without danger questions, which a kind has once, and "nothing wrong", likewise. */
function renamed(part: Part, end: string): Part {
  const named = <Value>(map: Readonly<Record<string, Value>>): Record<string, Value> =>
    Object.fromEntries(Object.entries(map).map(([id, value]) => [id + end, value]))
  const steps = part.steps.filter(({ form }) => form !== 'danger')
  const danger = new Set(
    part.steps
      .filter((step) => !steps.includes(step))
      .flatMap(({ questions }) => questions.map(({ id }) => id)),
  )
  return {
    causes: part.causes.map((cause) => ({ ...cause, id: cause.id + end, exclusive: false })),
    findings: part.findings
      .filter(({ when }) => comparisonsOf(when).every(({ fact }) => !danger.has(fact)))
      .map((finding) => ({
        ...finding,
        id: finding.id + end,
        when: about(finding.when, end) as Conditions,
        strengths: named(finding.strengths),
        ...(finding.topic !== undefined && { topic: finding.topic + end }),
      })),
    steps: steps.map((step) => ({
      ...step,
      id: step.id + end,
      questions: step.questions.map((question) => ({ ...question, id: question.id + end })),
    })),
    fixes: part.fixes.map(({ ends: _, ...fix }) => ({
      ...fix,
      id: fix.id + end,
      cures: named(fix.cures),
      ...(fix.outcome && { outcome: { ...fix.outcome, id: fix.outcome.id + end } }),
    })),
  }
}

function about(condition: Condition, end: string): Condition {
  if ('all' in condition) return { all: condition.all.map((it) => about(it, end)) }
  if ('any' in condition) return { any: condition.any.map((it) => about(it, end)) }
  return { ...condition, fact: condition.fact + end }
}

function some<Thing>(things: readonly Thing[], count: number, random: () => number): Thing[] {
  const chosen = new Set<number>()
  while (chosen.size < Math.min(count, things.length)) chosen.add(Math.floor(random() * things.length))
  return things.filter((_, k) => chosen.has(k))
}

function only<Value>(map: Readonly<Record<string, Value>>, ids: ReadonlySet<string>): Record<string, Value> {
  return Object.fromEntries(Object.entries(map).filter(([id]) => ids.has(id)))
}
