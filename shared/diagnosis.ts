/** What flows down the pipeline: facts, findings, posterior, weights, next step, assessment. */
import type { CauseId, FindingId, FixId, QuestionId, StepId, StopId } from './ids.js'

/** A fact for the rules engine. Total: what nobody has given is `'unknown'`, and never evidence. */
export type FactValue = string | number | boolean
export type Facts = Readonly<Record<string, FactValue>>

/** How a finding stands. `'cant-tell'` and `'unknown'` are no evidence. */
export type FindingState = 'yes' | 'no' | 'cant-tell' | 'unknown'

/** A finding that enters the score. `after` = how many fixes had been tried when it was seen. */
export interface Evidence {
  readonly finding: FindingId
  readonly present: boolean
  readonly after: number
}

/** Probabilities in [0, 1]; `exact` is false when the fault sets were enumerated with a bound. */
export interface CauseBelief {
  readonly id: CauseId
  /** P(there now), whatever else is there. Several faults at once: these do not sum to 1. */
  readonly probability: number
  /** P(it alone is there now). */
  readonly sole: number
}

/** Weight of evidence in decibans (Good 1950): had this answer been missing, the others given. */
export interface Weight {
  readonly finding: FindingId
  readonly decibans: number
}

export interface CauseView extends CauseBelief {
  readonly name: string
  readonly for: readonly Weight[]
  readonly against: readonly Weight[]
}

export interface ActiveStop {
  readonly id: StopId
  readonly grade: 'set-aside' | 'off-the-client'
  readonly now: readonly string[]
  readonly lifted: boolean
}

export type NextKind = 'ask' | 'check' | 'fix' | 'send-in' | 'retire' | 'stop' | 'nothing-found'

/** The next best step. Money in major units. */
export interface NextStep {
  readonly step: NextKind
  /** step, fix or stop id; null for send-in and retire */
  readonly id: StepId | FixId | StopId | null
  readonly questions: readonly QuestionId[]
  /** what this step itself is expected to cost, set-ups included */
  readonly stepCost: number
  /** minutes of this step, set-ups that do not stand yet included */
  readonly minutes: number
  /** expected total cost from here on, this step included */
  readonly expectedCost: number
  /** how much less that is than ending now without it */
  readonly saves: number
  /** causes that it tells apart (or that it cures), likeliest first */
  readonly separates: readonly CauseId[]
  /** was the rest solved exactly? */
  readonly exact: boolean
}

/** Every stage of one run, for the pages and the API. */
export interface Assessment {
  readonly kind: string
  readonly findings: ReadonlyMap<FindingId, FindingState>
  readonly evidence: readonly Evidence[]
  /** rules that hold, in rulebook order: findings, stops, relevance, policy */
  readonly fired: readonly string[]
  /** every active stop that was not lifted, worst first; the first is the one to show */
  readonly stops: readonly ActiveStop[]
  /** questions that are not asked now, with the reason */
  readonly hidden: ReadonlyMap<QuestionId, string>
  /** steps and fixes barred in this shop, with the reason */
  readonly barred: ReadonlyMap<StepId | FixId, string>
  readonly causes: readonly CauseView[]
  readonly exact: boolean
  readonly next: NextStep
}
