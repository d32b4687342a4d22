import { fileURLToPath } from 'node:url'

/** What a test starts in a process of its own goes through this, as the program does. */
export const runner = fileURLToPath(new URL('../server/run.mjs', import.meta.url))
