/** One move at the bench: what it costs, what it tells, and how things stand after it. Pure and repeatable. */
import type { Fix, Slip, Step } from '../../shared/knowledge.js'
import type { PracticeMove } from '../../shared/practice.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import type { KindModel } from '../diagnosis/model.js'
import { answerShowing } from '../simulation/answers.js'
import type { Desk, BenchState } from './desk.js'
import { findingsAt, isMended } from './desk.js'
import { missingSetups, priceOf } from './prices.js'
import { refusalOf } from './refusals.js'
import { slipsOf } from './slips.js'

/** A move with all that came of it. */
export interface Done {
  readonly move: PracticeMove
  readonly before: BenchState
  readonly after: BenchState
  readonly minutes: number
  /** money */
  readonly parts: number
  /** answers in the order in which they came */
  readonly told: readonly { readonly question: string; readonly answer: Answer }[]
  readonly slips: readonly Slip[]
  /** why it was not made; nothing has changed then */
  readonly refused: string | undefined
}

export async function makeMove(desk: Desk, before: BenchState, move: PracticeMove): Promise<Done> {
  const unmoved = { move, before, after: before, minutes: 0, parts: 0, told: [], slips: [] }
  const refused = await refusalOf(desk, before, move)
  if (refused !== undefined) return { ...unmoved, refused }
  const slips = await slipsOf(desk, before, move)
  if (slips.some(({ grade }) => grade === 'ends'))
    return { ...unmoved, slips, after: { ...before, over: 'slip' }, refused: undefined }
  const result = await resultOf(desk, before, move)
  const { told = [], ...changed } = result
  const { minutes, parts } = priceOf(desk.kind.model, before.situation.standing, move)
  const after = { ...before, ...changed, minutes: before.minutes + minutes, parts: before.parts + parts }
  return { move, before, after, minutes, parts, told, slips, refused: undefined }
}

type Changed = Partial<BenchState> & { readonly told?: Done['told'] }

async function resultOf(desk: Desk, before: BenchState, move: PracticeMove): Promise<Changed> {
  const { model } = desk.kind
  const { situation } = before
  switch (move.type) {
    case 'stood': {
      const missing = missingSetups(model, [move.setup], situation.standing)
      const standing = [...situation.standing, ...missing.map(({ id }) => id)]
      return { situation: { ...situation, standing } }
    }
    case 'put-back': {
      // what stands on it goes back with it
      const standing = situation.standing.filter(
        (id) => !setupsNeeded(model.setups, [id]).some((needed) => needed.id === move.setup),
      )
      return { situation: { ...situation, standing } }
    }
    case 'looked':
      return look(
        desk,
        before,
        model.steps.find(({ id }) => id === move.step)!,
        move.question,
      )
    case 'tried':
      return tryFix(
        desk,
        before,
        model.fixes.find(({ id }) => id === move.fix)!,
      )
    case 'spread':
      return { spread: move.spread }
    case 'disinfected':
      return { disinfected: true }
    case 'made-safe':
      return { situation: { ...situation, stopsLifted: [...situation.stopsLifted, move.stop] } }
    case 'dared':
      return {}
    case 'ended':
      return { over: move.way }
  }
}

async function look(desk: Desk, before: BenchState, step: Step, only: string | undefined): Promise<Changed> {
  const { model } = desk.kind
  const { situation } = before
  const { relevance } = await findingsAt(desk, situation)
  const pointless = new Set(relevance.flatMap(({ hides }) => hides.questions))
  const missing = missingSetups(model, step.setups, situation.standing)
  const told = step.questions
    .filter(({ id }) => (only === undefined || id === only) && !pointless.has(id))
    .flatMap(({ id }) => answerTo(desk, before, id, step.form === 'danger') ?? [])
  const needed = setupsNeeded(model.setups, step.setups)
  // a tool that runs is put together, but for what this step wants off; every run ends with the plug pulled
  const standing = step.power
    ? [
        ...atRest(model),
        ...needed.filter(({ id, withPower }) => withPower || step.setups.includes(id)).map(({ id }) => id),
      ]
    : [...situation.standing, ...missing.map(({ id }) => id)]
  return {
    told,
    situation: withAnswers({ ...situation, standing: [...new Set(standing)] }, told),
  }
}

/** How a tool lies after a run, by the last line of every step and fix: off and unplugged, put together. */
const atRest = ({ setups }: KindModel): string[] =>
  setups.filter(({ needs, withPower }) => needs.length === 0 && !withPower).map(({ id }) => id)

function tryFix(desk: Desk, before: BenchState, fix: Fix): Changed {
  const { kind, tool } = desk
  const { model } = kind
  const { situation } = before
  const cures = model.curesOf.get(fix.id)!
  const causes = before.causes.filter((c) => !tool.cures(fix.id, c, cures[c]!))
  // the test run puts the tool together, and ends with the plug pulled
  const run: Situation = { ...situation, standing: atRest(model) }
  const outcome = fix.outcome && situation.answers[fix.outcome.id] === undefined ? fix.outcome.id : undefined
  const asFound = outcome === undefined ? [] : (answerTo(desk, before, outcome, false) ?? [])
  const shown = withAnswers(run, asFound)
  if (causes.length === 0) return { causes, told: asFound, situation: shown }
  const tried = { ...shown, fixesTried: [...situation.fixesTried, fix.id] }
  // it runs again although trouble is left: what hid the running findings is seen to be gone
  const after = { ...before, causes, situation: tried }
  const runsAgain = kind.effectOfYes.flatMap((effect, f) => {
    const question = model.questionOf[f]!
    const gone = effect.hidesRunning && tried.answers[question] === 'yes' && !tool.shows(f, causes)
    return gone ? (answerTo(desk, after, question, true) ?? []) : []
  })
  return { causes, told: [...asFound, ...runsAgain], situation: withAnswers(tried, runsAgain) }
}

/** What a look tells now; always the same for the same tool, cured causes left out. */
function answerTo(
  desk: Desk,
  standing: BenchState,
  question: string,
  sure: boolean,
): Done['told'] | undefined {
  const answer = answerShown(desk, standing, question, !sure && isContrary(desk, question))
  return answer === undefined ? undefined : [{ question, answer }]
}

/** Is the tool's answer to this question the contrary of what it shows, wherever answers may be wrong? */
export const isContrary = ({ tool, wrongAnswers }: Desk, question: string): boolean =>
  tool.chance('wrong', question) < wrongAnswers

/** What the tool shows with these causes there, or the contrary of it; undefined for a question that nobody asks. */
export function answerShown(
  { kind: { model }, tool, seen, table }: Desk,
  { causes }: Pick<BenchState, 'causes'>,
  question: string,
  contrary = false,
): Answer | undefined {
  const over = model.findingsOfQuestion.get(question)
  if (!over) return undefined
  if (!over.every((f) => seen(tool, f, causes))) return 'cant-tell'
  return answerShowing(
    table,
    question,
    over.map((f) => tool.shows(f, causes) !== contrary),
    tool.chance('reading', question),
  )
}

function withAnswers(situation: Situation, told: Done['told']): Situation {
  if (told.length === 0) return situation
  const answers = { ...situation.answers }
  const answeredAfter = { ...situation.answeredAfter }
  for (const { question, answer } of told) {
    answers[question] = answer
    answeredAfter[question] = situation.fixesTried.length
  }
  return { ...situation, answers, answeredAfter }
}

/** Does the bench say that the trouble is gone? */
export const curedIt = (done: Done): boolean => !isMended(done.before) && isMended(done.after)
