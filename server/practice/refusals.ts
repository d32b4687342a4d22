/** Moves that cannot be made, with a sentence why; whatever only hurts is not refused, it is a slip. */
import type { PracticeMove } from '../../shared/practice.js'
import type { Desk, BenchState } from './desk.js'
import { barredAt, findingsAt } from './desk.js'

/** @returns undefined where the move can be made */
export async function refusalOf(
  desk: Desk,
  standing: BenchState,
  move: PracticeMove,
): Promise<string | undefined> {
  const { model } = desk.kind
  const { situation, over } = standing
  if (over !== undefined) return 'The exercise is over.'
  switch (move.type) {
    case 'stood':
      if (!model.setups.some(({ id }) => id === move.setup)) return unknown
      return situation.standing.includes(move.setup) ? 'That stands already.' : undefined
    case 'put-back':
      return situation.standing.includes(move.setup) ? undefined : 'That does not stand.'
    case 'looked':
      return refusedLook(desk, standing, move.step, move.question)
    case 'tried':
      return refusedFix(desk, standing, move.fix)
    case 'spread': {
      if (situation.fixesTried.length > 0 || standing.causes.length === 0)
        return 'A repair was tried: the points stand as they are.'
      return Object.keys(move.spread.points).some((id) => !model.causeIndex.has(id)) ? unknown : undefined
    }
    case 'made-safe': {
      const { stops } = await findingsAt(desk, situation)
      const stop = stops.find(({ id }) => id === move.stop)
      if (!stop) return 'Nothing that you know of has to be made safe there.'
      return stop.grade === 'set-aside' ? 'That cannot be made safe at this bench.' : undefined
    }
    case 'dared':
      return desk.book.knowledge.slips.some(
        ({ id, offers, kinds }) => id === move.act && offers !== undefined && kinds.includes(model.kind.id),
      )
        ? undefined
        : unknown
    case 'disinfected':
    case 'ended':
      return undefined
  }
}

const unknown = 'There is no such thing in this rulebook: it may have changed since.'

async function refusedLook(desk: Desk, { situation }: BenchState, id: string, only: string | undefined) {
  const step = desk.kind.model.steps.find((it) => it.id === id)
  if (!step) return unknown
  const questions = step.questions.filter((it) => only === undefined || it.id === only)
  if (questions.length === 0) return unknown
  const barred = await barredAt(desk, situation)
  if (barred.has(id)) return barred.get(id)!.because
  const { relevance } = await findingsAt(desk, situation)
  const hiding = relevance.filter(({ hides }) => questions.some((it) => hides.questions.includes(it.id)))
  const hidden = new Set(hiding.flatMap(({ hides }) => hides.questions))
  return questions.every((it) => hidden.has(it.id)) ? hiding[0]!.because : undefined
}

async function refusedFix(desk: Desk, standing: BenchState, id: string) {
  const fix = desk.kind.model.fixes.find((it) => it.id === id)
  if (!fix) return unknown
  if (standing.causes.length === 0) return 'The trouble is gone: nothing is left to fix.'
  const barred = await barredAt(desk, standing.situation)
  if (barred.has(id)) return barred.get(id)!.because
  if (standing.situation.fixesTried.includes(id)) return 'That was done already, and the trouble goes on.'
  const { relevance } = await findingsAt(desk, standing.situation)
  return relevance.find(({ hides }) => hides.fixes.includes(id))?.because
}
