/** Repairs that others told: where their true causes come out. */
import { createHash } from 'node:crypto'
import type { ToldCause } from '../../shared/proof.js'
import { Situation } from '../../shared/situation.js'
import type { Answer } from '../../shared/situation.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { score } from '../../server/diagnosis/assess.js'
import { placeOf } from '../../server/proof/isolation.js'

/** Stories on which numbers of the rulebook were tuned, and those held back: by a digest of the id, so nobody chose. */
export const halfOf = (story: string): ToldCause['half'] =>
  createHash('sha256').update(story).digest()[0]! % 2 === 1 ? 'tuned-on' : 'held-back'

/** What the report needs of a story. Bench findings are kept out of the complaint. */
export interface ToldStory {
  readonly id: string
  readonly kind: string
  readonly complaint: Readonly<Record<string, Answer>>
  readonly observations: Readonly<Record<string, Answer>>
  readonly tried: readonly string[]
  readonly causes: readonly {
    readonly id: string
    readonly explains?: { readonly verdict: string; readonly because: string } | undefined
  }[]
}

/** A true cause is missed when it is not among so many. */
const mostPlaces = 3

/** One entry for each true cause of each story. */
export async function toldCauses(prepared: Prepared, stories: readonly ToldStory[]): Promise<ToldCause[]> {
  const report: ToldCause[] = []
  for (const story of stories) {
    const { id, kind, complaint, observations, tried } = story
    const before = await ranked(prepared, kind, {}, [])
    const first = await ranked(prepared, kind, complaint, [])
    const last = await ranked(prepared, kind, { ...complaint, ...observations }, tried)
    const [likeliest] = last.beliefs
    const told = Object.keys(complaint).length + Object.keys(observations).length
    for (const cause of story.causes) {
      const afterAll = last.place(cause.id)
      report.push({
        story: id,
        kind,
        cause: cause.id,
        byPrior: before.place(cause.id),
        afterComplaint: first.place(cause.id),
        afterAll,
        half: halfOf(id),
        thin: told <= 1,
        chance: last.beliefs.find((it) => it.id === cause.id)?.probability ?? 0,
        leader: {
          chance: likeliest!.probability,
          right: story.causes.some((it) => it.id === likeliest!.id),
        },
        miss: afterAll > mostPlaces ? (cause.explains ?? null) : null,
      })
    }
  }
  return report
}

/** What the scores make of these answers. */
async function ranked(
  prepared: Prepared,
  kind: string,
  answers: Readonly<Record<string, Answer>>,
  fixesTried: readonly string[],
) {
  const { causes: beliefs } = await score(prepared, Situation.parse({ kind, answers, fixesTried }))
  const weights = beliefs.map((c) => c.probability)
  return {
    /** likeliest first */
    beliefs,
    /** 1 = likeliest, equals share the worse place; last where the kind has no such cause */
    place: (cause: string): number => {
      const index = beliefs.findIndex((c) => c.id === cause)
      return index < 0 ? beliefs.length + 1 : placeOf(weights, index)
    },
  }
}
