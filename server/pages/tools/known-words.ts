import type { Knowledge } from '../../../shared/knowledge.js'
import type { KnownTool } from '../../tools/known.js'
import { complaintWords, pastCaseView } from './tool-record-page.js'
import { dayWords } from './tool-words.js'
import { wearWords } from './wear-words.js'

/** How many earlier troubles one reads with a client waiting. */
const mostEarlier = 2
/** And how much of its care: the strongest first. */
const mostOfCare = 3

/** What the shop knows of a tool, a line each, what helps most first: its last troubles, its care, its plate, its warranty. */
export function knownWords(knowledge: Knowledge, { tool, earlier, figures, wear }: KnownTool): string[] {
  const { volts, hertz, watts, warrantyUntil } = tool.details
  const plate = [volts && `${volts} V`, hertz && `${hertz} Hz`, watts && `${watts} W`].filter(Boolean)
  const [last, ...before] = earlier.slice(0, mostEarlier).map((past) => {
    const { when, outcome, state } = pastCaseView(knowledge, past)
    return `${when}: ${complaintWords(knowledge, past)}. ${outcome ?? state}.`
  })
  return [
    ...(last === undefined ? [] : [last]),
    ...wearWords(knowledge, wear).slice(0, mostOfCare),
    ...before,
    ...(plate.length > 0 ? [`Plate: ${plate.join(', ')}.`] : []),
    ...(warrantyUntil === undefined
      ? []
      : [`Warranty ${figures.inWarranty ? 'until' : 'ended'} ${dayWords(warrantyUntil)}.`]),
  ]
}
