/** Moves and answers of an exercise in words. All names come from the rulebook. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Fix, Knowledge, Question, Setup, Step } from '../../../shared/knowledge.js'
import type { EndWay, PracticeMove, Spread } from '../../../shared/practice.js'
import type { Desk } from '../../practice/desk.js'
import type { Done } from '../../practice/moves.js'
import { surenessOf } from '../../forms/points-form.js'
import { answerWords } from '../layout/words.js'

/** Stands for whatever a stored move names and the rulebook has dropped since. */
const gone = 'something that the rulebook no longer has'

/** What was done, as a short line: "Checked “Bend the cord”", "Plug out", "Handed it back". */
export function moveWords(desk: Desk, move: PracticeMove): string {
  switch (move.type) {
    case 'stood':
      return setupOf(desk, move.setup)?.name ?? gone
    case 'put-back':
      return undoneWords(setupOf(desk, move.setup))
    case 'looked':
      return lookWords(desk, move, { ask: 'Asked', check: 'Checked' })
    case 'tried':
      return `Tried “${fixOf(desk, move.fix)?.name ?? gone}”`
    case 'spread':
      return `Suspects: ${spreadWords(desk, move.spread)}`
    case 'disinfected':
      return 'Cleaned and disinfected it'
    case 'made-safe':
      return `Made safe: ${stopName(desk, move.stop)}`
    case 'dared':
      return `Did “${offerOf(desk, move.act)}”`
    case 'ended':
      return endWords[move.way].done
  }
}

/** The same as what the plan would do: "Check “Bend the cord”", "First: plug out", "Hand it back". */
export function moveAsAdvice(desk: Desk, move: PracticeMove): string {
  switch (move.type) {
    case 'stood':
      return `First: ${lowered(setupOf(desk, move.setup)?.name ?? gone)}`
    case 'put-back':
      return undoneWords(setupOf(desk, move.setup))
    case 'looked':
      return lookWords(desk, move, { ask: 'Ask', check: 'Check' })
    case 'tried':
      return fixOf(desk, move.fix)?.name ?? gone
    case 'spread':
      return `Name your suspects: ${spreadWords(desk, move.spread)}`
    case 'disinfected':
      return 'Clean and disinfect it'
    case 'made-safe':
      return `Make it safe: ${stopName(desk, move.stop)}`
    case 'dared':
      return `“${offerOf(desk, move.act)}”`
    case 'ended':
      return endWords[move.way].advice
  }
}

/** The ways to end: as something done, and as something to do. */
export const endWords = {
  'hand-back': { done: 'Handed it back', advice: 'Hand it back' },
  'send-in': { done: 'Sent it in', advice: 'Send it in' },
  'set-aside': { done: 'Set it aside', advice: 'Set it aside' },
} as const satisfies Record<EndWay, { done: string; advice: string }>

/** Each answer as a line: "Does bending the cord make it come and go? Yes." */
export const toldWords = (desk: Desk, told: Done['told']): string[] =>
  told.map(({ question, answer }) => {
    const asked = questionOf(desk, question)
    return `${asked?.text ?? gone} ${answerWords(answer, asked?.unit)}.`
  })

/** "Worn carbon brushes, likely (60 of 100); …": as they were picked, the surest first. */
export function spreadWords(desk: Desk, { points }: Spread): string {
  const { knowledge } = desk.book
  const given = Object.entries(points)
    .filter(([, count]) => count > 0)
    .sort(([, a], [, b]) => b - a)
    .map(([id, count]) => {
      const sure = surenessOf(count).name.toLowerCase()
      return `${causeName(knowledge, desk.kind.model.kind.id, id)}, ${sure} (${count} of 100)`
    })
  return given.length > 0 ? given.join('; ') : 'none named'
}

/** A cause by the name that it has for this kind. */
export const causeName = (knowledge: Knowledge, kind: string, id: string): string =>
  bookOf(knowledge, kind).causes.find((cause) => cause.id === id)?.name ?? gone

const setupOf = ({ kind: { model } }: Desk, id: string): Setup | undefined =>
  model.setups.find((setup) => setup.id === id)
const stepOf = ({ kind: { model } }: Desk, id: string): Step | undefined =>
  model.steps.find((step) => step.id === id)
const fixOf = ({ kind: { model } }: Desk, id: string): Fix | undefined =>
  model.fixes.find((fix) => fix.id === id)

/** Of a step or the outcome of a fix. */
export const questionOf = ({ kind: { model } }: Desk, id: string): Question | undefined =>
  model.steps.flatMap((step) => step.questions).find((question) => question.id === id) ??
  model.fixes.find((fix) => fix.outcome?.id === id)?.outcome

const stopName = ({ kind: { model } }: Desk, id: string): string =>
  lowered(model.stops.find((stop) => stop.id === id)?.name ?? gone)

const offerOf = ({ book: { knowledge }, kind: { model } }: Desk, id: string): string =>
  bookOf(knowledge, model.kind.id).slips.find((slip) => slip.id === id)?.offers ?? gone

/** How a set-up is put back: "Plug in", "Blade on". */
export const undoneWords = (setup: Setup | undefined): string =>
  setup ? (setup.undone ?? `Not: ${lowered(setup.name)}`) : gone

function lookWords(
  desk: Desk,
  { step, question }: Extract<PracticeMove, { type: 'looked' }>,
  verbs: { readonly ask: string; readonly check: string },
): string {
  const made = stepOf(desk, step)
  const verb = made?.form === 'check' ? verbs.check : verbs.ask
  const one = question === undefined ? undefined : questionOf(desk, question)
  if (one && made && made.questions.length > 1 && made.form !== 'check') return `${verb} “${one.text}”`
  const only = one && made && made.questions.length > 1 ? `, only this: ${lowered(one.text)}` : ''
  return `${verb} “${made?.title ?? gone}”${only}`
}

/** For the middle of a sentence; a word in capitals stays as it is. */
export const lowered = (text: string): string =>
  /^[A-Z][a-z’' -]/.test(text) ? text[0]!.toLowerCase() + text.slice(1) : text
