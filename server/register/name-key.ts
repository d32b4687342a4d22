/**
 * A name as it is compared: two that differ in capitals, spaces or the way an accent is written are the same person's.
 * Upper, then lower case, is close to the case folding of Unicode (§5.18): it makes one of "Groß", "gross" and "GROSS".
 */
export const nameKey = (name: string): string =>
  name.normalize('NFKC').toUpperCase().toLowerCase().trim().replace(/\s+/g, ' ')
