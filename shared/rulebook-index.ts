import type { Cause, Finding, Fix, Kind, Knowledge, Question, Setup, Step, Stop } from './knowledge.js'
import { comparisonsOf } from './conditions.js'
import { onceFor } from './once-for.js'

/** Where a question is asked: on a step, or as the outcome of a fix. */
interface AskedOn {
  readonly question: Question
  readonly step: Step | null
  readonly fix: Fix | null
}

/** The rulebook by id, so that a page finds a name without searching. */
export interface Lookup {
  readonly kinds: ReadonlyMap<string, Kind>
  readonly setups: ReadonlyMap<string, Setup>
  readonly causes: ReadonlyMap<string, Cause>
  readonly findings: ReadonlyMap<string, Finding>
  readonly steps: ReadonlyMap<string, Step>
  readonly fixes: ReadonlyMap<string, Fix>
  readonly stops: ReadonlyMap<string, Stop>
  readonly questions: ReadonlyMap<string, AskedOn>
  /** the question whose answer a finding is read from */
  readonly questionOf: ReadonlyMap<string, string>
  readonly findingsOf: ReadonlyMap<string, readonly Finding[]>
}

/** The lookup of a rulebook, made once; a loaded rulebook never changes. */
export const lookupOf: (knowledge: Knowledge) => Lookup = onceFor(make)

function make(knowledge: Knowledge): Lookup {
  const questions = new Map<string, AskedOn>()
  for (const step of knowledge.steps)
    for (const question of step.questions) questions.set(question.id, { question, step, fix: null })
  for (const fix of knowledge.fixes)
    if (fix.outcome) questions.set(fix.outcome.id, { question: fix.outcome, step: null, fix })

  const questionOf = new Map<string, string>()
  const findingsOf = new Map<string, Finding[]>()
  for (const finding of knowledge.findings) {
    const question = comparisonsOf(finding.when)[0]?.fact
    if (!question) continue
    questionOf.set(finding.id, question)
    findingsOf.set(question, [...(findingsOf.get(question) ?? []), finding])
  }
  return {
    kinds: byId(knowledge.kinds),
    setups: byId(knowledge.setups),
    causes: byId(knowledge.causes),
    findings: byId(knowledge.findings),
    steps: byId(knowledge.steps),
    fixes: byId(knowledge.fixes),
    stops: byId(knowledge.stops),
    questions,
    questionOf,
    findingsOf,
  }
}

function byId<Thing extends { readonly id: string }>(things: readonly Thing[]): ReadonlyMap<string, Thing> {
  return new Map(things.map((thing) => [thing.id, thing]))
}
