// A thread starts with no loader: this makes TypeScript for it, and is the only file of it that needs none.
import { run } from '../run.mjs'

await run(new URL('side-work.ts', import.meta.url))
