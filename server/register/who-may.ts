/**
 * Who may see and do what in practice: the one place. A request is taken for the person whose page it asks for: under
 * a learner's pages for that learner, under a class's pages for its instructor. Where people sign in, it gets so far
 * only from who that is (`mayPractiseAs`, and `mayAsk` for the classes); where nobody does, nobody can be told from
 * anybody else, and what is hidden from a learner is hidden all the same.
 */
import type { Person, Role } from '../../shared/person.js'
import type { Exercise, ExerciseSummary, Learner } from '../../shared/practice.js'
import { nameKey } from './name-key.js'

export type Viewer =
  | { readonly is: 'learner'; readonly learner: Pick<Learner, 'id' | 'class'> }
  | { readonly is: 'instructor'; readonly class: string }
  /** at the door: nobody has said yet who practises */
  | { readonly is: 'anybody' }

export const asLearner = (learner: Pick<Learner, 'id' | 'class'>): Viewer => ({ is: 'learner', learner })
export const asInstructor = (ofClass: string): Viewer => ({ is: 'instructor', class: ofClass })
export const anybody: Viewer = { is: 'anybody' }

type Of<What> = { readonly of: What }
type OneExercise = Pick<Exercise | ExerciseSummary, 'learner'> & { readonly over: boolean }

/** All that anybody can want to see or do. */
export type Wish =
  /** names of the people in the classes, and lessons, cards, levels */
  | { readonly to: 'choose who practises' }
  | ({ readonly to: 'see a record' } & Of<Pick<Learner, 'id' | 'class'>>)
  | ({ readonly to: 'make moves' } & Of<OneExercise>)
  /** what was wrong with the tool, and the plan beside each move; `class` is the learner's */
  | ({ readonly to: 'see the debrief' } & Of<OneExercise & Pick<Learner, 'class'>>)
  | ({ readonly to: 'see a class' } & Of<string>)
  /** choose causes, words, and what is hidden */
  | ({ readonly to: 'set an exercise' } & Of<string>)
  | ({ readonly to: 'sign off' } & Of<Pick<Learner, 'id' | 'class'>>)

export function may(who: Viewer, wish: Wish): boolean {
  switch (wish.to) {
    case 'choose who practises':
      return true
    case 'see a record':
      return isOwn(who, wish.of.id) || isInstructorOf(who, wish.of.class)
    case 'make moves':
      return isOwn(who, wish.of.learner) && !wish.of.over
    case 'see the debrief':
      // an instructor too only when it is over: the class may still be at the same tool, and phones lie about
      return wish.of.over && (isInstructorOf(who, wish.of.class) || isOwn(who, wish.of.learner))
    case 'see a class':
    case 'set an exercise':
      return isInstructorOf(who, wish.of)
    case 'sign off':
      return isInstructorOf(who, wish.of.class)
  }
}

const isOwn = (who: Viewer, learner: string) => who.is === 'learner' && who.learner.id === learner
const isInstructorOf = (who: Viewer, ofClass: string) => who.is === 'instructor' && who.class === ofClass

/** What only a lead may do: figures, people, records, intervals, backups, and to end a case. */
const forLead: readonly RegExp[] = [
  /^POST \/(api\/)?shop(\/|$)/,
  /^\S+ \/shop\/(backups|export)/,
  /^POST \/people/,
  /^POST \/(api\/)?cases\/[^/]+\/(finish|remove)$/,
  /^POST \/care\/habits$/,
  /^POST \/tools\/[^/]+\/remove$/,
  /^\S+ \/(api\/)?practice\/classes(\/|$)/,
]
/** What a learner may do beside looking: practise, and look after their own signing in. */
const forLearner: readonly RegExp[] = [
  /^POST \/(api\/)?practice\//,
  /^POST \/join$/,
  /^POST \/(sign-in|sign-out|sign-out-everywhere|passphrase)$/,
  /^(GET|HEAD) \/(rulebook|practice|people|identify|lab|join|api\/rulebook|api\/openapi|api\/practice)/,
  /^(GET|HEAD) \/$/,
]

/** What a phone may ask for that joined a class: its own learners' pages, exercises and lessons, no list of names. */
const forClassPhone: readonly RegExp[] = [
  /^(GET|HEAD) \/practice\/(people|exercises|lessons|hearsay)\//,
  /^POST \/practice\/exercises(\/|$)/,
]
const pageOfLearner = /^\S+ \/practice\/people\/([^/]+)/

/** @param learners ids of who joined on that phone */
export function mayAskInClass(learners: readonly string[], method: string, path: string): boolean {
  const asked = `${method} ${path.toLowerCase().replace(/(.)\/+$/, '$1')}`
  const whose = pageOfLearner.exec(asked)?.[1]
  return forClassPhone.some((its) => its.test(asked)) && (whose === undefined || learners.includes(whose))
}

/**
 * Whether somebody who signed in may ask for what a learner has practised. A learner is themselves in a class by their
 * name, which a lead gave them; by joining with the class's word; or by having put that name down. Barbers and leads
 * teach, and see all.
 *
 * @param claim what else than the name is known of the two
 */
export const mayPractiseAs = (
  { name, role }: Pick<Person, 'name' | 'role'>,
  learner: Pick<Learner, 'name'>,
  claim: { readonly joined: boolean; readonly putDown: boolean },
): boolean => role !== 'learner' || nameKey(name) === nameKey(learner.name) || claim.joined || claim.putDown

/** Whether somebody of this role may ask for an address at all; what is behind it may ask for more. */
export function mayAsk(role: Role, method: string, path: string): boolean {
  // one way to write an address, as the routes take it: whatever the capitals, with a slash at its end or without
  const asked = `${method} ${path.toLowerCase().replace(/(.)\/+$/, '$1')}`
  if (role === 'lead') return true
  if (forLead.some((its) => its.test(asked))) return false
  return role === 'barber' || forLearner.some((its) => its.test(asked))
}
