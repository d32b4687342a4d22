/** The shelf as it is kept. Instants are ISO 8601, UTC; ids are made by the store. */
import type { Part, PartDetails, PartMove, PartWhy } from '../../shared/part.js'

export interface PartShelf {
  /** By name. */
  list(): Promise<Part[]>
  /** @throws NotFound */
  get(id: string): Promise<Part>
  add(part: { readonly name: string; readonly details: PartDetails }): Promise<Part>
  /** @throws NotFound */
  change(id: string, to: { readonly name: string; readonly details: PartDetails }): Promise<void>
  /** @throws NotFound */
  remove(id: string): Promise<void>
  /**
   * Changes stock, all or none. The same key in the same batch counts once. What would take more than is there takes
   * what is there.
   *
   * @returns those that had less than was taken of them
   * @throws NotFound
   */
  move(
    batch: string,
    moves: readonly {
      readonly key: string
      readonly partId: string
      readonly change: number
      readonly why: PartWhy
    }[],
    at: string,
  ): Promise<readonly Part[]>
  /** Takes back what was moved by one tap. @returns how many moves */
  undo(batch: string, at: string): Promise<number>
  /** What was moved by these taps. */
  movesOf(batches: readonly string[]): Promise<PartMove[]>
  /** By part: how much was taken for cases and care since. */
  used(since: string): Promise<ReadonlyMap<string, number>>
}
