/** What the form of a tool that came back sends, as events; a mistake is a value, tied to its field. */
import type { CaseEvent } from '../../shared/case.js'
import type { Problem, Sent } from './answer-form.js'
import { textOf } from './answer-form.js'
import { lookupOf } from '../../shared/rulebook-index.js'
import { readAmount } from '../pages/layout/money.js'
import type { OnBench } from '../bench/on-bench.js'

export type ReturnSent =
  | { readonly ok: true; readonly events: readonly CaseEvent[] }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** Who did what lifts a stop is said in a field of its own. */
export const liftField = (stop: string): string => `by-${stop}`

/** The same bound as the stored event has. */
const longestText = 300

/** @param today the day by the shop's calendar: nothing came back later than that */
export function returnFrom(on: OnBench, sent: Sent, today: string): ReturnSent {
  const problems: Problem[] = []
  const wrong = (field: string, message: string, here = message): void =>
    void problems.push({ field, message, here })
  const amount = (name: string, words: string): number => {
    const text = textOf(sent, name)
    const read =
      text === '' ? { wrong: 'enter what was paid, 0 where it was nothing' } : readAmount(text, on.currency)
    if (typeof read === 'number') return read
    wrong(name, `${words}: ${read.wrong}`, sentence(read.wrong))
    return 0
  }
  const day = (name: string, words: string): string => {
    const text = textOf(sent, name)
    if (!isDay(text)) wrong(name, `${words}: enter a day, such as ${today}`, `Enter a day, such as ${today}`)
    else if (text > today) wrong(name, `${words}: ${text} is still to come`, `${text} is still to come`)
    return text
  }
  const fee = amount('fee', 'Fee paid')
  const carriage = amount('carriage', 'Carriage paid')
  const left = day('left', 'It left on')
  const back = day('back', 'It came back on')
  if (isDay(left) && isDay(back) && back < left)
    wrong('back', `It came back on ${back}, before it left on ${left}`)

  const found = textOf(sent, 'found')
  if (found.length > longestText)
    wrong('found', `Say it in at most ${longestText} characters; these are ${found.length}`)
  const cause = textOf(sent, 'cause')
  if (cause !== '' && !lookupOf(on.knowledge).causes.has(cause))
    wrong('cause', 'Choose one of the faults listed')

  const mended = textOf(sent, 'mended')
  if (mended !== 'yes' && mended !== 'no') wrong('mended', 'Say whether they mended it')
  const state = (['running-again', 'set-aside'] as const).find((value) => value === textOf(sent, 'state'))
  if (!state) wrong('state', 'Say what becomes of it')
  const lifts = state === 'running-again' ? liftsFrom(on, sent, wrong) : []

  if (problems.length > 0 || !state) return { ok: false, problems }
  return {
    ok: true,
    events: [
      ...lifts,
      {
        type: 'came-back',
        fee,
        carriage,
        left,
        back,
        mended: mended === 'yes',
        state,
        ...(cause && { cause }),
        ...(found && { found }),
      },
    ],
  }
}

/** A stop that stands is lifted by whoever did what lifts it, or the tool does not run again. */
function liftsFrom(
  on: OnBench,
  sent: Sent,
  wrong: (field: string, message: string) => void,
): readonly CaseEvent[] {
  const { stops } = lookupOf(on.knowledge)
  return on.assessment.stops.flatMap(({ id }): CaseEvent[] => {
    const by = textOf(sent, liftField(id))
    const name = stops.get(id)?.name ?? id
    if (by !== '' && by.length <= longestText) return [{ type: 'lifted', stop: id, by }]
    wrong(
      liftField(id),
      by === ''
        ? `${name}: say who did what lifts it, or set the tool aside`
        : `Say it in at most ${longestText} characters; these are ${by.length}`,
    )
    return []
  })
}

/** A day that the calendar has, written like 2026-03-02. */
function isDay(text: string): boolean {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return false
  const when = new Date(`${text}T00:00:00Z`)
  return !Number.isNaN(when.getTime()) && when.toISOString().startsWith(text)
}

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)
