/** What an answer should have told: its weight of evidence (Good 1950) for and against each suspect, the others given. */
import type { Weight } from '../../shared/diagnosis.js'
import { historyOf } from '../diagnosis/model.js'
import { withoutWhatItTells } from '../diagnosis/weights.js'
import { weigh } from '../diagnosis/posterior.js'
import { decibans } from '../diagnosis/weights.js'
import type { Desk } from './desk.js'
import { findingsAt } from './desk.js'
import type { Done } from './moves.js'
import { planAt } from './plan-at.js'

/** What one finding that came to light says of one suspect. Decibans: 10 make the odds ten times as high. */
export interface Tells extends Weight {
  readonly cause: string
  /** is the finding there, or is it known not to be? */
  readonly present: boolean
}

/** Weaker than this an answer says nothing worth a word; in decibans. */
const least = 1
/** What this move's answers told, strongest first; empty where nothing was told that counts, and once the trouble is gone. */
export async function toldBy(desk: Desk, { before, after, told }: Done): Promise<Tells[]> {
  if (told.length === 0 || after.causes.length === 0) return []
  const { model } = desk.kind
  const earlier = await findingsAt(desk, before.situation)
  const { evidence } = await findingsAt(desk, after.situation)
  const { weights } = await planAt(desk, after.situation)
  const { observations, tried } = historyOf(model, evidence, after.situation.fixesTried)
  const tells: Tells[] = []
  evidence.forEach(({ finding, present, after: fixes }, k) => {
    const same = earlier.evidence.some(
      (e) => e.finding === finding && e.present === present && e.after === fixes,
    )
    if (same) return
    const without = weigh(
      model,
      observations.filter((_, other) => other !== k),
      withoutWhatItTells(tried, observations[k]!),
    )
    model.causes.forEach(({ id }, c) => {
      const weight = decibans(
        weights.there[c]!,
        without.there[c]!,
        weights.trouble - weights.there[c]!,
        without.trouble - without.there[c]!,
      )
      const shareNow = weights.there[c]! / weights.trouble
      const shareWithout = without.there[c]! / without.trouble
      // what was never likely and is not now is no news
      if (Math.abs(weight) >= least && Math.max(shareNow, shareWithout) >= 0.02)
        tells.push({ cause: id, finding, present, decibans: weight })
    })
  })
  return tells.sort((a, b) => Math.abs(b.decibans) - Math.abs(a.decibans))
}
