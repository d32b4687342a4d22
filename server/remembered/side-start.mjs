// A thread starts without the loader of its parent: this brings TypeScript to it, and is the only file that needs none.
import { register } from 'tsx/esm/api'

register()
await import('./side-work.ts')
