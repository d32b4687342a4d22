/** The sums that take one core more than some tens of milliseconds: each can be done on a thread of its own. */
import type { Assessment } from '../../shared/diagnosis.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { PracticeMove } from '../../shared/practice.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import type { CaseComparison } from '../decision/case-comparison.js'
import { caseComparison } from '../decision/case-comparison.js'
import type { CaseInputs } from '../decision/case-plan.js'
import { assess } from '../diagnosis/assess.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { Card } from '../practice/card.js'
import { compileCard } from '../practice/card.js'
import { cardShop } from '../practice/card-start.js'
import { rulebookDigest } from '../interchange/digest.js'
import { modelFile } from '../interchange/model-file.js'
import type { Reckoned } from '../lab/reckon.js'
import { reckon } from '../lab/reckon.js'
import type { QuickMarks } from '../proof/quick-marks.js'
import { quickMarks } from '../proof/quick-marks.js'
import type { DebriefSum, OfExercise } from './debrief-sums.js'
import { debriefSum, hintSum, thinkSum } from './debrief-sums.js'

/** By sum: what it is given, and what it comes to. Both are plain data, so that they can be handed to a thread. */
export interface HeavySums {
  assessment: { given: { situation: Situation; shop: ShopSettings }; made: Assessment }
  comparison: { given: Omit<CaseInputs, 'prepared'>; made: CaseComparison }
  card: { given: { kind: string; complaint: string }; made: Card }
  /** `tried` null: the rulebook as it is */
  marks: { given: { tried: Knowledge | null; kind: string }; made: QuickMarks }
  debrief: { given: OfExercise; made: DebriefSum }
  /** what the plan would do next in an exercise */
  hint: { given: OfExercise; made: PracticeMove }
  /** a changed rulebook of one kind on trial; null where no priors can be made of its shares */
  trial: { given: { tried: Knowledge; situation: Situation; shop: ShopSettings }; made: Reckoned | null }
  /** a kind as a file for other programs */
  model: { given: { kind: string }; made: string }
  /** the latest move beforehand */
  think: { given: OfExercise; made: null }
}
export type HeavySum = keyof HeavySums

/** Somebody at the bench waits for it, and it takes less than a tenth of a second: it goes before the others. */
export const isShort = (sum: HeavySum): boolean => sum === 'assessment' || sum === 'hint'

/** Gives way to others who wait for the same thread. */
export type Pause = () => Promise<void>

export const heavySums: {
  readonly [Sum in HeavySum]: (
    prepared: Prepared,
    given: HeavySums[Sum]['given'],
    pause?: Pause,
  ) => Promise<HeavySums[Sum]['made']>
} = {
  assessment: async (prepared, { situation, shop }) => whole(await assess(prepared, situation, shop)),
  comparison: (prepared, given, pause) => caseComparison({ ...given, prepared }, pause),
  card: (prepared, { kind, complaint }, pause) =>
    compileCard(kindOf(prepared, kind), complaint, cardShop, undefined, pause),
  marks: ({ knowledge }, { tried, kind }, pause) => quickMarks(tried ?? knowledge, kind, pause && { pause }),
  debrief: debriefSum,
  hint: hintSum,
  async model(prepared, { kind }) {
    await Promise.resolve()
    return modelFile(kindOf(prepared, kind).model, rulebookDigest(prepared.knowledge))
  },
  async trial(_, { tried, situation, shop }, pause) {
    const it = await reckon(tried, situation, shop, pause)
    return it && { ...it, assessment: whole(it.assessment) }
  },
  think: thinkSum,
}

/** Does a sum, on whatever thread. */
export type DoSum = <Sum extends HeavySum>(
  prepared: Prepared,
  sum: Sum,
  given: HeavySums[Sum]['given'],
) => Promise<HeavySums[Sum]['made']>

/** With what is worked out only when it is read, because that cannot be handed from thread to thread. */
const whole = ({ causes, ...assessment }: Assessment): Assessment => ({
  ...assessment,
  causes: causes.map((cause) => ({ ...cause })),
})
