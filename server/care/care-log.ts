/** The log of care as it is kept. Instants are ISO 8601, UTC; days are of the shop's calendar. */
import type { CareDetails, CareDone } from '../../shared/care.js'
import type { Habits } from '../../shared/habits.js'

/** By tool, then by task: the last day on which it was done. */
export type LastDone = ReadonlyMap<string, ReadonlyMap<string, string>>

export interface CareLog {
  /**
   * Logs what was done, all or none. The same batch sent twice is logged once, so that a second tap changes nothing.
   *
   * @throws NotFound for a tool that is not there
   */
  log(
    batch: string,
    done: readonly { readonly toolId: string; readonly task: string; readonly day: string }[],
    about: { readonly who: string; readonly at: string; readonly details?: CareDetails },
  ): Promise<void>
  /** Takes back what was logged by one tap. @returns how many entries */
  undo(batch: string, at: string): Promise<number>
  /** One tool's, or every tool's. */
  lastDone(toolId?: string): Promise<LastDone>
  /** Lately written first, from the one after `before` on. */
  history(of: {
    readonly toolId?: string
    readonly task?: string
    readonly fromDay?: string
    readonly toDay?: string
    /** place of the last entry of the page before */
    readonly before?: { readonly at: string; readonly id: string }
    readonly most: number
  }): Promise<CareDone[]>
  /** By task: the days on which it was done on a tool, earliest first, each once. */
  daysDone(toolId: string, fromDay: string): Promise<ReadonlyMap<string, readonly string[]>>
  habits(): Promise<Habits | null>
  keepHabits(habits: Habits): Promise<void>
}
