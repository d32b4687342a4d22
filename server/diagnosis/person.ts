/** The person at the bench: what they can tell of what is asked, and how much they read for it. */
import type { Fix, Knowledge, Question, Step } from '../../shared/knowledge.js'
import type { ShopCounts, Situation } from '../../shared/situation.js'
import { toldBy, ToldBy } from '../../shared/telling-file.js'
import type { KindModel } from './model.js'
import { afterTelling } from './relearned.js'

/** Of a kind, by id. */
export interface Person {
  /** by question that a look asks: what it takes to tell, and how many of a hundred can, as a share */
  readonly telling: ReadonlyMap<string, { readonly way: ToldBy; readonly chance: number }>
  /** by step and fix: words that its screen shows whatever is asked; by question: words of its line */
  readonly words: ReadonlyMap<string, number>
}

export function personOf({ telling }: Knowledge, { steps, fixes, setups }: KindModel): Person {
  const chances = new Map(telling.map(({ id, chance }) => [id, chance]))
  const asked = steps
    .filter(({ form }) => form !== 'danger')
    .flatMap((step) => step.questions.map((question) => [step, question] as const))
  return {
    telling: new Map(
      asked.map(([step, question]) => {
        const way = toldBy(question, step, setups)
        return [question.id, { way, chance: chances.get(way) ?? 1 }]
      }),
    ),
    words: new Map<string, number>([
      ...steps.map((step): [string, number] => [step.id, screenWords(step)]),
      ...fixes.map((fix): [string, number] => [fix.id, fixWords(fix)]),
      ...asked.map(([, question]): [string, number] => [question.id, lineWords(question)]),
    ]),
  }
}

/** The person with the chances to tell that people of this shop have shown, by way of telling. */
export const personRelearned = (person: Person, { telling }: ShopCounts): Person => ({
  ...person,
  telling: new Map(
    [...person.telling].map(([question, { way, chance }]) => [
      question,
      { way, chance: afterTelling(chance, telling[way]) },
    ]),
  ),
})

const count = (texts: readonly (string | undefined)[]): number =>
  texts.reduce((sum, text) => sum + (text?.split(/\s+/).filter(Boolean).length ?? 0), 0)
const screenWords = ({ title, how, cautions }: Step): number => count([title, ...how, ...cautions])
const lineWords = ({ statement }: Question): number => count([statement])
const fixWords = ({ name, steps, cautions, cured }: Fix): number =>
  count([name, ...steps.flatMap((step) => [step.do, step.caution]), ...cautions, cured])

const logit = (p: number): number => Math.log(p / (1 - p))
const chanceOf = (logOdds: number): number => 1 / (1 + Math.exp(-logOdds))

/**
 * Standard deviations, in log-odds, of how much better or worse somebody tells than most: all in all, and in one way of
 * telling besides. Who bought it second-hand remembers nothing and has eyes all the same; who has no meter
 * has none for the next reading either.
 */
const spread = { inAll: 1, inOneWay: Math.SQRT1_2 }

/**
 * By question: the chance that this person can tell it, in this case. Each chance moves in log-odds by what was told
 * of what was asked so far: by the mean of two normals, one for all ways of telling and one for each, updated by one
 * Newton step from 0. What one screen asked in one way is one outcome, the share of it that was told: whoever cannot
 * tell one line of a look mostly cannot tell the next one. A look that cannot be done here was not told.
 */
export function tellChances(
  person: Person,
  model: KindModel,
  situation: Situation,
): ReadonlyMap<string, number> {
  const { telling } = person
  const ways = new Map(ToldBy.options.map((way) => [way, { slope: 0, bend: 0 }]))
  for (const { way, chance, told } of tellingOutcomes(person, model, situation)) {
    const at = ways.get(way)!
    at.slope += told - chance
    at.bend += chance * (1 - chance)
  }
  const own = spread.inOneWay ** 2
  let slope = 0
  let bend = 1 / spread.inAll ** 2
  for (const at of ways.values()) {
    const weight = 1 / (1 + own * at.bend)
    slope += weight * at.slope
    bend += weight * at.bend
  }
  const inAll = slope / bend
  return new Map(
    [...telling].map(([id, { way, chance }]) => {
      const at = ways.get(way)!
      const by = inAll + (at.slope - at.bend * inAll) / (1 / own + at.bend)
      return [id, by === 0 || chance === 1 ? chance : chanceOf(logit(chance) + by)]
    }),
  )
}

/** Of what a step asked in one way: the mean chance that it is told, and the share of it that was. */
interface Outcome {
  readonly way: ToldBy
  readonly chance: number
  readonly told: number
}

/** What was told of what was asked in a situation, a screen and way at a time. */
export const tellingOutcomes = (
  person: Person,
  { steps }: KindModel,
  situation: Situation,
): readonly Outcome[] => steps.flatMap((step) => outcomesOf(person, step, situation))

function outcomesOf({ telling }: Person, step: Step, { answers, cannotDo }: Situation): Outcome[] {
  const given = step.questions.flatMap(({ id }) => {
    const it = telling.get(id)
    const asked = answers[id] !== undefined || cannotDo.includes(step.id)
    return it && asked ? [{ ...it, told: answers[id] !== undefined && answers[id] !== 'cant-tell' }] : []
  })
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length
  return [...new Set(given.map(({ way }) => way))].map((way) => {
    const same = given.filter((it) => it.way === way)
    return {
      way,
      chance: mean(same.map(({ chance }) => chance)),
      told: mean(same.map(({ told }) => Number(told))),
    }
  })
}
