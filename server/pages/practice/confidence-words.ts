/** How sure against how right, in counts and sentences. */
import { calibrationOf } from '../../practice/calibration.js'
import type { Calibration, Said } from '../../practice/calibration.js'
import type { MurphyParts } from '../../practice/confidence.js'

export interface ConfidenceView {
  readonly verdict: string
  /** the step that is furthest off, as an example; empty where none is telling */
  readonly example: string
  readonly rows: readonly {
    readonly said: string
    readonly so: string
    /** places on a line from 0 to 100: what was given, and what would have been right */
    readonly saidX: number
    readonly soX: number
  }[]
  /** a tool with several faults was among them */
  readonly shared: boolean
  readonly parts: readonly { readonly name: string; readonly says: string }[]
}

/** Suspects with 50 points and more before anything is said of somebody. */
const enough = 8

/** Standard deviations that may be chance: one record in ten that fits lies further out. */
const beyondChance = 1.64

export function confidenceView(record: Omit<MurphyParts, 'score' | 'within'>): ConfidenceView {
  const it = calibrationOf(record)
  return {
    verdict: verdictOf(it),
    example: exampleOf(it.steps),
    rows: it.steps.map((step) => ({
      said: String(step.points),
      so: timesOf(step),
      saidX: step.points,
      soX: Math.round((step.there / step.times) * 100),
    })),
    shared: it.steps.some(({ there }) => Math.abs(there - Math.round(there)) > 0.01),
    parts: partsOf(it),
  }
}

function verdictOf({ sure: { times, promised, there, chance } }: Calibration): string {
  if (times === 0)
    return 'You never gave a suspect 50 points or more, so there is nothing yet to hold you to.'
  const counts = `Of ${times === 1 ? '1 suspect' : `${times} suspects`} with 50 points or more your points promised ${halves(promised)}, and ${halves(there)} ${there > 1 ? 'were' : 'was'} there.`
  if (times < enough) return `Too few yet to tell. ${counts}`
  const margin = Math.max(1, beyondChance * chance)
  if (there < promised - margin) return `You are surer than you are right. ${counts}`
  if (there > promised + margin) return `You are right more often than you dare to say. ${counts}`
  return `You know how sure you may be. ${counts}`
}

/** Times and distance that are needed for an example. */
const leastTimes = 5
const leastGap = 0.12

function exampleOf(steps: readonly Said[]): string {
  const gap = ({ points, times, there }: Said) => Math.abs(points / 100 - there / times)
  // chance plays less part where there are many, by the root of their number
  const off = (it: Said) => gap(it) * Math.sqrt(it.times)
  const [worst] = steps
    .filter((it) => it.times >= leastTimes && gap(it) >= leastGap)
    .sort((a, b) => off(b) - off(a))
  return worst ? `When you gave ${worst.points}, it was there ${timesOf(worst)}.` : ''
}

const timesOf = ({ there, times }: Said): string =>
  `${halves(there)} of ${times} ${times === 1 ? 'time' : 'times'}`

/** Counts of tools with several faults are shares of one: to the nearest half. */
function halves(count: number): string {
  const twice = Math.round(count * 2)
  const whole = Math.floor(twice / 2)
  if (twice % 2 === 0) return String(whole)
  return whole === 0 ? '½' : `${whole}½`
}

function partsOf({ apart, parted, spread, known, times, there }: Calibration): ConfidenceView['parts'] {
  const hundred = Math.round(known * 100)
  return [
    {
      name: 'Your word',
      says: `What you gave and what was so lie ${points(apart)} apart. None apart: your points can be taken at their word.`,
    },
    {
      name: 'Telling apart',
      says: `Your points parted what was there from what was not by ${points(parted)}. None: you gave much and little alike to what was there.`,
    },
    {
      name: 'The tools themselves',
      says: `${halves(there)} of ${times} suspects were there. Who gave every suspect the same would be ${points(spread)} off: that lies in the tools, not in you.`,
    },
    {
      name: 'All together',
      says:
        hundred < 0
          ? 'So far you would have done better to give every suspect the same.'
          : `You knew ${hundred} in 100 of what there was to know. 0 is giving every suspect the same, 100 is never wrong.`,
    },
  ]
}

/** "about 8 points" */
function points(count: number): string {
  const whole = Math.round(count)
  return whole === 0 ? 'no point' : whole === 1 ? 'about 1 point' : `about ${whole} points`
}
