/**
 * What somebody says who brings a tool: one thing that troubles them, in their words, and perhaps what happened. Nothing
 * that only a bench finds, and never what happened alone. How often each is said unasked stands in the rulebook.
 */
import type { Question } from '../../shared/knowledge.js'
import type { KindModel } from '../diagnosis/model.js'
import { exponential } from '../simulation/chance.js'
import type { seeing } from '../simulation/complaint.js'
import type { DrawnTool } from '../simulation/tool.js'

export interface FirstWords {
  /** questions that these words answer with yes */
  readonly complaint: readonly string[]
  /** as said; at least one line */
  readonly heard: readonly string[]
}

/** For what the rulebook gives no chance of being said unasked. */
const seldom = 0.02

/**
 * @param count lines at most
 * @returns undefined for a tool that nobody would bring: it shows nothing that troubles anybody
 */
export function firstWords(
  model: KindModel,
  tool: DrawnTool,
  seen: ReturnType<typeof seeing>,
  count: number,
): FirstWords | undefined {
  const told = model.steps
    .filter(({ form }) => form !== 'check')
    .flatMap(({ form, opens, questions }) =>
      questions
        .filter((it) => it.sense !== undefined && isYes(model, tool, seen, it))
        .map((question) => ({
          question,
          opens: opens === true && !(form === 'danger' && question.sense === 'story'),
          at: exponential(tool.chance('told', question.id)) / (question.unasked ?? seldom),
        })),
    )
    .sort((a, b) => a.at - b.at)
  const worried = told.find(({ question }) => question.worry !== undefined)
  // with nothing wrong they bring it for what they take for a fault; that it is none is still to be asked
  if (model.exclusive[tool.main] === true)
    return worried && { complaint: [], heard: [worried.question.worry!] }
  const trouble = told.find((it) => it.opens)
  if (!trouble) return undefined
  const more = told.filter((it) => it !== trouble && it.question.worry === undefined).slice(0, count - 1)
  const said = [trouble, ...more].map(({ question }) => question)
  return { complaint: said.map(({ id }) => id), heard: said.map(({ statement }) => statement) }
}

const isYes = (
  model: KindModel,
  tool: DrawnTool,
  seen: ReturnType<typeof seeing>,
  { id, kind }: Question,
): boolean =>
  kind === 'yes-no' &&
  (model.findingsOfQuestion.get(id) ?? []).some(
    (f) => tool.shows(f, tool.causes) && seen(tool, f, tool.causes),
  )
