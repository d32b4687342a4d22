/** An exercise laid out: the hidden tool with its level's rulebook, and how things stand before the first move. */
import type { Policy } from '../../shared/knowledge.js'
import type { EndWay, Exercise, Spread } from '../../shared/practice.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import type { Findings } from '../diagnosis/findings.js'
import { findingsFrom } from '../diagnosis/findings.js'
import { barredByTrying } from '../diagnosis/policy.js'
import type { Prepared, PreparedKind } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { AnswerTable } from '../simulation/answers.js'
import { answerTable } from '../simulation/answers.js'
import { seeing } from '../simulation/complaint.js'
import type { DrawnTool } from '../simulation/tool.js'
import { drawnFor } from './drawn.js'
import { levelBook, levelOf, practiceShop } from './level-book.js'
import { onceFor } from '../../shared/once-for.js'

/** What does not change while an exercise is worked on. */
export interface Desk {
  readonly book: Prepared
  readonly kind: PreparedKind
  /** share of answers, danger questions apart, that are the contrary of what the tool shows */
  readonly wrongAnswers: number
  readonly shop: ShopSettings
  readonly tool: DrawnTool
  /** questions that the complaint answers with yes */
  readonly complaint: readonly string[]
  /** the complaint as it was said, line by line */
  readonly heard: readonly string[]
  readonly table: AnswerTable
  readonly seen: ReturnType<typeof seeing>
}

/** How things stand between two moves. */
export interface BenchState {
  /** what the learner knows and has done; all that the plan and the score look at */
  readonly situation: Situation
  /** positions of the causes still there: hidden */
  readonly causes: readonly number[]
  readonly disinfected: boolean
  /** the last points spread before the first fix */
  readonly spread: Spread | undefined
  readonly minutes: number
  /** money */
  readonly parts: number
  readonly over: EndWay | 'slip' | undefined
}

/** @throws RangeError for an unknown kind or level, or causes that show nothing */
export async function layOut(prepared: Prepared, exercise: Exercise): Promise<Desk> {
  const level = levelOf(prepared.knowledge, exercise.level)
  const book = levelBook(prepared, level.id, exercise.kind, exercise.setting)
  const kind = kindOf(book, exercise.kind)
  return {
    book,
    kind,
    wrongAnswers: level.wrongAnswers,
    shop: practiceShop(level),
    table: await answerTable(kind.model),
    seen: seeing(kind.model, kind.effectOfYes),
    ...drawnFor(kind, level, prepared.knowledge.chains, exercise),
  }
}

/** The complaint told, nothing done yet: the tool comes in plugged in, or on its charger. */
export function startOf({ kind, tool, complaint }: Desk): BenchState {
  const situation: Situation = {
    kind: kind.model.kind.id,
    answers: Object.fromEntries(complaint.map((id) => [id, 'yes' as const])),
    fixesTried: [],
    answeredAfter: {},
    cannotDo: [],
    stopsLifted: [],
    standing: [],
    looksWanted: 0,
  }
  return {
    situation,
    causes: tool.causes,
    disinfected: false,
    spread: undefined,
    minutes: 0,
    parts: 0,
    over: undefined,
  }
}

interface Found {
  readonly situation: Situation
  readonly findings: Promise<Findings>
}
const foundFor = onceFor((_: Situation['answers']): Found[] => [])

/** What the rules make of a situation; worked out once for all that differ in set-ups only. */
export function findingsAt({ kind }: Desk, situation: Situation): Promise<Findings> {
  const { answers, answeredAfter, stopsLifted } = situation
  const known = foundFor(answers)
  const same = known.find(
    (it) => it.situation.answeredAfter === answeredAfter && it.situation.stopsLifted === stopsLifted,
  )
  if (same) return same.findings
  const findings = findingsFrom(kind.model, situation)
  known.push({ situation, findings })
  return findings
}

/** Steps and fixes that may not be done at this bench, with the rule. */
export async function barredAt(desk: Desk, situation: Situation): Promise<ReadonlyMap<string, Policy>> {
  const { book, kind, shop } = desk
  const spared = (await findingsAt(desk, situation)).relevance.some((rule) => rule.hides.safetyTest)
  return new Map([
    ...(await kind.barred(shop, spared)),
    ...(await barredByTrying(book.knowledge, kind.model, shop, situation.fixesTried, spared)),
  ])
}

/** Is the trouble gone? */
export const isMended = ({ causes }: BenchState): boolean => causes.length === 0

/** Was every danger question asked? */
export const dangerLooked = ({ kind }: Desk, { answers }: Situation): boolean =>
  kind.model.steps.every(
    (step) => step.form !== 'danger' || step.questions.every(({ id }) => answers[id] !== undefined),
  )
