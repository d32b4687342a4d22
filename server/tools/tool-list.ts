/** A list of tools from a spreadsheet (RFC 4180 CSV): every row a tool, or what is wrong with it. Pure. */
import { parse } from 'csv-parse/sync'

/** Rows that one list may have. */
const mostRows = 500

interface ListRow {
  /** row of the sheet, from 1: the line of column names is 1 */
  readonly line: number
  /** by name of the column, as the first line has it */
  readonly cells: Readonly<Record<string, string>>
}

export type ReadList =
  | { readonly ok: true; readonly columns: readonly string[]; readonly rows: readonly ListRow[] }
  | { readonly ok: false; readonly problem: string }

/** @param text with a first line of column names; comma, semicolon or tab between cells */
export function readList(text: string): ReadList {
  const firstLine = text.slice(0, text.search(/\r?\n|$/))
  const delimiter = [';', '\t'].find((mark) => firstLine.includes(mark)) ?? ','
  try {
    const all: string[][] = parse(text, {
      bom: true,
      delimiter,
      relax_column_count: true,
      trim: true,
    })
    const [columns] = all
    const rows = all.flatMap((record, k) =>
      k === 0 || record.every((cell) => cell === '')
        ? []
        : [
            {
              line: k + 1,
              cells: Object.fromEntries(columns!.map((column, c) => [column, record[c] ?? ''])),
            },
          ],
    )
    if (!columns || rows.length === 0)
      return { ok: false, problem: 'There are no rows below the line of column names.' }
    if (rows.length > mostRows)
      return { ok: false, problem: `A list has at most ${mostRows} rows; this one has ${rows.length}.` }
    return { ok: true, columns, rows }
  } catch (error) {
    const line = error instanceof Error && 'lines' in error ? ` near line ${String(error.lines)}` : ''
    return { ok: false, problem: `It cannot be read as a list${line}: a quote mark may be left open.` }
  }
}
