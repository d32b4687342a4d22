/** The rulebook that the shop runs on. It can be exchanged whole while the server runs, and is never changed in place. */
import { setImmediate as immediately } from 'node:timers/promises'
import type { ActiveStop } from '../../shared/diagnosis.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Situation } from '../../shared/situation.js'
import type { Assessments } from '../remembered/assessments.js'
import { rememberAssessments } from '../remembered/assessments.js'
import type { DoSum } from '../remembered/heavy-sums.js'
import { assess } from '../diagnosis/assess.js'
import { findingsFrom } from '../diagnosis/findings.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindFor, prepare } from '../diagnosis/prepare.js'
import type { Reach } from '../diagnosis/plan/reach.js'
import type { RulebookProblem } from '../errors.js'

/** One rulebook with all that was computed from it. The three belong together and are exchanged together. */
export interface RulebookInUse {
  readonly knowledge: Knowledge
  readonly prepared: Prepared
  /** `assessments.of(situation, shop)`: the diagnosis, remembered for situations seen lately */
  readonly assessments: Assessments
  /** the stops that stand in a situation, without all the rest of an assessment */
  readonly stopsIn: (situation: Situation) => Promise<readonly ActiveStop[]>
  /** when it was taken over */
  readonly since: Date
}

/** What lies on disk and cannot be used, so that an older rulebook stays in use. */
export interface KeptOut {
  readonly at: Date
  /** at least one */
  readonly problems: readonly RulebookProblem[]
}

/** What readers see of it. */
export interface LiveRulebook {
  /** The same object until another is taken over: ask once for each request, and use that to its end. */
  current(): RulebookInUse
  /** null while the rulebook in use is the one on disk */
  keptOut(): KeptOut | null
}

/**
 * Requests are answered meanwhile: the preparing gives way to them.
 *
 * @param doSum assesses on whatever thread; on this one unless told
 * @throws Error when the knowledge cannot be prepared; what the loader has passed can
 */
export async function rulebookInUse(
  knowledge: Knowledge,
  since: Date,
  { reach, doSum }: { readonly reach?: Reach; readonly doSum?: DoSum } = {},
): Promise<RulebookInUse> {
  const prepared = await prepare(knowledge, () => immediately(), reach)
  const assessments = rememberAssessments((situation, shop) =>
    doSum ? doSum(prepared, 'assessment', { situation, shop }) : assess(prepared, situation, shop),
  )
  const stopsIn = async (situation: Situation) =>
    (await findingsFrom(kindFor(prepared, situation).model, situation)).stops
  return { knowledge, prepared, assessments, stopsIn, since }
}

/** The one place where the rulebook in use is exchanged. */
export class RulebookHolder implements LiveRulebook {
  #out: KeptOut | null = null
  #current: RulebookInUse

  constructor(first: RulebookInUse) {
    this.#current = first
  }

  current(): RulebookInUse {
    return this.#current
  }

  keptOut(): KeptOut | null {
    return this.#out
  }

  /** From now on new requests use `next`; those under way end on what they began with. */
  takeOver(next: RulebookInUse): void {
    this.#current = next
    this.#out = null
  }

  keepOut(out: KeptOut): void {
    this.#out = out
  }

  /** What is on disk is what is in use again. */
  putRight(): void {
    this.#out = null
  }
}
