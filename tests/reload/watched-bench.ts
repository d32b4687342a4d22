/** The application over a small rulebook in a folder of its own, which is watched as the running server watches its own. */
import { rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { watchRules } from '../../server/rulebook/watch-rules.js'
import { benchWith, type Bench } from '../api/bench.js'
import { giveUp } from '../give-up.js'
import { tinyFiles, writtenRules, type Files } from '../rulebook/tiny-rulebook.js'
import { Visitor } from '../pages/visitor.js'

export interface WatchedBench extends Bench {
  readonly dir: string
  readonly me: Visitor
  /** what the console was told, in order */
  readonly said: readonly string[]
  /** Writes one file: data as JSON, text as it stands. */
  write(name: string, content: object | string): void
  /** Waits until the console has been told so often in all. @throws Error when that is not to be hoped for any more */
  told(times: number): Promise<void>
}

/** Milliseconds without a change before it is read. */
export const settle = 400
/** The same where something is written in pieces: so many times the pause between two that a busy machine is no matter. */
export const longSettle = 4000

export function goodFiles(): Files {
  const files = tinyFiles()
  files.kinds.tiny.drawing = 'universal-motor'
  // the reading confirms the dull blade, so that the strength of how it pulls may be anything
  files.findings['blade-thin'].strengths['dull-blade'] = 0.9
  return files
}

export async function watchedBench(quiet = settle): Promise<WatchedBench> {
  const dir = writtenRules(goodFiles())
  const bench = await benchWith({ knowledge: loadKnowledge(dir) })
  const said: string[] = []
  const watching = watchRules({
    dir,
    holder: bench.rulebook,
    now: () => new Date(2026, 2, 2, 14, 5),
    say: (text) => said.push(text),
    settle: quiet,
  })
  await watching.ready
  return {
    ...bench,
    dir,
    said,
    me: new Visitor(bench.app),
    write: (name, content) =>
      writeFileSync(
        join(dir, name),
        typeof content === 'string' ? content : JSON.stringify(content, null, 2),
      ),
    async told(times) {
      for (let waited = 0; said.length < times; waited += 20) {
        if (waited > giveUp) throw new Error(`it was told ${said.length} times only: ${said.join(' | ')}`)
        await pause(20)
      }
    },
    async close() {
      await watching.close()
      await bench.close()
      rmSync(dir, { recursive: true, force: true })
    },
  }
}
