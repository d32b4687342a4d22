/** Who walks: somebody with a tool of which it is known what it does and what each look shows. */
import type { Answer } from '../../shared/situation.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import { firstWords } from '../../server/practice/first-words.js'
import { seeing } from '../../server/simulation/complaint.js'
import { drawTool } from '../../server/simulation/tool.js'
import { putOnBench } from '../../server/simulation/tool-on-bench.js'
import { readStories } from '../bench-cases/story.js'

export interface Person {
  readonly id: string
  readonly kind: string
  /** statements told unasked, by question */
  readonly complaint: readonly string[]
  /** what a look shows; undefined for what this person cannot tell */
  answer(question: string): Answer | undefined
}

/** Repairs that others told: what is not told is "can't tell". Spread over the kinds, always the same ones. */
export function toldPeople(count: number): readonly Person[] {
  const stories = readStories()
  const step = Math.max(1, Math.floor(stories.length / count))
  return stories
    .filter((_, place) => place % step === 0)
    .slice(0, count)
    .map(({ id, kind, complaint, observations }) => ({
      id,
      kind,
      complaint: Object.keys(complaint).filter((question) => complaint[question] === 'yes'),
      answer: (question) => observations[question] ?? complaint[question],
    }))
}

/** The first tool number of the walks: none that anything else is measured on. */
const firstNumber = 2_000_001

/**
 * Tools drawn from the rulebook's own model, kinds by turns; the person answers as the tool shows. They say what people
 * say first (`first-words.ts`, as in an exercise): something that troubles them, and perhaps one thing more. A tool that
 * troubles nobody is not brought: the next number comes in its place.
 */
export async function simulatedPeople(prepared: Prepared, count: number): Promise<readonly Person[]> {
  const kinds = prepared.knowledge.kinds.map(({ id }) => id)
  const people: Person[] = []
  for (let number = firstNumber; people.length < count; number++) {
    const id = kinds[people.length % kinds.length]!
    const kind = kindOf(prepared, id)
    const tool = drawTool(kind.model, number)
    const words = firstWords(kind.model, tool, seeing(kind.model, kind.effectOfYes), 2)
    if (!words || words.complaint.length === 0) continue
    const bench = await putOnBench(kind, id, tool, 0, null)
    bench.tell(words.complaint)
    const dangers = new Set(
      kind.model.steps
        .filter(({ form }) => form === 'danger')
        .flatMap((step) => step.questions.map((q) => q.id)),
    )
    people.push({
      id: `${id} ${number}`,
      kind: id,
      complaint: words.complaint.filter((question) => !dangers.has(question)),
      answer(question) {
        bench.tell([question])
        return bench.situation.answers[question]
      },
    })
  }
  return people
}

/** Somebody who can tell nothing beyond the complaint. */
export const cannotTell = (person: Person): Person => ({
  ...person,
  id: `${person.id}, can’t tell`,
  answer: () => undefined,
})
