/** A file that cannot be trusted is refused when it is opened, not when a case is read or written. */
import { chmodSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { DamagedFile, openCaseFile } from '../../server/store/file.js'

let folder: string
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'case-file-test-'))
})
afterAll(() => rmSync(folder, { recursive: true }))

/** A whole SQLite file of many pages, closed cleanly. */
function wholeFile(name: string): string {
  const file = join(folder, name)
  const sqlite = openCaseFile(file)
  sqlite.exec('create table words (id integer primary key, said text); create index by_said on words (said)')
  const add = sqlite.prepare('insert into words (said) values (?)')
  sqlite.transaction(() => {
    for (let k = 0; k < 400; k++) add.run(`it cuts in and out ${k} `.repeat(10))
  })()
  sqlite.close()
  return file
}

it('opens what it has written', () => {
  const sqlite = openCaseFile(wholeFile('whole.db'))
  expect(sqlite.prepare('select count(*) from words').pluck().get()).toBe(400)
  sqlite.close()
})

describe('a file that is', () => {
  // SQLite file format, §1.3: the header string, then pages of the size that the header tells.
  it.each<[string, (whole: Buffer) => Buffer]>([
    ['something else', () => Buffer.from('price list of combs\n'.repeat(300))],
    ['overwritten in the middle', (whole) => Buffer.from(whole).fill(0x5a, 4096 * 4, 4096 * 8)],
    ['cut short', (whole) => whole.subarray(0, 4096 * 6)],
  ])('%s is refused and left alone', (name, damage) => {
    const file = wholeFile(`${name}.db`)
    writeFileSync(file, damage(readFileSync(file)))
    const before = readFileSync(file)
    expect(() => openCaseFile(file)).toThrow(DamagedFile)
    expect(readFileSync(file).equals(before)).toBe(true)
  })

  // Whoever is root may write to every file, so there is nothing to see.
  it.skipIf(process.getuid?.() === 0)('not to be written to is refused at once', () => {
    const file = wholeFile('read-only.db')
    chmodSync(file, 0o444)
    expect(() => openCaseFile(file)).toThrow(/readonly|read-only/)
  })
})
