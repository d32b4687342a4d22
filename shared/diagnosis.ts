/** What flows down the pipeline: facts, findings, posterior, weights, next step, assessment. */

/**
 * A fact for the rules engine: a word such as `'yes'`, or a number in its question's unit. Facts are total: what
 * nobody has given is `'unknown'`, and never evidence. Policy facts are `'yes'`, `'no'` and numbers too, never true
 * or false (see `PolicyFile`).
 */
export type FactValue = string | number
export type Facts = Readonly<Record<string, FactValue>>

/** How a finding stands. `'cant-tell'` and `'unknown'` are no evidence. */
export type FindingState = 'yes' | 'no' | 'cant-tell' | 'unknown'

/** A finding that enters the score: it was seen to be there or not. `after` = fixes tried by then, a count. */
export interface Evidence {
  readonly finding: string
  readonly present: boolean
  readonly after: number
}

/** Probabilities in [0, 1]. */
export interface CauseBelief {
  readonly id: string
  /** P(there now), whatever else is there. Several faults at once: these do not sum to 1. */
  readonly probability: number
  /** P(it alone is there now). */
  readonly sole: number
}

/** Weight of evidence in decibans (Good 1950): had this answer been missing, the others given. */
export interface Weight {
  readonly finding: string
  readonly decibans: number
}

/** A cause with the reasons for where it stands, the strongest first. */
export interface CauseView extends CauseBelief {
  readonly name: string
  /** weights above 0 */
  readonly for: readonly Weight[]
  /** weights below 0 */
  readonly against: readonly Weight[]
}

/** A stop that holds and that nobody has lifted. */
export interface ActiveStop {
  readonly id: string
  readonly grade: 'set-aside' | 'off-the-client'
  /** what to do now, in order */
  readonly now: readonly string[]
  /** for whoever is hurt, in order */
  readonly firstAid: readonly string[]
}

/**
 * `offer`: an ending is best now, or hardly any look would change it, and yet there is something left to look at:
 * `outlook` tells which ending, why, and what looking further would take. Who wants that says so (`looksWanted` of the
 * situation) and gets looks. `send-in` and `retire`: nothing is left to look at.
 */
export type NextKind = 'ask' | 'check' | 'fix' | 'offer' | 'send-in' | 'retire' | 'stop' | 'nothing-found'

/**
 * How it stands before any more is looked at. For the foot of a step ("now it would be sent in; about two looks left")
 * and for an ending that is offered ("look further: about 4 minutes, changes that in 1 of 6"). Estimates by a rough
 * tree of looks, three deep.
 */
export interface Outlook {
  /** what would be done now with no further look */
  readonly now: { readonly step: 'fix' | 'nothing-found' | Ending; readonly fix: string | null }
  /** the cheaper way to end now, whether or not a fix comes first */
  readonly ending: Ending
  /**
   * Why ending, of the larger part of what may be wrong: no fix that may be done here cures it; its fix costs more than
   * ending; or it could be mended here, were it clear what it is.
   */
  readonly because: 'no-fix-here' | 'dearer-here' | 'not-clear'
  /** P(a few more looks change what would be done now), in [0, 1] */
  readonly changes: number
  /** looks and minutes that those take, expected; 0 where there is nothing left to look at */
  readonly looks: number
  readonly minutes: number
  /** looks that the plan is expected to take before the first fix or the ending, the one shown included */
  readonly left: number
}

/** The next best step. Money in major units of the shop's currency. */
export interface NextStep {
  readonly step: NextKind
  /** step, fix or stop id; null for an offer, send-in and retire */
  readonly id: string | null
  /** of a step: the questions to show, at most four, those first that tell most about what to do; of a fix its outcome */
  readonly questions: readonly string[]
  /** of a step: its other questions that are still open, free to answer too; they need not be shown */
  readonly folded: readonly string[]
  /** what this step itself is expected to cost, set-ups included */
  readonly stepCost: number
  /** minutes of this step, set-ups that do not stand yet included */
  readonly minutes: number
  /** expected total cost from here on, this step included; null for the danger questions, which are asked whatever follows */
  readonly expectedCost: number | null
  /** how much less that is than ending now without it */
  readonly saves: number
  /** causes that it tells apart (or that it cures), likeliest first */
  readonly separates: readonly string[]
  /** was the rest solved exactly? */
  readonly exact: boolean
  /**
   * How the plan would end once this step has told nothing (no finding of it is true) or this fix has changed nothing:
   * the moment to give up. Null where the plan would go on, and where there is nothing to try.
   */
  readonly after: Ending | null
  /**
   * Minutes that this step is worth at most, its own `minutes` included: were it to take longer, ending now would have
   * been cheaper. Null for an ending or a stop, for the danger questions, and where a minute costs nothing.
   */
  readonly worthMinutes: number | null
  /** null for a stop and the danger questions */
  readonly outlook: Outlook | null
}

/** Ways to end the work: a service, or a new tool. */
export type Ending = 'send-in' | 'retire'

/**
 * Ids of the rules that hold, by their folder under `rules/`, each list in rulebook order. Ids are unique in a
 * folder only: a finding and a stop may well have the same one.
 */
export interface FiredRules {
  readonly findings: readonly string[]
  /** lifted ones too: what set them off still holds */
  readonly stops: readonly string[]
  readonly relevance: readonly string[]
  /** those that bar some step or fix in this shop */
  readonly policy: readonly string[]
}

/** An answer that fits the others so badly that another look is worth it. */
export interface Doubt {
  readonly finding: string
  readonly question: string
  /** did the answer make the finding true? */
  readonly said: boolean
  /** P(it was told the wrong way round), given all the other answers; in [0, 1] */
  readonly slip: number
  /** what would be the likeliest cause if it were the other way round */
  readonly leads: string
}

/** Every stage of one run, for the pages and the API. */
export interface Assessment {
  readonly kind: string
  readonly findings: ReadonlyMap<string, FindingState>
  readonly evidence: readonly Evidence[]
  readonly fired: FiredRules
  /** worst first: the first is the one to show */
  readonly stops: readonly ActiveStop[]
  /** danger lines that nobody has settled by yes or no; until then nothing runs, and nothing is called running again */
  readonly unsettled: readonly string[]
  /** questions that are not asked now, with the reason */
  readonly hidden: ReadonlyMap<string, string>
  /** steps and fixes barred in this shop, with the reason */
  readonly barred: ReadonlyMap<string, string>
  /** likeliest first; rulebook order among equals */
  readonly causes: readonly CauseView[]
  /** was the scoring exact? false where too many findings were seen, and the likeliest fault sets stand for all */
  readonly exact: boolean
  /** worked out when it is read; null where the answers fit each other */
  readonly doubt: Doubt | null
  readonly next: NextStep
}
