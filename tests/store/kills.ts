/**
 * `npm run kills -- [times] [postgres]`: writes of every kind, the plug pulled at any moment, and what was confirmed looked
 * for; in a file, or on a PostgreSQL server of its own.
 */
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import SQLite from 'better-sqlite3'
import { lookAtCopy } from '../../server/store/copies.js'
import { openShopDatabase } from '../../server/store/shop-database.js'
import { openStoreFile } from '../../server/store/store-file.js'
import { startPostgres } from './postgres-server.js'
import { runner } from '../runner.js'

/** What was found over all blows; anything but 0 in the last three is a fault. */
export interface Found {
  kills: number
  confirmed: number
  lost: number
  torn: number
  damaged: number
}

/**
 * @param chance in [0, 1): how far into its work the next one is killed
 * @param url    of an empty database, where it is not a file that is written to
 */
export async function killTimes(
  times: number,
  chance: () => number = Math.random,
  url?: string,
): Promise<Found> {
  const folder = mkdtempSync(join(tmpdir(), 'kills-'))
  const file = join(folder, 'cases.db')
  const database = url === undefined ? null : await openShopDatabase(url)
  const found: Found = { kills: 0, confirmed: 0, lost: 0, torn: 0, damaged: 0 }
  try {
    for (let round = 0; round < times; round++) {
      const told = await killedAt(url ?? file, round, 1 + Math.floor(chance() * 60))
      found.kills++
      found.confirmed += told.length
      // opened as the program opens it, then looked at by another connection
      if (database) await database.copyTo((await database.shops())[0]!.id, file)
      else await (await openStoreFile(file)).close()
      look(file, told, found)
    }
  } finally {
    await database?.close()
    rmSync(folder, { recursive: true })
  }
  return found
}

type Told = readonly [what: string, id: string, count: number]

async function killedAt(where: string, round: number, lines: number): Promise<Told[]> {
  const script = fileURLToPath(new URL('mixed-until-killed.ts', import.meta.url))
  const writer = spawn(process.execPath, [runner, script, where, String(round)], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const gone = once(writer, 'exit')
  const told: Told[] = []
  for await (const line of createInterface(writer.stdout)) {
    const [what = '', id = '', count = ''] = line.split(' ')
    told.push([what, id, Number(count)])
    if (told.length >= lines && !writer.killed) writer.kill('SIGKILL')
  }
  await gone
  return told
}

function look(file: string, told: readonly Told[], found: Found): void {
  const raw = new SQLite(file, { readonly: true })
  const number = (query: string, ...given: string[]) =>
    Number(
      raw
        .prepare(query)
        .pluck()
        .get(...given),
    )
  if (raw.pragma('integrity_check(1)', { simple: true }) !== 'ok') found.damaged++
  found.damaged += (raw.pragma('foreign_key_check') as unknown[]).length
  const stored: Record<string, (id: string) => number> = {
    case: (id) =>
      number('select count(*) from bench_case where id = ?', id) === 0
        ? -1
        : number('select count(*) from case_event where case_id = ?', id),
    exercise: (id) => number('select count(*) from exercise_move where exercise_id = ?', id),
    tools: (id) => number('select count(*) from tool where name like ?', id.replace(/0$/, '%')),
    care: (id) => number('select count(*) from care_done where batch = ?', id),
    copy: (path) => (lookAtCopy(path).cases >= 0 ? 0 : -1),
  }
  for (const [what, id, count] of told) if (stored[what]!(id) < count) found.lost++
  // pairs of entries, lists of five, the last move with what it came to
  found.torn +=
    number('select count(*) from (select case_id from case_event group by case_id having count(*) % 2 = 1)') +
    number(
      'select count(*) from (select substr(name, 1, length(name) - 1) from tool group by 1 having count(*) <> 5)',
    ) +
    number('select count(*) from (select batch from care_done group by batch having count(*) <> 5)') +
    number(
      `select count(*) from (select exercise_id from exercise_move group by exercise_id having count(*) = 6)
       where exercise_id not in (select exercise_id from exercise_outcome)`,
    ) +
    number(
      'select count(*) from bench_case where event_count <> (select count(*) from case_event where case_id = bench_case.id)',
    )
  raw.close()
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const [, , times = '200', on] = process.argv
  const server = on === 'postgres' ? await startPostgres() : null
  const found = await killTimes(Number(times), Math.random, await server?.freshUrl())
  await server?.stop()
  console.log(
    `${found.kills} kills, ${found.confirmed} confirmed writes: ${found.lost} lost, ${found.torn} torn, ${found.damaged} damaged`,
  )
  process.exitCode = found.lost + found.torn + found.damaged === 0 ? 0 : 1
}
