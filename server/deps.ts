/** What the routes need. Made once in `serve.ts`; a test makes its own, with a clock and ids that it chooses. */
import type { Knowledge } from '../shared/knowledge.js'
import type { Assessments } from './assessments.js'
import type { CaseStore } from './cases/case-store.js'
import type { ShopFigures } from './cases/shop-figures.js'
import type { Prepared } from './diagnosis/prepare.js'

export interface Deps {
  readonly knowledge: Knowledge
  readonly prepared: Prepared
  readonly cases: CaseStore
  /** `assessments.of(situation, shop)`: the diagnosis, remembered for situations seen lately */
  readonly assessments: Assessments
  readonly shop: ShopFigures
  readonly now: () => Date
  /** views and static files are kept in memory and cached by the browser when true */
  readonly production: boolean
}
