/** Run twice at a time by `older-file.test.ts`. */
import { openRegister } from './open-register.js'

const { close } = await openRegister(process.argv[2])
await close()
