/** A file of before there was practice gets its tables, and keeps its cases. A file of later on is refused. */
import SQLite from 'better-sqlite3'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { NewerFile } from '../../server/store/migrations/migrations.js'
import { usualRecord } from '../../shared/figures.js'
import { withoutPractice } from '../cases/older-file.js'
import { at, counting, looked, openRegister, outcomeWith, tool } from './open-register.js'
import { runner } from '../runner.js'

let folder: string
let file: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'older-file-test-'))
  file = join(folder, 'cases.db')
})
afterEach(() => rmSync(folder, { recursive: true }))

function raw<Result>(work: (sqlite: SQLite.Database) => Result): Result {
  const sqlite = new SQLite(file)
  sqlite.pragma('foreign_keys = ON')
  try {
    return work(sqlite)
  } finally {
    sqlite.close()
  }
}

const tablesOf = (sqlite: SQLite.Database) =>
  sqlite.prepare("select name from sqlite_master where type = 'table' order by name").pluck().all()

/** Opened and closed by a program of its own. @returns its exit code */
async function opened(): Promise<number | null> {
  const script = fileURLToPath(new URL('open-and-close.ts', import.meta.url))
  const program = spawn(process.execPath, [runner, script, file], { stdio: 'inherit' })
  const [code] = (await once(program, 'exit')) as [number | null]
  return code
}

async function fileOfBefore(): Promise<void> {
  const { cases, close } = await openRegister(file)
  const { id } = await cases.begin({ kind: 'bench-motor', tool: 'Chair 2', at: at(0) })
  await cases.append(
    id,
    { type: 'answered', step: 'how-it-runs', answers: { hot: 'yes' }, when: 'now' },
    at(1),
  )
  await cases.keepShop(usualRecord, 0)
  await close()
  raw(withoutPractice)
}

describe('a file of before', () => {
  it('keeps its cases and its shop, and takes classes from then on', async () => {
    await fileOfBefore()
    expect(raw(tablesOf)).not.toContain('exercise')
    const register = await openRegister(file, counting(100))
    const [kept] = await register.cases.list()
    expect(kept).toMatchObject({ tool: 'Chair 2', changedAt: at(1) })
    expect((await register.cases.get(kept!.id)).events).toHaveLength(1)
    expect(await register.cases.shop()).toEqual({ record: usualRecord, version: 1 })
    expect(await register.classes()).toEqual([])
    const { id } = await register.addClass({ name: 'Evening', at: at(2) })
    expect(await register.classes()).toEqual([{ id, name: 'Evening', since: at(2) }])
    await register.close()
  })
  it('is brought up to date once, by the first to open it', async () => {
    await fileOfBefore()
    const both = await Promise.all([1, 2].map(() => opened()))
    expect(both).toEqual([0, 0])
    const register = await openRegister(file, counting(100))
    expect(await register.cases.list()).toHaveLength(1)
    await register.close()
  })
  it('stays as it was when a step of the way fails, and gets there later', async () => {
    await fileOfBefore()
    // something in the way of the last table
    raw((sqlite) => sqlite.exec('create table signed_off (note text)'))
    const before = raw(tablesOf)
    await expect(openRegister(file)).rejects.toThrow(/could not be opened/)
    expect(raw(tablesOf)).toEqual(before)
    raw((sqlite) => sqlite.exec('drop table signed_off'))
    const register = await openRegister(file, counting(100))
    expect(await register.cases.list()).toHaveLength(1)
    await register.close()
  })
})

it('is refused, unchanged, when a newer version of the program wrote it', async () => {
  const register = await openRegister(file)
  await register.addClass({ name: 'Evening', at: at(0) })
  await register.close()
  raw((sqlite) =>
    sqlite.prepare("insert into kysely_migration (name, timestamp) values ('005-sign-in', '2030')").run(),
  )
  await expect(openRegister(file)).rejects.toThrow(NewerFile)
  await expect(openRegister(file)).rejects.toThrow(/005-sign-in.*DATA_DIR/s)
  raw((sqlite) => sqlite.prepare("delete from kysely_migration where name = '005-sign-in'").run())
  const again = await openRegister(file, counting(100))
  expect(await again.classes()).toHaveLength(1)
  await again.close()
})

describe('the file itself', () => {
  beforeEach(async () => {
    const register = await openRegister(file)
    const { id: ofClass } = await register.addClass({ name: 'Evening', at: at(0) })
    const { id: learner } = await register.addLearner({ name: 'Ann', class: ofClass, at: at(0) })
    const { id } = await register.begin({ ...tool, learner, at: at(1) })
    await register.makeMove(id, looked, at(2), 0)
    await register.keepOutcome(id, outcomeWith())
    await register.signOff({ learner, skill: 'found', by: 'Ngozi', at: at(3) })
    await register.close()
  })
  // sqlite.org/foreignkeys.html, stricttables.html, json1.html: whatever program writes to it
  it.each([
    ['a learner of no class', "insert into learner values ('x', 'nowhere', 'Bo', 'bo', '')", /FOREIGN KEY/],
    ['a class taken away under its learners', 'delete from practice_class', /FOREIGN KEY/],
    ['moves of no exercise', "insert into exercise_move values ('x', 0, '', '{}')", /FOREIGN KEY/],
    ['two moves in one place', 'insert into exercise_move select * from exercise_move', /UNIQUE/],
    ['a move that is no JSON', "update exercise_move set move = 'sung'", /CHECK|malformed/],
    ['a move that is a list', "update exercise_move set move = '[]'", /CHECK/],
    ['a place before the first', 'update exercise_move set place = -1', /CHECK/],
    ['a seed out of range', 'update exercise set seed = 4294967296', /CHECK/],
    ['a seed in words', "update exercise set seed = 'seven'", /cannot store TEXT/],
    ['a class without a name', "update practice_class set name = ' '", /CHECK/],
    ['a signature by nobody', "update signed_off set signed_by = ''", /CHECK/],
    ['an outcome that is nothing', "update exercise_outcome set outcome = 'null'", /CHECK/],
  ])('takes no %s', (_what, statement, why) => {
    expect(() => raw((sqlite) => sqlite.prepare(statement).run())).toThrow(why)
  })
  it('finds a learner’s exercises and a class’s people by an index', () => {
    const plan = (query: string) =>
      raw((sqlite) =>
        (sqlite.prepare(`explain query plan ${query}`).all() as { detail: string }[])
          .map(({ detail }) => detail)
          .join('; '),
      )
    for (const query of [
      "select * from exercise where learner_id = 'x' order by changed_at desc",
      "select * from learner where class_id = 'x'",
      "select * from exercise_move where exercise_id = 'x' order by place",
      "select * from set_exercise where class_id = 'x' order by set_at desc",
      "select * from signed_off where learner_id = 'x'",
    ]) {
      expect(plan(query)).toMatch(/SEARCH/)
      expect(plan(query)).not.toMatch(/SCAN|TEMP B-TREE/)
    }
  })
})
