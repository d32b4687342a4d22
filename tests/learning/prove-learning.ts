/** `npm run learning`: what shops of twelve tools learn in three years, right and wrong confirmations apart. */
import { loadKnowledge } from '../../server/rulebook/load.js'
import { modelOf } from '../../server/diagnosis/model.js'
import { personOf } from '../../server/diagnosis/person.js'
import { kindAsked, meanOver } from './shops.js'

const seeds = Array.from({ length: Number(process.argv[2] ?? 60) }, (_, k) => 101 + 7 * k)
const knowledge = loadKnowledge()
const model = modelOf(knowledge, kindAsked)
const told = { model, person: personOf(knowledge, model) }
const figures = [
  ['shares off', 'sharesOff'],
  ['log loss in nats', 'logLoss'],
  ['chances to tell off', 'tellingOff'],
  ['minutes off, as logarithm', 'minutesOff'],
] as const
for (const wrong of [0, 0.1, 0.25]) {
  const of = meanOver(told, seeds, wrong)
  console.log(`${seeds.length} shops, ${wrong * 100} in 100 confirmed wrongly: by the rulebook, then learned`)
  for (const [name, what] of figures)
    console.log(`  ${name.padEnd(26)} ${of[what].rulebook.toFixed(3)} ${of[what].learned.toFixed(3)}`)
}
