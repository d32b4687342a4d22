/** Run by `killed.test.ts`: makes moves for ever, beginning an exercise anew every few, and prints each once it is stored. */
import { disinfected, looked, openRegister, outcomeWith, tool } from './open-register.js'

const register = await openRegister(process.argv[2])
const at = () => new Date().toISOString()
const { id: ofClass } = await register.addClass({ name: 'Evening', at: at() })
const { id: learner } = await register.addLearner({ name: 'Ann', class: ofClass, at: at() })
for (let seed = 0; ; seed++) {
  const { id } = await register.begin({ ...tool, learner, seed, at: at() })
  for (let count = 0; count < 10; count++) {
    await register.makeMove(id, count % 2 === 0 ? looked : disinfected, at(), count)
    process.stdout.write(`${seed} ${count + 1}\n`)
  }
  await register.keepOutcome(id, outcomeWith({ score: seed % 101, lostMinutes: 0 }))
  process.stdout.write(`${seed} over\n`)
}
