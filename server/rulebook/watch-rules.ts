/**
 * The rulebook on disk is watched while the server runs. Once writing has settled it is read and checked whole, and
 * taken over whole or not at all: half a change is worse than none, and a typing slip must not stop the shop.
 */
import { watch } from 'chokidar'
import { existsSync } from 'node:fs'
import { basename, relative, sep } from 'node:path'
import { setTimeout as pause } from 'node:timers/promises'
import { fileURLToPath } from 'node:url'
import type { Knowledge } from '../../shared/knowledge.js'
import type { RulebookProblem } from '../errors.js'
import { KnowledgeError } from '../errors.js'
import { changeWords, changesBetween, lostIds } from './changes.js'
import { loadKnowledge, projectDrawings } from './load.js'
import { isEditorsOwn } from './read-files.js'
import type { RulebookHolder, RulebookInUse } from './live-rulebook.js'
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
  /** how a changed one is prepared */
  readonly takeIn?: (knowledge: Knowledge, since: Date) => Promise<RulebookInUse>
  /** how long nothing may have been written before it is read, in milliseconds */
  readonly settle?: number
}

/** Long enough for an editor that writes a file in pieces or by way of a copy, short enough not to be waited for. */
const usualSettle = 400

/** How soon the system tells of a change, in milliseconds, so that one made while files were read is known. */
const tellTale = 50

export function watchRules({
  dir,
  holder,
  now,
  say,
  takeIn = rulebookInUse,
  settle = usualSettle,
}: WatchOptions): Watching {
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

  /** A folder that is gone is no longer watched; it is looked for until it is back, as after a change of branch. */
  function lookForFolder(): void {
    clearTimeout(waiting)
    if (closed) return
    if (!existsSync(dir)) waiting = setTimeout(lookForFolder, 1000)
    else {
      watcher.unwatch(dir)
      watcher.add(dir)
      wait()
    }
  }

  async function settled(): Promise<void> {
    // Whoever is reading sees that more has come, and waits again.
    if (reading) return
    const before = changes
    reading = takeOverFrom(() => closed || changes !== before)
    await reading
    reading = null
    if (changes !== before) wait()
    else if (!existsSync(dir)) lookForFolder()
  }

  /** @param overtaken has something been written meanwhile? then what was read may be half old, half new */
  async function takeOverFrom(overtaken: () => boolean): Promise<void> {
    const inUse = holder.current()
    const read = readAndCheck(dir)
    await pause(tellTale)
    if (overtaken()) return
    if ('problems' in read) return keepOut(read, inUse.since)
    const changed = changesBetween(inUse.knowledge, read.knowledge)
    if (changed.length === 0) {
      if (holder.keptOut()) say('rules/ is as it was; the shop runs on it.')
      return holder.putRight()
    }
    const next = await takeIn(read.knowledge, now()).catch(unusable)
    if (overtaken()) return
    if ('problems' in next) return keepOut(next, inUse.since)
    holder.takeOver(next)
    say(`${clock(next.since)} rules/ has changed and is taken over: ${changeWords(changed)}.`)
    const lost = lostIds(inUse.knowledge, next.knowledge)
    if (lost.length === 0) return
    say(
      `Gone, and not in rules/moved.json: ${lost.join(', ')}. Cases that name them no longer count what they say.`,
    )
  }

  function keepOut({ problems, text }: Unusable, since: Date): void {
    holder.keepOut({ at: now(), problems })
    say(`${text}\nThe shop runs on the rulebook from ${clock(since, now())} until that is put right.`)
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

interface Unusable {
  readonly problems: readonly RulebookProblem[]
  readonly text: string
}

/** Never throws: whatever is wrong on disk is told, and the shop goes on. */
function readAndCheck(dir: string): { readonly knowledge: Knowledge } | Unusable {
  try {
    return { knowledge: loadKnowledge(dir) }
  } catch (error) {
    return error instanceof KnowledgeError
      ? { problems: error.problems, text: error.message }
      : unusable(error)
  }
}

/** A file that went away while it was read, or a rulebook that passes the checks and still cannot be worked with. */
function unusable(error: unknown): Unusable {
  const problem = { file: 'rules/', field: '', message: `it cannot be used (${words(error)})` }
  return { problems: [problem], text: `rules/ cannot be used: ${words(error)}` }
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
