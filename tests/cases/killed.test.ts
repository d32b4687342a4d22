import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { expect, it } from 'vitest'
import { openCaseStore } from './open-case-store.js'
import { runner } from '../runner.js'

const script = fileURLToPath(new URL('write-until-killed.ts', import.meta.url))

it('loses nothing that was stored, and keeps no half of what belongs together, when it is killed', async () => {
  const folder = mkdtempSync(join(tmpdir(), 'killed-test-'))
  const file = join(folder, 'cases.db')
  try {
    const writer = spawn(process.execPath, [runner, script, file], {
      stdio: ['ignore', 'pipe', 'inherit'],
    })
    const gone = once(writer, 'exit')
    let told = 0
    for await (const line of createInterface(writer.stdout)) {
      told = Number(line)
      // Once only: what is printed until the blow has landed counts as told, too.
      if (told >= 60 && !writer.killed) writer.kill('SIGKILL')
    }
    expect(await gone).toEqual([null, 'SIGKILL'])

    const store = await openCaseStore({ file, newId: () => 'two' })
    const { events } = await store.get('one')
    expect(events.length).toBeGreaterThanOrEqual(told)
    expect(events.length % 2).toBe(0)
    const lengths = events.flatMap((event) =>
      event.type === 'answered' ? [event.answers['brush-length']] : [],
    )
    expect(lengths).toEqual(lengths.map((_, i) => i))
    await store.close()
  } finally {
    rmSync(folder, { recursive: true })
  }
})
