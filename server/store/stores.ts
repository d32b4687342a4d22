/** Everything that a shop keeps: cases, class register, tools, care, shelf, people. */
import { dirname, join } from 'node:path'
import type { Kysely } from 'kysely'
import type { CaseStore } from '../cases/case-store.js'
import { caseStoreIn } from './case-rows.js'
import type { Copies } from './daily-copies.js'
import { copyTo } from './copies.js'
import { copiesIn } from './daily-copies.js'
import type { Exports } from './export.js'
import { exportsOf } from './export.js'
import { patient } from './patient.js'
import { openStoreFile } from './store-file.js'
import type { Register } from '../register/register.js'
import { registerIn } from './register-rows.js'
import { careLogIn } from './care-rows.js'
import type { CareLog } from '../care/care-log.js'
import { partShelfIn } from './part-rows.js'
import type { PartShelf } from '../parts/part-shelf.js'
import type { PersonBook } from '../people/person-book.js'
import { peopleBookIn } from './person-rows.js'
import type { WrittenLog } from '../people/written-log.js'
import { writtenLogIn } from './written-rows.js'
import { toolBookIn } from './tool-rows.js'
import type { ToolBook } from '../tools/tool-book.js'

export interface Stores {
  readonly cases: CaseStore
  readonly register: Register
  readonly tools: ToolBook
  readonly care: CareLog
  readonly parts: PartShelf
  readonly people: PersonBook
  readonly written: WrittenLog
  /** copies of it as files; null where no folder is known for them */
  readonly copies: Copies | null
  readonly exports: Exports
  close(): Promise<void>
}

/** How the ids of new rows are made; asked again when one is taken. */
export interface NewIds {
  /** of a case */
  readonly newId: () => string
  /** of everything else: 4 to 40 small letters, digits, hyphens */
  readonly newKey: () => string
}

/**
 * All in one file.
 *
 * @param file path, or `:memory:` for one that is forgotten when closed
 * @throws NewerFile when a later version of the program has written the file, DamagedFile when it cannot be read
 */
export async function openStores(
  options: NewIds & {
    file: string
    now?: () => Date
    /** how many nights' copies are kept; 14 unless told */
    keepCopies?: number
  },
): Promise<Stores> {
  const file = await openStoreFile(options.file)
  return {
    ...storesOver(file.db, options),
    copies:
      options.file === ':memory:'
        ? null
        : copiesIn(
            join(dirname(options.file), 'backups'),
            (to) => copyTo(file.sqlite, to),
            options.now ?? (() => new Date()),
            options.keepCopies ?? 14,
          ),
    close: () => file.close(),
  }
}

/**
 * The same over whatever database has the tables of the shop.
 *
 * @param db     names without a schema lead to the tables of this shop alone
 * @param schema in which they lie, where there are several
 */
export function storesOver(
  db: Kysely<unknown>,
  { newId, newKey }: NewIds,
  schema?: string,
): Omit<Stores, 'copies' | 'close'> {
  return {
    cases: patient(caseStoreIn(db, newId)),
    register: patient(registerIn(db, newKey)),
    tools: patient(toolBookIn(db, newKey)),
    care: patient(careLogIn(db)),
    parts: patient(partShelfIn(db, newKey)),
    people: patient(peopleBookIn(db, newKey)),
    written: patient(writtenLogIn(db)),
    exports: exportsOf(db, schema),
  }
}
