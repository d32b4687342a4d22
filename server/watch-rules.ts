/**
 * The rulebook on disk is watched while the server runs. Once writing has settled it is read and checked whole, and
 * taken over whole or not at all: half a change is worse than none, and a typing slip must not stop the shop.
 */
import { watch } from 'chokidar'
import { basename, relative, sep } from 'node:path'
import { fileURLToPath } from 'node:url'
import type { Knowledge } from '../shared/knowledge.js'
import type { RulebookProblem } from './errors.js'
import { KnowledgeError } from './errors.js'
import { changeWords, changesBetween, lostIds } from './knowledge/changes.js'
import { loadKnowledge, projectDrawings } from './knowledge/load.js'
import { isEditorsOwn } from './knowledge/read-files.js'
import type { RulebookHolder } from './live-rulebook.js'
import { rulebookInUse } from './live-rulebook.js'

export interface Watching {
  /** Fulfilled once every folder is watched; a change made before that may go unseen. */
  readonly ready: Promise<void>
  close(): Promise<void>
}

interface WatchOptions {
  /** the rulebook's folder */
  readonly dir: string
  readonly holder: RulebookHolder
  readonly now: () => Date
  /** one line or several for the console */
  readonly say: (text: string) => void
  /** how long nothing may have been written before it is read, in milliseconds */
  readonly settle?: number
}

/** Long enough for an editor that writes a file in pieces or by way of a copy, short enough not to be waited for. */
const usualSettle = 400

export function watchRules({ dir, holder, now, say, settle = usualSettle }: WatchOptions): Watching {
  let changes = 0
  let waiting: NodeJS.Timeout | undefined
  let reading: Promise<void> | null = null
  let closed = false

  const watcher = watch([dir, fileURLToPath(projectDrawings)], {
    ignoreInitial: true,
    // Names are judged below the folder alone: it may itself lie in one with a dot.
    ignored: (path) => isPassedOver(relative(dir, path)),
  })
  const ready = new Promise<void>((resolve) => watcher.once('ready', () => resolve()))
  watcher.on('all', () => {
    changes++
    wait()
  })
  watcher.on('error', (error) =>
    say(`rules/ can no longer be watched (${words(error)}); start anew to take changes over.`),
  )

  function wait(): void {
    clearTimeout(waiting)
    if (!closed) waiting = setTimeout(() => void settled(), settle)
  }

  async function settled(): Promise<void> {
    // Whoever is reading sees that more has come, and waits again.
    if (reading) return
    const before = changes
    const read = readAndCheck(dir, now)
    reading = read.then(() => undefined)
    const outcome = await read
    reading = null
    if (closed) return
    if (changes !== before) return wait()
    use(outcome)
  }

  function use(outcome: Outcome): void {
    const inUse = holder.current()
    if ('problems' in outcome) {
      holder.keepOut({ at: now(), problems: outcome.problems })
      say(
        `${outcome.text}\nThe shop runs on the rulebook from ${clock(inUse.since, now())} until that is put right.`,
      )
      return
    }
    const changed = changesBetween(inUse.knowledge, outcome.knowledge)
    if (changed.length === 0) {
      if (holder.keptOut()) say('rules/ is as it was; the shop runs on it.')
      holder.putRight()
      return
    }
    holder.takeOver(outcome)
    say(`${clock(outcome.since)} rules/ has changed and is taken over: ${changeWords(changed)}.`)
    const lost = lostIds(inUse.knowledge, outcome.knowledge)
    if (lost.length > 0)
      say(
        `Gone, and not in rules/moved.json: ${lost.join(', ')}. Cases that name them no longer count what they say.`,
      )
  }

  return {
    ready,
    async close() {
      closed = true
      clearTimeout(waiting)
      await watcher.close()
      await reading
    },
  }
}

type Outcome =
  | Awaited<ReturnType<typeof rulebookInUse>>
  | { readonly problems: readonly RulebookProblem[]; readonly text: string }

/** Never throws: whatever is wrong on disk is told, and the shop goes on. */
async function readAndCheck(dir: string, now: () => Date): Promise<Outcome> {
  let knowledge: Knowledge
  try {
    knowledge = loadKnowledge(dir)
    return await rulebookInUse(knowledge, now())
  } catch (error) {
    if (error instanceof KnowledgeError) return { problems: error.problems, text: error.message }
    // A file that went away while it was read, or a rulebook that passes the checks and still cannot be worked with.
    const problem = { file: 'rules/', field: '', message: `it cannot be used (${words(error)})` }
    return { problems: [problem], text: `rules/ cannot be used: ${words(error)}` }
  }
}

/** The schemas are for editors; the rest is what editors leave lying about for a moment. */
function isPassedOver(inside: string): boolean {
  if (inside === '' || inside.startsWith('..')) return false
  return inside.split(sep)[0] === 'schema' || isEditorsOwn(basename(inside))
}

const words = (error: unknown): string => (error instanceof Error ? error.message : String(error))

/** "14:05", with its day when that is not today's. */
function clock(when: Date, today = when): string {
  const time = when.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' })
  return when.toDateString() === today.toDateString() ? time : `${when.toDateString()}, ${time}`
}
