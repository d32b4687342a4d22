/** `npm run learning`: what shops of twelve tools learn in three years, right and wrong confirmations apart. */
import { loadKnowledge } from '../../server/rulebook/load.js'
import { modelOf } from '../../server/diagnosis/model.js'
import { kindAsked, meanOver } from './shops.js'

const seeds = Array.from({ length: Number(process.argv[2] ?? 60) }, (_, k) => 101 + 7 * k)
const model = modelOf(loadKnowledge(), kindAsked)
for (const wrong of [0, 0.1, 0.25]) {
  const { sharesOff, logLoss } = meanOver(model, seeds, wrong)
  console.log(
    `${seeds.length} shops, ${wrong * 100} in 100 confirmed wrongly: shares off ${sharesOff.rulebook.toFixed(3)} by the rulebook, ` +
      `${sharesOff.learned.toFixed(3)} learned; log loss ${logLoss.rulebook.toFixed(3)} and ${logLoss.learned.toFixed(3)} nats`,
  )
}
