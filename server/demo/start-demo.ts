/** `npm run demo`: the same server over an invented shop's cases and class, in a folder that is thrown away at the end. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { configFrom } from '../wiring/config.js'
import { putDemoCases } from './demo-cases.js'
import { putDemoShop } from './demo-shop.js'
import { putDemoClass } from './demo-class.js'
import { runUntilStopped, serve } from '../wiring/serve.js'

const folder = mkdtempSync(join(tmpdir(), 'clipperwright-demo-'))

await runUntilStopped(
  () =>
    serve(
      { ...configFrom(process.env), dataDir: folder, databaseUrl: undefined },
      async (stores, knowledge) => {
        const now = new Date()
        await putDemoCases(stores.cases, knowledge, now)
        await putDemoShop(stores, knowledge, Intl.DateTimeFormat().resolvedOptions().timeZone, now)
        await putDemoClass(stores.register, now)
      },
    ),
  () => rmSync(folder, { recursive: true, force: true }),
)
