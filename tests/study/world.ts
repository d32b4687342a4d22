/**
 * Simulated troubled tools, drawn from the rulebook's own model, on common random numbers: what a finding
 * shows in a case is fixed by the case's seed, the finding and the causes that are there when it is looked at.
 */
import type { KindModel } from '../../server/diagnosis/model.js'
import type { PreparedKind } from '../../server/diagnosis/prepare.js'
import { generator } from './random-rulebook.js'

export interface World {
  readonly number: number
  /** causes there at the start, ascending */
  readonly causes: readonly number[]
  /** does the finding show, with these causes there? */
  readonly shows: (finding: number, causes: readonly number[]) => boolean
  /** can the finding be seen at all (a dead tool hides what only a running one shows)? */
  readonly seen: (finding: number, causes: readonly number[]) => boolean
  /** does this try of a fix cure the cause? */
  readonly cures: (fix: number, cause: number, chance: number) => boolean
  readonly random: () => number
}

/** A number in [0, 1) fixed by its key: FNV-1a, then two rounds of mixing (Steele, Lea & Flood 2014, constants of splitmix). */
function fixed(...key: readonly number[]): number {
  let h = 0x811c9dc5
  for (const k of key) h = Math.imul(h ^ (k + 0x9e37), 0x01000193)
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return ((h ^ (h >>> 16)) >>> 0) / 4294967296
}

export function worldOf({ model, effectOfYes }: PreparedKind, number: number): World {
  const random = generator(1 + ((number * 7919) % 2147483000))
  for (let k = 0; k < 20; k++) random()
  const shows = (f: number, causes: readonly number[]): boolean =>
    fixed(number, f, 9999) < model.leaks[f]! ||
    causes.some((c) => fixed(number, f, c) < model.strengths[f]![c]!)
  const hiders = effectOfYes.flatMap((effect, f) => (effect.hidesRunning ? [f] : []))
  const seen = (f: number, causes: readonly number[]): boolean =>
    !model.findings[f]!.running || !hiders.some((h) => shows(h, causes))
  return {
    number,
    causes: drawnCauses(model, random),
    shows,
    seen,
    cures: (fix, cause, chance) => fixed(number, fix + 5000, cause + 5000) < chance,
    random,
  }
}

/** Independent causes, at least one there; an exclusive one only alone. Rejection sampling. */
function drawnCauses(model: KindModel, random: () => number): number[] {
  for (;;) {
    const causes = model.priors.flatMap((p, i) => (random() < p ? [i] : []))
    if (causes.length === 0) continue
    if (causes.length > 1 && causes.some((c) => model.exclusive[c])) continue
    return causes
  }
}

/** Two findings that the user tells unasked: true, seen, of the steps that only ask. */
export function complaintOf({ model }: PreparedKind, world: World, count = 2): string[] {
  const asked = model.steps.filter((s) => s.form === 'ask').flatMap((s) => s.questions.map((q) => q.id))
  const told = asked.filter((question) =>
    (model.findingsOfQuestion.get(question) ?? []).some(
      (f) => world.shows(f, world.causes) && world.seen(f, world.causes),
    ),
  )
  const picked: string[] = []
  while (picked.length < count && told.length > 0) {
    picked.push(told.splice(Math.floor(world.random() * told.length), 1)[0]!)
  }
  return picked
}
