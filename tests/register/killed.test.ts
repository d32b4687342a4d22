import { spawn } from 'node:child_process'
import { once } from 'node:events'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { createInterface } from 'node:readline'
import { fileURLToPath } from 'node:url'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { at, counting, disinfected, looked, openRegister, tool } from './open-register.js'
import { runner } from '../runner.js'

let folder: string
let file: string
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'register-killed-test-'))
  file = join(folder, 'cases.db')
})
afterEach(() => rmSync(folder, { recursive: true }))

const script = (name: string) => fileURLToPath(new URL(name, import.meta.url))

it('loses no move and no result that was stored when it is killed', async () => {
  const writer = spawn(process.execPath, [runner, script('move-until-killed.ts'), file], {
    stdio: ['ignore', 'pipe', 'inherit'],
  })
  const gone = once(writer, 'exit')
  const told: string[][] = []
  for await (const line of createInterface(writer.stdout)) {
    told.push(line.split(' '))
    // Once only: what is printed until the blow has landed counts as told, too.
    if (told.length >= 60 && !writer.killed) writer.kill('SIGKILL')
  }
  expect(await gone).toEqual([null, 'SIGKILL'])

  const register = await openRegister(file, counting(5000))
  const [learner] = await register.learners()
  const kept = await register.exercises({ learner: learner!.id })
  const bySeed = new Map(kept.map((it) => [String(it.seed), it]))
  for (const [seed, what] of told) {
    const it = bySeed.get(seed!)!
    if (what === 'over') expect(it.outcome?.score).toBe(Number(seed) % 101)
    else expect(it.moveCount).toBeGreaterThanOrEqual(Number(what))
  }
  for (const { id, moveCount } of kept) {
    const { moves } = await register.exercise(id)
    expect(moves).toEqual(Array.from({ length: moveCount }, (_, k) => (k % 2 === 0 ? looked : disinfected)))
  }
  await register.close()
})

it('takes each move from one of two programs only, and loses none of either', async () => {
  const here = await openRegister(file, counting())
  const { id: ofClass } = await here.addClass({ name: 'Evening', at: at(0) })
  const { id: learner } = await here.addLearner({ name: 'Ann', class: ofClass, at: at(0) })
  const { id } = await here.begin({ ...tool, learner, at: at(1) })
  const racers = [0, 1].map(() =>
    spawn(process.execPath, [runner, script('race-for-moves.ts'), file, id], {
      stdio: ['ignore', 'pipe', 'inherit'],
    }),
  )
  const stored = await Promise.all(
    racers.map(async (racer) => {
      const gone = once(racer, 'exit')
      const won: number[] = []
      for await (const line of createInterface(racer.stdout)) won.push(Number(line))
      expect(await gone).toEqual([0, null])
      return won
    }),
  )
  // every place was won by exactly one of the two
  expect(stored.flat().sort((a, b) => a - b)).toEqual(Array.from({ length: 24 }, (_, place) => place))
  const { moves } = await here.exercise(id)
  expect(moves).toHaveLength(24)
  await here.close()
})
