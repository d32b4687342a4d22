/** Run twice by `killed.test.ts`: fills one exercise up to 24 moves, and prints the place of each move that was its own. */
import { StaleForm } from '../../server/errors.js'
import { counting, disinfected, openRegister } from './open-register.js'

const register = await openRegister(process.argv[2], counting(process.pid * 1000))
const id = process.argv[3]!
for (let count = 0; count < 24;) {
  try {
    await register.makeMove(id, disinfected, new Date().toISOString(), count)
    process.stdout.write(`${count}\n`)
  } catch (error) {
    if (!(error instanceof StaleForm)) throw error
  }
  count = (await register.exercise(id)).moves.length
}
await register.close()
