/** A case is read once while nobody writes it; nobody may ever be shown one that is out of date. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, expect, it } from 'vitest'
import type { OpenCaseStore } from './open-case-store.js'
import { openCaseStore } from './open-case-store.js'
import type { CaseEvent } from '../../shared/case.js'

const at = '2026-03-02T09:00:00.000Z'
const said = (value: 'yes' | 'no'): CaseEvent => ({
  type: 'answered',
  step: 'complaint',
  when: 'now',
  answers: { hot: value },
})
let folder: string
let here: OpenCaseStore
let there: OpenCaseStore

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'clipperwright-test-'))
  const open = () => openCaseStore({ file: join(folder, 'cases.db'), newId: () => 'one' })
  here = await open()
  there = await open()
  await here.begin({ kind: 'bench-motor', tool: '', at })
})
afterEach(async () => {
  await here.close()
  await there.close()
  rmSync(folder, { recursive: true, force: true })
})

it('hands out one object until something is written', async () => {
  const first = await here.get('one')
  expect(await here.get('one')).toBe(first)
})

it('hands out a new one after a write of its own', async () => {
  const first = await here.get('one')
  await here.append('one', said('yes'), at)
  expect((await here.get('one')).events).toEqual([said('yes')])
  expect(first.events).toEqual([])
})

it('sees at once what another program has written to the file', async () => {
  await here.get('one')
  await there.append('one', said('yes'), at)
  expect((await here.get('one')).events).toEqual([said('yes')])
  await there.append('one', said('no'), at)
  expect((await here.get('one')).events).toHaveLength(2)
})

it('is never behind a write that has come back, however reads and writes overlap', async () => {
  for (let count = 1; count <= 20; count++) {
    const reads = [here.get('one'), here.get('one')]
    const write = here.append('one', said(count % 2 === 0 ? 'yes' : 'no'), at)
    reads.push(here.get('one'))
    await write
    expect((await here.get('one')).events).toHaveLength(count)
    await Promise.all(reads)
    expect((await here.get('one')).events).toHaveLength(count)
  }
})

it('still sees every write when it was refused one', async () => {
  await here.get('one')
  await there.append('one', said('yes'), at)
  await expect(here.append('one', said('no'), at, 0)).rejects.toThrow()
  expect((await here.get('one')).events).toEqual([said('yes')])
})
