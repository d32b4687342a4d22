/** Simulated cases over the real rulebook, every policy on the same cases. */
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import type { Course, Policy } from '../../server/simulation/course.js'
import { runCourse } from '../../server/simulation/course.js'
import { drawTool } from '../../server/simulation/tool.js'
import { byPrior, fixedChart, informationPerCost, oneStepU, asTheProduct } from './policies.js'
import { clairvoyantCosts, studyShop } from './setting.js'

export interface CaseResult {
  readonly number: number
  readonly clairvoyant: number
  readonly needsService: boolean
  readonly courses: Readonly<Record<string, Course>>
}

export const ourName = 'ours'

/** Results of the cases numbered `from` (inclusive) to `to` (exclusive). `prepared` is the rulebook as the study has it. */
export async function runCases(
  prepared: Prepared,
  kindId: string,
  from: number,
  to: number,
  only?: readonly string[],
) {
  const kind = kindOf(prepared, kindId)
  const clairvoyant = await clairvoyantCosts(prepared, kindId)
  const policies: Record<string, Policy> = {
    'fixed chart in trade order': fixedChart,
    'fixing by prior': byPrior(kind.model.priors),
    'one step ahead, U': oneStepU,
    'information per cost': informationPerCost,
    [ourName]: asTheProduct,
  }
  const results: CaseResult[] = []
  for (let number = from; number < to; number++) {
    const courses: Record<string, Course> = {}
    const tool = drawTool(kind.model, number)
    for (const [name, policy] of Object.entries(policies)) {
      if (only && !only.includes(name)) continue
      courses[name] = await runCourse({ prepared, kind: kindId, shop: studyShop, tool, policy })
    }
    const { cost, sendsIn } = clairvoyant(tool.causes)
    results.push({ number, clairvoyant: cost, needsService: sendsIn, courses })
  }
  return results
}

interface PolicyRow {
  readonly policy: string
  readonly screens: number
  readonly screens90: number
  readonly fixes: number
  readonly minutes: number
  readonly mendedOrRight: number
  readonly sentIn: number
  readonly cost: number
  readonly standardError: number
  readonly over: number
}

export interface Table {
  readonly cases: number
  readonly setAside: number
  readonly clairvoyant: number
  readonly needService: number
  readonly rows: readonly PolicyRow[]
}

/** Cases that a set-aside ended for any policy are left out for all. */
export function tableOf(results: readonly CaseResult[]): Table {
  const kept = results.filter((r) => Object.values(r.courses).every((c) => c.end !== 'set-aside'))
  const mean = (value: (r: CaseResult) => number) => kept.reduce((sum, r) => sum + value(r), 0) / kept.length
  const clairvoyant = mean((r) => r.clairvoyant)
  const rows = Object.keys(results[0]!.courses).map((policy): PolicyRow => {
    const course = (r: CaseResult) => r.courses[policy]!
    const cost = mean((r) => course(r).cost)
    const screens = kept.map((r) => course(r).screens).sort((a, b) => a - b)
    return {
      policy,
      screens: mean((r) => course(r).screens),
      screens90: screens[Math.ceil(screens.length * 0.9) - 1]!,
      fixes: mean((r) => course(r).fixes),
      minutes: mean((r) => course(r).minutes),
      mendedOrRight: mean((r) => Number(course(r).end === 'cured' || r.needsService)),
      sentIn: mean((r) => Number(course(r).end === 'sent-in')),
      cost,
      standardError: Math.sqrt(mean((r) => (course(r).cost - cost) ** 2) / kept.length),
      over: cost - clairvoyant,
    }
  })
  return {
    cases: kept.length,
    setAside: results.length - kept.length,
    clairvoyant,
    needService: mean((r) => Number(r.needsService)),
    rows,
  }
}
