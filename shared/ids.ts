import { z } from 'zod'

/**
 * The name of a thing in `rules/`: its file name without `.json`. Lower-case words joined by hyphens.
 * Stored cases point at ids, so an id lives for ever; a renamed one goes to `rules/moved.json`.
 */
const anId = () =>
  z
    .string()
    .regex(
      /^[a-z][a-z0-9]*(-[a-z0-9]+)*$/,
      'must be lower-case words joined by hyphens, such as worn-brushes',
    )
    .max(60, 'must have at most 60 characters, so that it fits a page address')

/** An id that is the name of nothing else in the rulebook, or of what a list elsewhere says. */
export const Id = anId()

/** What an id can be the name of: a file in a folder of `rules/`, or something that stands inside one. */
export type IdList =
  | 'kinds'
  | 'setups'
  | 'causes'
  | 'findings'
  | 'steps'
  | 'fixes'
  | 'stops'
  | 'care'
  | 'signs'
  | 'levels'
  | 'slips'
  | 'confusions'
  | 'speech'
  /** on a step, or as the outcome of a fix */
  | 'questions'
  /** of a kind */
  | 'parts'
  /** keys of `rules/sources.json` */
  | 'sources'
  | 'drawings'
  /** no step and fix share an id */
  | 'steps-or-fixes'

/**
 * Of what each field is the name: said here once, where a field is declared with one of the ids below. The check that
 * the thing is there, the lists that an editor offers and what is done about a renamed id all go by it.
 */
export const idLists = z.registry<{ readonly list: IdList }>()

const idOf = (list: IdList) => anId().register(idLists, { list })

export const KindId = idOf('kinds')
export const SetupId = idOf('setups')
export const CauseId = idOf('causes')
export const FindingId = idOf('findings')
export const StepId = idOf('steps')
export const FixId = idOf('fixes')
export const StopId = idOf('stops')
export const CareId = idOf('care')
export const SignId = idOf('signs')
export const LevelId = idOf('levels')
export const SlipId = idOf('slips')
export const ConfusionId = idOf('confusions')
export const SpeechId = idOf('speech')
export const QuestionId = idOf('questions')
export const PartId = idOf('parts')
export const SourceId = idOf('sources')
export const DrawingId = idOf('drawings')
export const StepOrFixId = idOf('steps-or-fixes')
