/**
 * A table for spreadsheets: RFC 4180 (comma, CRLF, quotes doubled), UTF-8 with a byte order mark, without which common
 * spreadsheets take names for another encoding. Text that a spreadsheet would take for a formula gets an apostrophe
 * before it: OWASP, "CSV Injection", https://owasp.org/www-community/attacks/CSV_Injection
 */
import { stringify } from 'csv-stringify/sync'

export const csvType = 'text/csv; charset=utf-8; header=present'

/** @param rows the first names the columns */
export const csvOf = (rows: readonly (readonly string[])[]): string => `\uFEFF${csvLines(rows)}`

/** More lines of a table that was begun: a long one is sent bit by bit. */
export const csvLines = (rows: readonly (readonly string[])[]): string =>
  stringify(rows as string[][], {
    record_delimiter: 'windows',
    escape_formulas: true,
    // the library quotes the pair only, and a reader may take either alone for the end of a line
    quoted_match: /[\r\n]/,
  })
