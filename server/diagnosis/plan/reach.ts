/** How far the look-ahead goes. */

/** How far and how wide one level of the look-ahead goes. */
interface Level {
  /** steps tried as candidates */
  readonly steps: number
  /** actions valued by the level below, the best by this level's own leaves; 0 on the last level */
  readonly deeper: number
  /** most outcomes of a step that are told apart */
  readonly cells: number
}

export interface Reach {
  readonly levels: readonly Level[]
  /** states less likely than this are not looked into deeper */
  readonly rare: number
  /** steps scanned for what asking may still buy, before the work ends; 0 ends without */
  readonly scan: number
  /** first looks whose pairs are tried before the work ends */
  readonly pairs: number
}

/** How far the product looks; chosen by trials on simulated cases (see ../README.md) and the milliseconds of `npm run bench`. */
export const reach: Reach = {
  levels: [
    { steps: 14, deeper: 3, cells: 12 },
    { steps: 7, deeper: 0, cells: 8 },
  ],
  rare: 0.03,
  scan: 8,
  pairs: 0,
}

/** One action, and what asking may still buy: to tell whether it would give up after a step, and for tests that hang on no plan. */
export const glance: Reach = { levels: [{ steps: 8, deeper: 0, cells: 8 }], rare: 1, scan: 8, pairs: 0 }
