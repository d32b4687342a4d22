/** Long cases of any kind, put together without a browser: everything answered, everything tried. */
import type { CaseEvent } from '../../shared/case.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge, Question } from '../../shared/knowledge.js'
import type { Answer } from '../../shared/situation.js'

/**
 * Every question of a kind answered: the danger signs as told, each third other one with yes, readings in the middle
 * of their range; and every second fix tried in vain. Longer than any real case.
 */
export function longCase(knowledge: Knowledge, kind: string, danger: 'yes' | 'no'): CaseEvent[] {
  const book = bookOf(knowledge, kind)
  let place = 0
  const answer = ({ kind: sort, min = 0, max = 100 }: Question): Answer => {
    if (sort === 'number') return Math.round((min + max) / 2)
    place++
    return place % 3 === 0 ? 'yes' : place % 7 === 0 ? 'cant-tell' : 'no'
  }
  const words =
    'It gets slower and slower towards the evening, and yesterday it stopped twice in the middle of a fade.'
  return [
    { type: 'answered', step: 'complaint', answers: {}, when: 'now', words },
    ...book.steps.map(({ id, form, questions }): CaseEvent => ({
      type: 'answered',
      step: id,
      answers: Object.fromEntries(
        questions.map((asked) => [asked.id, form === 'danger' ? danger : answer(asked)]),
      ),
      when: 'now',
    })),
    ...book.fixes.flatMap(({ id }, i): CaseEvent[] =>
      i % 2 === 0 ? [{ type: 'tried', fix: id, outcome: 'no' }] : [],
    ),
    { type: 'quote-limit', amount: 4500 },
  ]
}
