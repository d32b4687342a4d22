/** Lists of tools from a spreadsheet. The form of the file is RFC 4180; its section 2 is where the quoting comes from. */
import { describe, expect, it } from 'vitest'
import { usualRecord } from '../../shared/figures.js'
import { listedTools } from '../../server/pages/tools/import-page.js'
import { toolListCsv } from '../../server/pages/tools/tool-list-csv.js'
import { readList } from '../../server/tools/tool-list.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'

const listed = (text: string) => listedTools(text, tinyRulebook, [], usualRecord.currency)
const kind = tinyRulebook.kinds[0]!.id

describe('a list', () => {
  it('is read as RFC 4180 has it: quotes, commas and line breaks inside a cell, CRLF', () => {
    const read = readList('name,blades\r\n"Chair ""3"", left","No. 1\r\nand 000"\r\n')
    expect(read.ok && read.rows).toEqual([
      { line: 2, cells: { name: 'Chair "3", left', blades: 'No. 1\r\nand 000' } },
    ])
  })

  it('may come with semicolons, a byte order mark and columns in any order and by their words', () => {
    const list = listed(`\uFEFFKind;Clients a day;Name\n${kind};12;Chair 1\n`)
    expect(list).toMatchObject({ tools: [{ name: 'Chair 1', kind, details: { clientsADay: 12 } }], bad: [] })
  })

  it('takes strokes a minute as a plate prints them, and nothing else for them', () => {
    const list = listed(
      `Name;Kind;Strokes a minute it should make\nA;${kind};5 800\nB;${kind};fast\nC;${kind};0\n`,
    )
    if ('wrong' in list) throw new Error(list.wrong)
    expect(list.tools.map(({ details }) => details.strokes)).toEqual([5800])
    expect(list.bad.map(({ line }) => line)).toEqual([3, 4])
  })

  it('names each bad row by its line, with everything that is wrong with it, and keeps the good ones', () => {
    const list = listed(
      ['name,kind,price,bought', `A,${kind},12.50,2026-03-02`, ',nonsense,-1,2026-02-30', `a,${kind},,`].join(
        '\n',
      ),
    )
    if ('wrong' in list) throw new Error(list.wrong)
    expect(list.tools.map(({ name, details }) => [name, details.price])).toEqual([['A', 1250]])
    expect(list.bad.map(({ line, problems }) => [line, problems.length])).toEqual([
      [3, 4],
      [4, 1],
    ])
  })

  it('is what the shop’s own list is written as, so that it can be read in again', () => {
    const { currency } = usualRecord
    const tools = ['Chair 1', 'Chair "2", left'].map((name, k) => ({
      id: name,
      name,
      kind,
      place: (['in-use', 'spare'] as const)[k]!,
      details: { price: 12_990, clientsADay: 9, watts: 10.5, bought: '2024-02-29', usedBy: 'Ana' },
      addedAt: '2026-03-02T09:00:00Z',
    }))
    const read = listed(toolListCsv(tinyRulebook, tools, currency))
    expect(read).toMatchObject({ bad: [], unread: [] })
    expect('tools' in read && read.tools).toEqual(
      tools.map(({ name, place, details }) => ({ name, kind, place, details })),
    )
  })

  it.each(['2026-13-01', '2026-02-30', '02/03/2026'])('names %s as no day', (day) => {
    const list = listed(`name,kind,bought\nA,${kind},${day}\n`)
    expect('bad' in list && list.bad[0]!.problems.join()).toContain('year-month-day')
  })

  it.each([
    ['', 'no rows'],
    ['name,kind\n', 'no rows'],
    ['kind\nx\n', 'name'],
    ['name,kind\n"open,x\n', 'quote'],
  ])('says what is wrong with %j as a whole', (text, word) => {
    const list = listed(text)
    expect('wrong' in list && list.wrong).toContain(word)
  })
})
