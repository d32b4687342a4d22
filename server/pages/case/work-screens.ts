import type { Fix, Setup } from '../../../shared/knowledge.js'
import { cutsPower, setupsNeeded } from '../../../shared/setups-needed.js'
import type { OnBench } from '../../bench/on-bench.js'
import { safetyTestSpared } from '../../bench/on-bench.js'
import { lookupOf } from '../../../shared/rulebook-index.js'

/** One line of work, with the caution that goes with it. */
export interface WorkLine {
  readonly words: string
  readonly caution: string | null
  /** the question that a look in this line answers */
  readonly settles?: string | undefined
}

/** As much work as one reads at a time. */
export interface WorkScreen {
  readonly heading: string
  readonly lines: readonly WorkLine[]
  /** where the drawing of the fix belongs */
  readonly own: boolean
  /** what its last line looks at, where that is open still: after a no the fix is not the one */
  readonly look: OpenLook | null
}

interface OpenLook {
  readonly step: string
  readonly question: string
  readonly statement: string
}

/** Words on one screen of work, cautions included. */
const mostWords = 68

/**
 * A fix from the tool as it stands to the tool ready to run: what must be made first, the work, and all put back. Where
 * the work ends with a run, what cannot stand under power is put back and tested before it; the lines of the run say
 * themselves when the plug goes in.
 */
export function workScreens(on: OnBench, fix: Fix): readonly WorkScreen[] {
  const stands = new Set(on.situation.standing)
  const needed = setupsNeeded(on.knowledge.setups, fix.setups)
  const toUndo = setupsNeeded(on.knowledge.setups, [...fix.setups, ...on.situation.standing])
    .toReversed()
    .filter(({ id }) => !fix.putsBack?.includes(id))
  const lines = fix.steps.map(({ do: words, caution = null, settles }) => ({ words, caution, settles }))
  const run = fix.steps.findIndex(({ trial }) => trial)
  const made = needed.filter(({ id }) => !stands.has(id)).flatMap(making)
  // of the cautions the first stands where the fix is offered
  const above = wordsIn(fix.cautions.slice(1).join(' '))
  const tested = fix.safetyTest && !safetyTestSpared(on) ? [safetyTest] : []
  if (run < 0)
    return [...made, ...inScreens(fix.name, lines, true, on, above), ...toUndo.flatMap(undoing), ...tested]
  return [
    ...made,
    ...inScreens(fix.name, lines.slice(0, run), true, on, above),
    ...toUndo.filter((setup) => !setup.withPower && !cutsPower(setup)).flatMap(undoing),
    ...tested,
    ...inScreens(fix.name, lines.slice(run), run === 0),
    ...toUndo.filter(({ withPower }) => withPower).flatMap(undoing),
  ]
}

const safetyTest: WorkScreen = {
  heading: 'Electrical safety test',
  lines: [
    {
      words: 'The body was open: it runs on mains again only after a safety test by somebody competent.',
      caution: null,
    },
  ],
  own: false,
  look: null,
}

const making = ({ name, how, cautions }: Setup): readonly WorkScreen[] =>
  inScreens(
    name,
    how.map((words, k) => ({ words, caution: cautions[k] ?? null })),
    false,
  )

const undoing = ({ name, undone, back }: Setup): readonly WorkScreen[] =>
  inScreens(
    undone ?? `Undo: ${name}`,
    back.map((words) => ({ words, caution: null })),
    false,
  )

/**
 * @param on where a look of these lines may be open
 * @param above words that stand above the first line
 */
function inScreens(
  heading: string,
  lines: readonly WorkLine[],
  own: boolean,
  on: OnBench | null = null,
  above = 0,
): readonly WorkScreen[] {
  const screens: WorkLine[][] = []
  let words = Infinity
  for (const line of lines) {
    const long = wordsOf(line)
    if (words + long > mostWords) {
      words = screens.length === 0 ? above : 0
      screens.push([])
    }
    screens.at(-1)!.push(line)
    // what was seen is said before the hands go on
    words = line.settles ? Infinity : words + long
  }
  return screens.map((those, k) => ({
    heading,
    lines: those,
    own: own && k === 0,
    look: on && openLook(on, those.at(-1)?.settles),
  }))
}

function openLook({ knowledge, situation }: OnBench, question: string | undefined): OpenLook | null {
  if (question === undefined || situation.answers[question] !== undefined) return null
  const asked = lookupOf(knowledge).questions.get(question)
  return asked?.step ? { step: asked.step.id, question, statement: asked.question.statement } : null
}

const wordsIn = (text: string): number => text.match(/\S+/g)?.length ?? 0

const wordsOf = ({ words, caution }: WorkLine): number => wordsIn(`${words} ${caution ?? ''}`)
