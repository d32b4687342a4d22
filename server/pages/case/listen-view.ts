/** The microphone beside the typing: which questions of a step it can answer, and what it has to know for that. */
import type { Question } from '../../../shared/knowledge.js'
import { fieldOf, numberFieldOf } from '../../forms/answer-form.js'
import type { OnBench } from '../../bench/on-bench.js'
import { kindOnBench } from '../../bench/on-bench.js'

export interface ListenView {
  /** for the script, as JSON: what it may expect to hear and where answers go */
  readonly settings: string
  /** hertz on the plate, or of the shop's mains while the plate is not known, where strokes are held against it; else null */
  readonly plate: 50 | 60 | null
  /** strokes a minute that it should make, as the shop has them, where somebody has to say; else null */
  readonly figure: { readonly value: string } | null
  /** how it did when it was heard last; null for the first time */
  readonly last: string | null
  readonly inHair: boolean
  /** how long it listens: ten seconds, or the minute that some signs take to show */
  readonly seconds: 10 | 60
}

const overMinute = new Set<NonNullable<Question['heard']>['what']>(['falls', 'grows', 'fades'])

/** Null where sound settles none of them, or the rulebook does not say how the kind sounds. */
export function listenView(on: OnBench, asked: readonly Question[]): ListenView | null {
  const { sound } = kindOnBench(on)
  const mains = on.inForce.figures.mains === '60' ? 60 : 50
  const heard = asked.flatMap((question) => (question.heard ? [{ question, heard: question.heard }] : []))
  if (!sound || heard.length === 0) return null
  const rate = heard.find((it) => it.heard.what === 'rate')?.question
  const details = on.known?.tool.details
  const seconds = heard.some((it) => overMinute.has(it.heard.what)) ? 60 : 10
  return {
    settings: JSON.stringify({
      seconds,
      context: { drive: sound.drive, mains, between: [sound.least, sound.most], expected: null },
      questions: heard.map(({ question, heard: { what, atLeast } }) => ({
        field: question.kind === 'number' ? numberFieldOf(question.id) : fieldOf(question.id),
        what,
        atLeast: atLeast ?? null,
      })),
      all: heard.length === asked.length,
    }),
    plate: rate && sound.drive === 'mains' ? (plateHertz(details?.hertz) ?? mains) : null,
    figure: rate && sound.drive !== 'mains' ? { value: details?.strokes?.toString() ?? '' } : null,
    last: rate ? lastWords(on, rate.id) : null,
    inHair: heard.some((it) => it.heard.what === 'droop'),
    seconds,
  }
}

/** Null where the plate names both, or none. */
const plateHertz = (hertz = ''): 50 | 60 | null =>
  hertz.includes('50') === hertz.includes('60') ? null : hertz.includes('50') ? 50 : 60

function lastWords({ known }: OnBench, question: string): string | null {
  const readings = known?.earlier.flatMap((it) =>
    it.readings.filter((one) => one.question === question).slice(-1),
  )
  return readings?.[0] ? `Last time: ${Math.round(readings[0].value)} in 100.` : null
}
