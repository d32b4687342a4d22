/** Run by `killed.test.ts`: adds events to a case for ever, and prints each count once it is stored. */
import { openCaseStore } from './open-case-store.js'

const store = await openCaseStore({ file: process.argv[2]!, newId: () => 'one' })
await store.begin({ kind: 'bench-motor', tool: '', at: new Date().toISOString() })
for (let length = 0; ; length++) {
  const { events } = await store.append(
    'one',
    [
      { type: 'answered', step: 'look-at-brushes', answers: { 'brush-length': length }, when: 'now' },
      { type: 'disinfected', done: true },
    ],
    new Date().toISOString(),
  )
  process.stdout.write(`${events.length}\n`)
}
