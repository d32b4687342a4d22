/** "2", or "0.9" of a bottle. */
export const countWords = (count: number): string =>
  count < 0.1 && count > 0 ? 'under 0.1' : String(Number(count.toFixed(1)))
