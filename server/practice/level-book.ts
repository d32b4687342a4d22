/** The rulebook as a level has it: only the causes that may be there, and how often there are several. */
import type { Knowledge, Level } from '../../shared/knowledge.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { onceForEach } from '../../shared/once-for.js'
import type { Setting } from '../../shared/practice.js'
import { ShopSettings } from '../../shared/situation.js'
import { modelOf } from '../diagnosis/model.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'

/** Share of tools with several faults that the plan believes in, where the level says how many there are. */
const severalBelieved = { one: 0.001, chain: 0.5 } as const

const made = onceForEach<Prepared, Prepared>()

/**
 * What both learner and plan may count on in this level. The plan of an exercise is the product's own plan over this
 * book, so a learner is not measured against knowledge of causes that cannot come.
 *
 * @returns a rulebook of one kind; the same object for the same kind, causes and number of faults
 * @throws RangeError for an unknown kind or level
 */
export function levelBook(prepared: Prepared, levelId: string, kind: string, setting: Setting): Prepared {
  const level = levelOf(prepared.knowledge, levelId)
  const may = causesOf(prepared.knowledge, level, kind, setting)
  const key = [kind, level.faults, ...may].join('|')
  return made(prepared, key, () => narrowed(prepared, level, kind, new Set(may)))
}

/** @throws RangeError for an unknown level */
export function levelOf(knowledge: Knowledge, id: string): Level {
  const level = knowledge.levels.find((it) => it.id === id)
  if (!level) throw new RangeError(`there is no level ${id} in the rulebook`)
  return level
}

/** Kinds that a level draws from, in rulebook order. */
export const kindsOf = (knowledge: Knowledge, level: Level): string[] =>
  knowledge.kinds.map(({ id }) => id).filter((id) => level.kinds === 'all' || level.kinds.includes(id))

/**
 * Ids of the causes that may be there: the kind's commonest. Where one was chosen that is not among them, all that the
 * kind can have: a list of suspects with one rare fault in it would name it.
 *
 * @returns in rulebook order
 */
export function causesOf(knowledge: Knowledge, level: Level, kind: string, setting: Setting): string[] {
  const { causes } = bookOf(knowledge, kind)
  const most = level.causes === 'all' ? causes.length : level.causes
  const byShare = [...causes].sort((a, b) => b.shares[kind]! - a.shares[kind]!)
  const usual = new Set(byShare.slice(0, most).map(({ id }) => id))
  const chosen = [...(setting.causes ?? []), ...(setting.about === undefined ? [] : [setting.about])]
  const isUsual = chosen.every((id) => usual.has(id) || !causes.some((cause) => cause.id === id))
  return causes.filter(({ id }) => !isUsual || usual.has(id)).map(({ id }) => id)
}

function narrowed(prepared: Prepared, level: Level, kindId: string, may: ReadonlySet<string>): Prepared {
  const { knowledge } = prepared
  const kind = kindOf(prepared, kindId)
  const share = level.faults === 'as-they-come' ? undefined : severalBelieved[level.faults]
  const own: Knowledge = {
    ...knowledge,
    causes: knowledge.causes.filter(({ id }) => may.has(id)),
    kinds: knowledge.kinds.map((it) =>
      share === undefined || it.id !== kindId ? it : { ...it, severalFaults: { ...it.severalFaults, share } },
    ),
  }
  // what findings hide, bar or stop has nothing to do with causes, so those tables stay
  return { knowledge: own, kinds: new Map([[kindId, { ...kind, model: modelOf(own, kindId) }]]) }
}

/** The figures that practice reckons with: the same in every shop, so that scores can be compared. */
export const practiceShop = (level: Level): ShopSettings =>
  ShopSettings.parse({ skill: level.skill, canSafetyTest: true, screens: null })
