/**
 * `npm run cards`: what the plan on paper costs beside the full plan, for the commonest complaints of each kind.
 *
 *     npm run cards -- --kind rotary-corded --complaints 5 --tools 40
 *
 * The same tools each time. A tool takes a second or two; the mark is 5 in 100 of the full plan's cost.
 */
import { parseArgs } from 'node:util'
import { kindOf, prepare } from '../../server/diagnosis/prepare.js'
import { loadKnowledge } from '../../server/knowledge/load.js'
import { compileCard } from '../../server/practice/card.js'
import { cardCost, commonestComplaints } from '../../server/practice/card-cost.js'
import { ShopSettings } from '../../shared/situation.js'

const { values } = parseArgs({
  options: {
    kind: { type: 'string', multiple: true },
    complaints: { type: 'string', default: '5' },
    tools: { type: 'string', default: '40' },
  },
})
const shop = ShopSettings.parse({ skill: 'S3', canSafetyTest: true })
const prepared = await prepare(loadKnowledge())
const inHundred = (share: number): string => (100 * share).toFixed(1)

console.log(
  'kind, complaint | questions | full plan | card costs more, ± error | its moves lose, ± error | goes on without it (all in 100)',
)
for (const id of values.kind ?? prepared.knowledge.kinds.map((kind) => kind.id)) {
  const kind = kindOf(prepared, id)
  for (const complaint of commonestComplaints(kind, Number(values.complaints))) {
    const card = await compileCard(kind, complaint, shop)
    const cost = await cardCost(prepared, card, shop, Number(values.tools))
    const share = (money: number) => inHundred(money / cost.full)
    console.log(
      [
        `${id}, ${complaint}`,
        card.questions,
        cost.full.toFixed(2),
        `${share(cost.more)} ± ${share(cost.moreError)}`,
        `${share(cost.lost)} ± ${share(cost.lostError)}`,
        inHundred(cost.left),
      ].join(' | '),
    )
  }
}
