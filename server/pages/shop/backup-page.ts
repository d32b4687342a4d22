/** Backups: when the last was made, one more now, and everything as tables. */
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { instantWords } from '../layout/words.js'

export interface BackupPage {
  readonly frame: Frame
  readonly last: string
  /** where they lie; null where nothing lies on a disk */
  readonly folder: string | null
  /** latest first */
  readonly copies: readonly { readonly name: string; readonly href: string; readonly words: string }[]
  readonly tables: readonly { readonly href: string; readonly words: string }[]
  readonly made: boolean
}

interface Copy {
  readonly name: string
  readonly made: Date
  readonly bytes: number
}

export function backupPage(
  folder: string | null,
  copies: readonly Copy[],
  tables: readonly string[],
  made: boolean,
): BackupPage {
  const [latest] = copies
  return {
    frame: plainFrame('Backups', 'shop'),
    last: latest ? `Last backup: ${instantWords(latest.made.toISOString())}.` : 'There is no backup yet.',
    folder,
    copies: copies.map(({ name, made: at, bytes }) => ({
      name,
      href: `/shop/backups/${name}`,
      words: `${instantWords(at.toISOString())}, ${sizeWords(bytes)}`,
    })),
    tables: tables.map((table) => ({ href: `/shop/export/${table}.csv`, words: table.replaceAll('_', ' ') })),
    made,
  }
}

const sizeWords = (bytes: number): string =>
  bytes < 1e6 ? `${Math.ceil(bytes / 1000)} kB` : `${(bytes / 1e6).toFixed(1)} MB`
