/** What this shop may not do, as the policy rules see it: tabulated for each step and fix by running the engine. */
import type { Fix, Knowledge, Policy, Skill, Step } from '../../shared/knowledge.js'
import { needsParts } from '../../shared/work-files.js'
import type { ShopSettings } from '../../shared/situation.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import { firedRules } from './fired-rules.js'
import type { KindModel } from './model.js'

/** The figures of a shop that policy looks at. */
export type PolicyFigures = Pick<ShopSettings, 'skill' | 'canSafetyTest' | 'inWarranty' | 'partsToBeHad'>

const level: Record<Skill, number> = { S1: 1, S2: 2, S3: 3, S4: 4 }
const yesNo = (value: boolean): string => (value ? 'yes' : 'no')

/** The skill that an action needs, its set-ups included. */
function skillNeeded(model: KindModel, action: Step | Fix): Skill {
  return setupsNeeded(model.setups, action.setups).reduce<Skill>(
    (most, setup) => (level[setup.skill] > level[most] ? setup.skill : most),
    action.skill,
  )
}

/** The first policy rule that bars this action, if any. */
async function barringRule(
  knowledge: Knowledge,
  model: KindModel,
  action: Step | Fix,
  shop: PolicyFigures,
  timesTried: number,
  safetyTestSpared: boolean,
): Promise<Policy | null> {
  const isFix = 'cures' in action
  const setups = setupsNeeded(model.setups, action.setups)
  const opensBody = setups.some((s) => s.opensBody)
  const held = await firedRules(knowledge.policy, {
    for: isFix ? 'fix' : 'step',
    'skill-short-by': Math.max(0, level[skillNeeded(model, action)] - level[shop.skill]),
    'needs-safety-test': yesNo(!safetyTestSpared && (opensBody || (isFix && action.safetyTest))),
    'can-safety-test': yesNo(shop.canSafetyTest),
    'opens-body': yesNo(opensBody || setups.some((s) => s.opensCase === true)),
    'in-warranty': yesNo(shop.inWarranty),
    'needs-parts': yesNo(isFix && needsParts(action)),
    'parts-to-be-had': yesNo(shop.partsToBeHad),
    'times-tried': timesTried,
  })
  return knowledge.policy.find((rule) => rule.id === held[0]) ?? null
}

/**
 * Every step and fix that policy bars in such a shop, with the rule; as if nothing had been tried yet.
 *
 * @param safetyTestSpared nothing inside this tool is at mains, whatever its kind says in general
 */
export async function barredIn(
  knowledge: Knowledge,
  model: KindModel,
  shop: PolicyFigures,
  safetyTestSpared = false,
): Promise<ReadonlyMap<string, Policy>> {
  const barred = new Map<string, Policy>()
  for (const action of [...model.steps, ...model.fixes]) {
    const rule = await barringRule(knowledge, model, action, shop, 0, safetyTestSpared)
    if (rule) barred.set(action.id, rule)
  }
  return barred
}

/** Fixes that policy bars because they were tried, with the rule; barred ones of the shop included. */
export async function barredByTrying(
  knowledge: Knowledge,
  model: KindModel,
  shop: PolicyFigures,
  fixesTried: readonly string[],
  safetyTestSpared = false,
): Promise<ReadonlyMap<string, Policy>> {
  const barred = new Map<string, Policy>()
  for (const fix of model.fixes) {
    const times = fixesTried.filter((id) => id === fix.id).length
    if (times === 0) continue
    const rule = await barringRule(knowledge, model, fix, shop, times, safetyTestSpared)
    if (rule) barred.set(fix.id, rule)
  }
  return barred
}
