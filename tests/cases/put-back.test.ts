/** A copy put back over what a killed program left is opened as the copy it is; another program's file is let alone. */
import SQLite from 'better-sqlite3'
import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest'
import { ForeignFile, openCaseFile } from '../../server/store/file.js'
import { openCaseStore } from './open-case-store.js'
import { runner } from '../runner.js'

let folder: string
let file: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'put-back-test-'))
  file = join(folder, 'cases.db')
})
afterEach(() => rmSync(folder, { recursive: true }))

const open = (newId = () => 'x') => openCaseStore({ file, newId })
const at = '2026-03-02T09:00:00.000Z'

/** Written to by a program of its own until so many events were stored, then killed: its log is left. */
async function written(events: number): Promise<void> {
  const script = fileURLToPath(new URL('write-until-killed.ts', import.meta.url))
  const writer = spawn(process.execPath, [runner, script, file], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const gone = once(writer, 'exit')
  for await (const line of createInterface(writer.stdout))
    if (Number(line) >= events && !writer.killed) writer.kill('SIGKILL')
  await gone
}

it('a copy that is put back beside the log of a killed program is the copy, and the log is kept aside', async () => {
  const before = await open(() => 'kept')
  await before.begin({ kind: 'bench-motor', tool: 'As it was', at })
  await before.close()
  expect(readdirSync(folder)).toEqual(['cases.db'])
  const copy = join(folder, 'copy.db')
  copyFileSync(file, copy)
  await written(40)
  expect(statSync(`${file}-wal`).size).toBeGreaterThan(0)
  copyFileSync(copy, file)

  const said = vi.spyOn(console, 'error').mockImplementation(() => {})
  const after = await open()
  expect((await after.list()).map(({ tool }) => tool)).toEqual(['As it was'])
  await after.close()
  expect(said).toHaveBeenCalledOnce()
  said.mockRestore()
  expect(readdirSync(folder).filter((name) => name.includes('-wal-set-aside-'))).toHaveLength(1)
  const raw = new SQLite(file)
  expect(raw.pragma('integrity_check', { simple: true })).toBe('ok')
  raw.close()
})

it('without a copy, what a killed program had stored is there, over several blows', async () => {
  for (let blow = 0; blow < 2; blow++) {
    await written(20)
    const store = await open()
    const { events } = await store.get('one')
    expect(events.length).toBeGreaterThanOrEqual(20)
    await store.remove('one')
    await store.close()
  }
  expect(readdirSync(folder)).toEqual(['cases.db'])
})

describe('a file of another program', () => {
  it.each<[string, string]>([
    ['that says so', 'pragma application_id = 0x12345678; create table songs (name text)'],
    ['that says nothing', 'create table songs (name text)'],
  ])('%s is refused and left alone', (_what, made) => {
    const raw = new SQLite(file)
    raw.exec(made)
    raw.close()
    const before = readFileSync(file)
    expect(() => openCaseFile(file)).toThrow(ForeignFile)
    expect(readFileSync(file).equals(before)).toBe(true)
    expect(existsSync(`${file}-wal`)).toBe(false)
  })
  it('is told from one of ours by what the file says of itself', async () => {
    await (await open()).close()
    const raw = new SQLite(file)
    expect(raw.pragma('application_id', { simple: true })).toBe(Buffer.from('clpw').readInt32BE())
    raw.close()
  })
})
