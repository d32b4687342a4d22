/** What is said of a sound. */
import type { HeardQuestion } from '../../server/listening/answers.js'
import { answersTo } from '../../server/listening/answers.js'
import type { Heard, Silence } from '../../server/listening/heard.js'
import type { NoSound } from './microphone.js'

const silences: Readonly<Record<Silence, string>> = {
  'too-short': 'Too short. Record it again, for longer.',
  'too-quiet': 'Too quiet. Put the phone a hand’s width from the tool.',
  overdriven: 'Too loud for the microphone. Move the phone away.',
  'no-steady-sound': 'Cannot tell: no steady strokes in this sound. Is there music, or a dryer?',
  'two-tools': 'Cannot tell: two tools at once. Switch the other one off.',
  octave: 'Cannot tell: it could be this rate or twice that. A figure from its plate or manual settles it.',
  'only-hum': 'It hums, and nothing strikes. If the blade stands still, switch it off.',
}
export const silenceWords = (why: Silence | null): string => silences[why ?? 'no-steady-sound']

const reasons: Readonly<Record<NoSound, string>> = {
  insecure:
    'This page gets no microphone here. Record ten seconds with the phone, then choose the recording.',
  refused: 'The microphone was refused. Allow it in the browser, choose a recording, or type the figure.',
  none: 'No microphone found. Choose a recording, or type the figure.',
  busy: 'The microphone does not answer. Close what else uses it, choose a recording, or type the figure.',
  stopped: '',
  format: 'This browser cannot read that file. Choose another recording, or type the figure.',
}
export const noMicrophoneWords = (why: NoSound): string => reasons[why]

/** Line by line: what "Use this" will say of the tool. */
export function heardWords(
  heard: Heard,
  questions: readonly HeardQuestion[],
  reference: number | null,
): readonly string[] {
  if (!heard.rate) return []
  const { perMinute, plusMinus } = heard.rate
  const asked = new Map(questions.map((it) => [it.what, it.field]))
  const answers = answersTo(questions, heard, reference)
  const answer = (what: HeardQuestion['what']) => answers.get(asked.get(what) ?? '')
  const lines = [
    `${Math.round(perMinute)} strokes a minute, give or take ${Math.max(1, Math.round(plusMinus))}.`,
  ]
  if (asked.has('rate'))
    lines.push(
      reference === null
        ? 'No figure to hold it against: that question stays open.'
        : `That is ${answer('rate')} in 100 of ${Math.round(reference)}.`,
    )
  if (asked.has('droop'))
    lines.push(
      heard.droop ? `In the hank it fell by ${answer('droop')} in 100.` : 'It did not fall in the hank.',
    )
  if (asked.has('drop-outs') || asked.has('rhythm'))
    lines.push(
      heard.dropOuts.length === 0
        ? 'No drop-outs.'
        : `${times(heard.dropOuts.length)} dropped out${heard.inRhythm ? ', in an even rhythm' : ''}.`,
    )
  if (asked.has('beat'))
    lines.push(heard.beat === null ? 'No second beat.' : `A second beat: ${Math.round(heard.beat)} a minute.`)
  if (asked.has('falls'))
    lines.push(
      answer('falls') === 'cant-tell'
        ? 'Half a minute at least: that question stays open.'
        : `Its note fell by ${answer('falls')} in 100 in a minute.`,
    )
  for (const [what, yes, no] of [
    ['grows', 'Its hiss grew.', 'Its hiss did not grow.'],
    ['fades', 'It faded.', 'It kept its strength.'],
  ] as const)
    if (asked.has(what))
      lines.push(
        answer(what) === 'yes' ? yes : answer(what) === 'no' ? no : `${yes.slice(0, -1)}? Cannot tell.`,
      )
  if (asked.has('sinks'))
    lines.push(
      answer('sinks') === 'yes'
        ? `Its note sank by ${(-heard.drift!.percent / 6).toFixed(1)} in 100 in ten seconds.`
        : answer('sinks') === 'no'
          ? 'It held its note.'
          : 'Whether its note sinks cannot be told.',
    )
  return lines
}

const times = (count: number) => (count === 1 ? 'Once it' : count === 2 ? 'Twice it' : `${count} times it`)
