/** `npm start` */
import { configFrom } from './config.js'
import { runUntilStopped, serve } from './serve.js'

await runUntilStopped(() => serve(configFrom(process.env)))
