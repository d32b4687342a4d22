/** Answers → facts: total, typed, and `'unknown'` said aloud. */
import type { Facts, FactValue } from '../../shared/diagnosis.js'
import type { Answer } from '../../shared/situation.js'

/** A fact for every question: the answer, or `'unknown'` for what nobody has given. */
export function factsFrom(questions: Iterable<string>, answers: Readonly<Record<string, Answer>>): Facts {
  const facts: Record<string, FactValue> = {}
  for (const question of questions) facts[question] = answers[question] ?? 'unknown'
  return facts
}
