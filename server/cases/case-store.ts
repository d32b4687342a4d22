/** The cases of the shop: what was said and done to each tool, in order, in one SQLite file. */
import type { BenchCase, CaseEvent, CaseState } from '../../shared/case.js'
import type { ShopRecord } from '../../shared/figures.js'
import type { ConfirmedOutcome } from './outcome.js'

/** A case in a list. */
export interface CaseSummary {
  readonly id: string
  readonly kind: string
  readonly tool: string
  readonly begunAt: string
  readonly changedAt: string
  readonly state: CaseState
  /** the complaint in the user's own words, where there are any */
  readonly words: string | null
  /** what it turned out to be, where somebody confirmed it */
  readonly outcome: ConfirmedOutcome | null
}

/** Which cases; all of them, where nothing is said. */
export interface CaseFilter {
  /** on the bench, or not */
  readonly open?: boolean
  readonly states?: readonly CaseState[]
  /** in the tool's name or in the complaint; capitals make no difference */
  readonly find?: string
  /** was anything said of it yet? */
  readonly said?: boolean
}

export interface CaseStore {
  /** A new case without events. `at`: ISO 8601 instant, UTC. */
  begin(start: { kind: string; tool: string; at: string }): Promise<BenchCase>
  /** @throws CaseNotFound, or UnreadableCase where something of it is damaged */
  get(id: string): Promise<BenchCase>
  /** Lately changed first, at most `most` (200) of them, after the first `skip` (0). */
  list(filter?: CaseFilter & { most?: number; skip?: number }): Promise<CaseSummary[]>
  count(filter?: CaseFilter): Promise<number>
  /**
   * Adds one event, or several that belong together (all or none).
   *
   * @param expectedCount how many events the sender had seen; a form filled in on an old page is refused
   * @returns the case with the new events
   * @throws CaseNotFound, StaleForm when the stored count differs from `expectedCount`, BadRequest (422) when there is
   *   room for its end only
   */
  append(
    id: string,
    event: CaseEvent | readonly CaseEvent[],
    at: string,
    expectedCount?: number,
  ): Promise<BenchCase>
  /** Another name or kind for the tool. What was said stays; of it only what the new kind is asked counts. @throws CaseNotFound */
  change(id: string, to: { kind?: string; tool?: string }, at: string): Promise<BenchCase>
  /** A case begun by mistake, gone with all that was said. @throws CaseNotFound */
  remove(id: string): Promise<void>
  /** Names of those who said or did something of it, whoever came first first; who was removed is left out. */
  hands(id: string): Promise<string[]>
  /** The shop's own record, and how often it was kept; null while nobody has set any figure. */
  shop(): Promise<{ readonly record: ShopRecord; readonly version: number } | null>
  /** @param seen the version that the change was made for, 0 where there was none @throws StaleShop for another one */
  keepShop(record: ShopRecord, seen: number): Promise<void>
}
