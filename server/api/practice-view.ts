import type { Slip } from '../../shared/knowledge.js'
import type { DebriefView, ExerciseView } from '../../shared/practice-api.js'
import type { PracticeBench } from '../practice-bench/practice-bench.js'
import type { Debrief } from '../practice/debrief.js'
import { isMended } from '../practice/desk.js'
import { setOf } from '../practice/hushed.js'
import type { LookedBack } from '../practice/look-back.js'
import type { TakeAlong } from '../practice/take-along.js'
import type { Played } from '../practice/played.js'

const mistakes = (slips: readonly Slip[]) =>
  slips.map(({ id, name, grade, why }) => ({ id, name, ends: grade === 'ends', why }))

export function exerciseView({ exercise, played }: PracticeBench): ExerciseView {
  const { desk, done, now } = played
  const { id, learner, kind, level, begunAt, changedAt, setting } = exercise
  return {
    id,
    learner,
    kind,
    level,
    begunAt,
    changedAt,
    set: setOf(exercise) ?? null,
    heard: setting.complaint === undefined ? [...desk.heard] : [setting.complaint],
    count: exercise.moves.length,
    moves: done.map(({ move, minutes, parts, told, slips }) => ({
      move,
      minutes,
      parts,
      told: told.map((it) => ({ ...it })),
      safetyMistakes: mistakes(slips),
    })),
    standing: [...now.situation.standing],
    answers: { ...now.situation.answers },
    minutes: now.minutes,
    parts: now.parts,
    runs: isMended(now),
    suspects: setting.hideSuspects ? [] : desk.kind.model.causes.map((it) => it.id),
    over: now.over ?? null,
  }
}

const takenAlong = (it: TakeAlong): DebriefView['takeAlong'] => ({
  what: it.what,
  move: 'step' in it ? it.step : null,
  causes: 'taken' in it ? [it.taken.cause, it.there.cause] : 'cause' in it ? [it.cause] : [],
})

/** @param played one that is over */
export function debriefView(
  { exercise, desk, now }: Played,
  debrief: Debrief,
  back: LookedBack,
): DebriefView {
  return {
    exercise: exercise.id,
    over: now.over!,
    causes: [...debrief.causes],
    left: [...debrief.left],
    score: debrief.score ?? 0,
    lostMinutes: debrief.losses / desk.shop.rate,
    safetyMistakes: mistakes(debrief.slips),
    takeAlong: takenAlong(back.lesson),
    steps: debrief.steps
      .filter(({ done }) => done.refused === undefined)
      .map(({ done: { move }, plan, lostMinutes }) => ({ move, good: plan, lostMinutes })),
    misled: back.misled.map(({ question, finding, against, wrong, chance }) => ({
      question,
      finding,
      against: against ?? null,
      wrong: wrong !== undefined,
      perTen: chance * 10,
    })),
    spread: debrief.spread ?? null,
    allowed: debrief.planSpread ?? null,
  }
}
