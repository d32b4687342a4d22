/**
 * A repair that somebody told, walked through the product's own plan: what the story tells is answered when it is asked,
 * everything else is "can't tell".
 *
 * On the danger screen what is not told is "none of these"; what there only tells the sort of battery is not known.
 */
import { comparisonsOf } from '../../shared/conditions.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Answer, ShopSettings, Situation } from '../../shared/situation.js'
import { Situation as SituationShape } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import { buildPlan, serviceCost } from '../../server/diagnosis/plan/build.js'
import { knownCost } from '../../server/diagnosis/plan/fix-order.js'
import { planProblem } from '../../server/diagnosis/plan/problem.js'
import type { Prepared, PreparedKind } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'

/** What is known of a tool before the walk. */
export interface Told {
  readonly id: string
  readonly kind: string
  /** said on the complaint page */
  readonly complaint: Readonly<Record<string, Answer>>
  /** said when it is asked */
  readonly observations: Readonly<Record<string, Answer>>
  readonly tried: readonly string[]
  /** ids of the causes that are there */
  readonly causes: readonly string[]
  /** what is answered on the danger screen where nothing is told */
  readonly danger: 'none-of-these' | 'cant-tell'
}

export interface Walk {
  readonly id: string
  /** look screens before the first repair or ending */
  readonly screens: number
  /** look screens until the end */
  readonly screensInAll: number
  readonly fixes: number
  readonly end: 'cured' | 'stop' | 'send-in' | 'retire'
  /** fixed by the right repair, stopped, or ended where no repair at this bench is worth it */
  readonly right: boolean
  readonly trail: readonly string[]
}

const mostTurns = 80

/** @throws Error when the walk does not end */
export async function walkTold(prepared: Prepared, shop: ShopSettings, told: Told): Promise<Walk> {
  const kind = kindOf(prepared, told.kind)
  const mendable = await mendableAt(kind, shop)
  let situation = atDanger(kind, told)
  let left = told.causes
  const trail: string[] = []
  let screens = 0
  let before: number | undefined
  let fixes = 0
  const ended = (end: Walk['end'], right: boolean): Walk => ({
    id: told.id,
    screens: before ?? screens,
    screensInAll: screens,
    fixes,
    end,
    right,
    trail: [...trail, end],
  })
  for (let turn = 0; turn < mostTurns; turn++) {
    const { next } = await assess(prepared, situation, shop)
    const step = next.step === 'offer' ? next.outlook!.ending : next.step
    switch (step) {
      case 'stop':
        return ended('stop', true)
      case 'send-in':
      case 'retire':
        return ended(step, !mendable(left))
      case 'fix':
      case 'nothing-found': {
        before ??= screens
        fixes++
        const fix = kind.model.fixes.find(({ id }) => id === next.id)!
        trail.push(`fix:${fix.id}`)
        left = left.filter((cause) => fix.cures[cause] === undefined)
        if (left.length === 0) return ended('cured', true)
        situation = afterTrying(situation, fix.id, fix.outcome?.id, told)
        break
      }
      default: {
        const asked = kind.model.steps.find(({ id }) => id === next.id)!
        if (asked.form === 'danger') {
          // asked once more before something runs: who could not tell cannot tell now
          situation = { ...situation, cannotDo: [...situation.cannotDo, asked.id] }
          trail.push('dangers-again')
          break
        }
        screens++
        trail.push(`${next.id}(${next.questions.length})`)
        situation = answered(kind, situation, told, next)
      }
    }
  }
  throw new Error(`${told.id} did not come to an end: ${trail.join(' ')}`)
}

/** Is what is left worth mending at this bench for whoever knows it? */
async function mendableAt(
  kind: PreparedKind,
  shop: ShopSettings,
): Promise<(causes: readonly string[]) => boolean> {
  const { problem, state } = buildPlan({
    prepared: kind,
    states: new Map(),
    evidence: [],
    relevance: [],
    situation: SituationShape.parse({ kind: kind.model.kind.id }),
    shop,
    barred: new Set((await kind.barred(shop)).keys()),
  })
  return (causes) => {
    const set = causes.map((id) => kind.model.causeIndex.get(id)!).sort((a, b) => a - b)
    const mends = !set.some((c) => kind.model.causes[c]!.service === 'retire')
    const service = serviceCost(shop, { mends, covered: true, renews: 0 })
    const ends = [service, shop.replace].map((cost) => Float64Array.of(cost))
    return knownCost(planProblem({ ...problem, sets: [set], ends }), state, 0).plan !== 'end'
  }
}

function atDanger({ model }: PreparedKind, told: Told): Situation {
  const stopping = new Set(model.stops.flatMap((stop) => comparisonsOf(stop.when).map(({ fact }) => fact)))
  const answers: Record<string, Answer> = { ...told.complaint }
  for (const step of model.steps)
    if (step.form === 'danger')
      for (const { id } of step.questions) {
        const isDanger = (model.findingsOfQuestion.get(id) ?? []).some((f) =>
          stopping.has(model.findings[f]!.id),
        )
        const untold = isDanger && told.danger === 'none-of-these' ? 'no' : 'cant-tell'
        answers[id] ??= told.observations[id] ?? untold
      }
  return SituationShape.parse({ kind: told.kind, answers, fixesTried: told.tried })
}

function answered(
  { model }: PreparedKind,
  situation: Situation,
  told: Told,
  next: Assessment['next'],
): Situation {
  const given = Object.fromEntries(next.questions.map((id) => [id, told.observations[id] ?? 'cant-tell']))
  const after = Object.fromEntries(next.questions.map((id) => [id, situation.fixesTried.length]))
  const step = model.steps.find(({ id }) => id === next.id)
  // who can't tell may not have looked at all
  const seenSomething = Object.values(given).some((answer) => answer !== 'cant-tell')
  return {
    ...situation,
    answers: { ...situation.answers, ...given },
    answeredAfter: { ...situation.answeredAfter, ...after },
    standing: !seenSomething
      ? situation.standing
      : step && !step.power
        ? [...new Set([...situation.standing, ...step.setups])]
        : [],
  }
}

function afterTrying(situation: Situation, fix: string, outcome: string | undefined, told: Told): Situation {
  const answers =
    outcome === undefined
      ? situation.answers
      : { ...situation.answers, [outcome]: told.observations[outcome] ?? 'no' }
  const answeredAfter =
    outcome === undefined
      ? situation.answeredAfter
      : { ...situation.answeredAfter, [outcome]: situation.fixesTried.length }
  return { ...situation, answers, answeredAfter, fixesTried: [...situation.fixesTried, fix], standing: [] }
}
