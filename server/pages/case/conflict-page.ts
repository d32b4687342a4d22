import type { Knowledge } from '../../../shared/knowledge.js'
import type { BenchCase } from '../../../shared/case.js'
import type { Sent } from '../../forms/answer-form.js'
import { textOf, textsOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { answerWords } from '../layout/words.js'

/** A form from an older page: what was sent is kept, and can be applied all the same. */
export interface ConflictPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly fields: readonly { readonly name: string; readonly value: string }[]
  readonly sent: readonly { readonly term: string; readonly words: string }[]
  readonly back: string
}

/** Fields that the page itself sends along and that tell a reader nothing. */
const silent = new Set(['seen', 'step', 'asked', 'id', 'cause'])

const terms = new Map([
  ['q', 'In your own words'],
  ['outcome', 'After the fix'],
  ['by', 'Done by'],
  ['note', 'Note'],
  ['state', 'End it as'],
  ['fix', 'Fix'],
  ['when', 'Seen'],
  ['cant-tell-rest', 'Could not tell the rest'],
  ['disinfected', 'Disinfected'],
])

/** @param sent the body as it came; fields that are no texts were refused before */
export function conflictPage(
  knowledge: Knowledge,
  bench: BenchCase,
  action: string,
  sent: Sent,
): ConflictPage {
  const fields = Object.keys(sent).flatMap((name) => textsOf(sent, name).map((value) => ({ name, value })))
  return {
    frame: caseFrame(knowledge, bench, 'This case has moved on', { error: true }),
    action,
    seen: bench.events.length,
    fields: fields.filter(({ name }) => name !== 'seen'),
    sent: [
      ...fields
        .filter(({ name, value }) => !silent.has(name) && value !== '')
        .map((field) => told(knowledge, field)),
      ...restTold(knowledge, sent),
    ],
    back: `/cases/${bench.id}`,
  }
}

/** What was left alone on a list where that means no. */
function restTold(knowledge: Knowledge, sent: Sent): ConflictPage['sent'] {
  const step = lookupOf(knowledge).steps.get(textOf(sent, 'step'))
  const several = textOf(sent, 'asked').includes(',')
  if (!step?.untickedMeansNo || !several || sent['cant-tell-rest'] !== undefined) return []
  return [{ term: `The rest of “${step.title}”`, words: 'No' }]
}

function told(
  knowledge: Knowledge,
  { name, value }: { name: string; value: string },
): ConflictPage['sent'][number] {
  const { questions, fixes } = lookupOf(knowledge)
  const asked = /^[qn]-/.test(name) ? questions.get(name.slice(2)) : undefined
  if (asked) {
    const words = value === 'yes' || value === 'no' || value === 'cant-tell' ? answerWords(value) : value
    return { term: asked.question.statement, words }
  }
  return { term: terms.get(name) ?? name, words: fixes.get(value)?.name ?? value }
}
