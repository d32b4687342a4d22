/** However many programs open a file while another reads it, the note beside it knows the number that lies in it. */
import SQLite from 'better-sqlite3'
import { mkdtempSync, readFileSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { numberLog } from '../../server/store/write-ahead.js'

let folder: string
beforeAll(() => (folder = mkdtempSync(join(tmpdir(), 'numbered-log-test-'))))
afterAll(() => rmSync(folder, { recursive: true }))

it('notes every number that the file itself may still hold', () => {
  const file = join(folder, 'cases.db')
  // what waits for the reader waits in vain, however long
  const opened = Array.from({ length: 4 }, () => new SQLite(file, { timeout: 50 }))
  const [first, reader] = opened as [SQLite.Database, SQLite.Database]
  first.pragma('journal_mode = WAL')
  first.exec('create table t (x)')
  numberLog(first, file)
  reader.exec('begin')
  reader.prepare('select * from t').all()
  for (const program of opened.slice(2)) {
    numberLog(program, file)
    // SQLite file format §1.3: the user version is a big-endian number at byte 60
    const inFile = readFileSync(file).readInt32BE(60)
    const noted = readFileSync(`${file}-open`, 'utf8').split('\n').map(Number)
    expect(noted).toContain(inFile)
    expect(noted).toContain(program.pragma('user_version', { simple: true }))
  }
  reader.exec('commit')
  for (const program of opened) program.close()
})
