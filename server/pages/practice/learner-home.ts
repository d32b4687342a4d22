/** A learner's own page; with somebody at the same phone, theirs together. */
export const homeOf = (learner: string, beside?: string): string =>
  `/practice/people/${learner}${beside === undefined ? '' : `?with=${beside}`}`
