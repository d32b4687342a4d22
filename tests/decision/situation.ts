/** A case put together for a test: danger signs answered no but for those told, at figures told, in euros. */
import type { SomeFigures } from '../../shared/figures.js'
import { Figures, usualRecord } from '../../shared/figures.js'
import { Situation } from '../../shared/situation.js'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { assess } from '../../server/diagnosis/assess.js'
import type { CaseInputs } from '../../server/decision/case-plan.js'
import { settingsFrom } from '../../server/decision/shop-settings.js'

const { currency } = usualRecord

export interface Told {
  readonly kind: string
  readonly answers: Situation['answers']
  readonly figures: SomeFigures
}

export async function inputsOf(prepared: Prepared, { kind, answers, figures }: Told): Promise<CaseInputs> {
  const at = Figures.parse(figures)
  const signs = prepared.knowledge.steps.filter(
    ({ form, kinds }) => form === 'danger' && kinds.includes(kind),
  )
  const none = Object.fromEntries(signs.flatMap(({ questions }) => questions.map(({ id }) => [id, 'no'])))
  const situation = Situation.parse({ kind, answers: { ...none, ...answers } })
  const assessment = await assess(prepared, situation, settingsFrom(at, currency, false))
  return { prepared, situation, assessment, figures: at, currency, opened: false, disinfected: false }
}
