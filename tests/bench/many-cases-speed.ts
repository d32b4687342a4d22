/** `node server/run.mjs tests/bench/many-cases-speed.ts [cases]`: the start page of a shop that has had so many cases. No test. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import SQLite from 'better-sqlite3'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { configFrom } from '../../server/wiring/config.js'
import { serve } from '../../server/wiring/serve.js'

const count = Number(process.argv[2] ?? 10_000)
const folder = mkdtempSync(join(tmpdir(), 'clipperwright-many-'))
const kind = loadKnowledge().kinds[0]!.id
const config = { ...configFrom({ PORT: '0', WATCH_RULES: 'no' }), dataDir: folder }

/** One in a hundred is still on the bench or away, the rest run again. */
await (await serve(config)).close()
const sqlite = new SQLite(join(folder, 'cases.db'))
const at = (k: number) => new Date(Date.UTC(2020, 0, 1) + k * 3_600_000).toISOString()
const columns = (sqlite.pragma('table_info(bench_case)') as { name: string }[]).map(({ name }) => name)
const listed = columns.includes('state')
const begin = sqlite.prepare(
  `insert into bench_case (id, kind, tool, begun_at, changed_at${listed ? ', state, words, event_count, found_by' : ''})
   values (?, ?, ?, ?, ?${listed ? ', ?, ?, 12, ?' : ''})`,
)
const add = sqlite.prepare('insert into case_event (case_id, place, at, event) values (?, ?, ?, ?)')
sqlite.transaction(() => {
  for (let k = 0; k < count; k++) {
    const id = `case-${k}`
    const tool = `Chair ${k % 40}`
    const words = `cuts in and out ${k}`
    const over = k % 100 !== 0
    begin.run(
      id,
      kind,
      tool,
      at(k),
      at(k),
      ...(listed ? [over ? 'running-again' : 'on-the-bench', words, `${tool} ${words}`.toLowerCase()] : []),
    )
    const said = { type: 'answered', step: 'complaint', answers: { 'cuts-in-and-out': 'yes' }, when: 'now' }
    for (let place = 0; place < 11; place++)
      add.run(id, place, at(k), JSON.stringify(place === 0 ? { ...said, words } : said))
    add.run(id, 11, at(k), JSON.stringify(over ? { type: 'finished', state: 'running-again' } : said))
  }
})()
sqlite.close()

const serving = await serve(config)
const [home] = serving.addresses
const median = (all: number[]) => all.sort((a, b) => a - b)[Math.floor(all.length / 2)]!
for (const path of ['/', '/cases?page=200', '/cases?find=out+7777', '/api/cases']) {
  const times: number[] = []
  for (let k = 0; k < 15; k++) {
    const begun = performance.now()
    const answer = await fetch(`${home}${path}`)
    await answer.text()
    if (k > 2) times.push(performance.now() - begun)
  }
  console.log(`${path.padEnd(24)}${median(times).toFixed(1).padStart(9)} ms, median of 12, ${count} cases`)
}
await serving.close()
rmSync(folder, { recursive: true })
