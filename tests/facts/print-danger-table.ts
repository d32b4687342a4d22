/** Prints the table of danger answers for a reader, a line an answer. */
import { prepare } from '../../server/diagnosis/assess.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { dangerAnswers, rowOf } from './danger-table.js'

const knowledge = loadKnowledge()
const prepared = await prepare(knowledge)
const cells = (list: readonly string[]): string => `| ${list.join(' | ')} |`
console.log(cells(['kind', 'said', 'stop', 'first', 'looks', 'fixes', 'by post', 'next']))
console.log(cells(Array.from({ length: 8 }, () => '---')))
for (const given of dangerAnswers(knowledge)) {
  const { kind, question, answer, stop, steps, fixes, packing, assessment } = await rowOf(
    knowledge,
    prepared,
    given,
  )
  const ids = (list: readonly { id: string }[]) => list.map(({ id }) => id).join(' ') || '–'
  const { step, id } = assessment.next
  console.log(
    cells([
      kind,
      `${question}: ${answer}`,
      stop ? `${stop.name} (${stop.grade})` : '–',
      stop?.now[0] ?? '–',
      ids(steps),
      ids(fixes),
      packing.includes('pack-hurt-by-no-post') ? 'no' : 'yes',
      id ? `${step} ${id}` : step,
    ]),
  )
}
