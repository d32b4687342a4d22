/** Repairs that others told: where their true causes come out. */
import type { ToldCause } from '../../shared/proof.js'
import { Situation } from '../../shared/situation.js'
import type { Answer } from '../../shared/situation.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { score } from '../../server/diagnosis/assess.js'
import { placeOf } from '../../server/proof/isolation.js'

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
    const before = await placesIn(prepared, kind, {}, [])
    const first = await placesIn(prepared, kind, complaint, [])
    const last = await placesIn(prepared, kind, { ...complaint, ...observations }, tried)
    for (const cause of story.causes) {
      const afterAll = last(cause.id)
      report.push({
        story: id,
        kind,
        cause: cause.id,
        byPrior: before(cause.id),
        afterComplaint: first(cause.id),
        afterAll,
        miss: afterAll > mostPlaces ? (cause.explains ?? null) : null,
      })
    }
  }
  return report
}

/** Place of a cause after these answers: 1 = likeliest, equals share the worse place; last where the kind has no such cause. */
async function placesIn(
  prepared: Prepared,
  kind: string,
  answers: Readonly<Record<string, Answer>>,
  fixesTried: readonly string[],
): Promise<(cause: string) => number> {
  const { causes } = await score(prepared, Situation.parse({ kind, answers, fixesTried }))
  const weights = causes.map((c) => c.probability)
  return (cause) => {
    const index = causes.findIndex((c) => c.id === cause)
    return index < 0 ? causes.length + 1 : placeOf(weights, index)
  }
}
