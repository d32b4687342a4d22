/** `npm start` */
import { configFrom } from './wiring/config.js'
import { runUntilStopped, serve } from './wiring/serve.js'

await runUntilStopped(() => serve(configFrom(process.env)))
