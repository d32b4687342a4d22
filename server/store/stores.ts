/** Everything that is kept, in one file: cases, class register, the shop's tools. */
import type { CaseStore } from '../cases/case-store.js'
import { caseStoreIn } from './sqlite-case-store.js'
import type { Copies } from './daily-copies.js'
import { copiesOf } from './daily-copies.js'
import type { Exports } from './export.js'
import { exportsOf } from './export.js'
import { patient } from './patient.js'
import { openStoreFile } from './store-file.js'
import type { Register } from '../register/register.js'
import { registerIn } from './sqlite-register.js'
import { careLogIn } from './sqlite-care.js'
import type { CareLog } from '../care/care-log.js'
import { partShelfIn } from './sqlite-parts.js'
import type { PartShelf } from '../parts/part-shelf.js'
import type { PersonBook } from '../people/person-book.js'
import { peopleBookIn } from './sqlite-people.js'
import { toolBookIn } from './sqlite-tools.js'
import type { ToolBook } from '../tools/tool-book.js'

export interface Stores {
  readonly cases: CaseStore
  readonly register: Register
  readonly tools: ToolBook
  readonly care: CareLog
  readonly parts: PartShelf
  readonly people: PersonBook
  /** copies of the file; null for one in memory */
  readonly copies: Copies | null
  readonly exports: Exports
  close(): Promise<void>
}

/**
 * @param file   path, or `:memory:` for one that is forgotten when closed
 * @param newId  makes the id of a new case; asked again when it is taken
 * @param newKey the same for classes, learners, exercises and set exercises: 4 to 40 small letters, digits, hyphens
 * @throws NewerFile when a later version of the program has written the file, DamagedFile when it cannot be read
 */
export async function openStores(options: {
  file: string
  newId: () => string
  newKey: () => string
  now?: () => Date
  /** how many nights' copies are kept; 14 unless told */
  keepCopies?: number
}): Promise<Stores> {
  const file = await openStoreFile(options.file)
  return {
    cases: patient(caseStoreIn(file, options.newId)),
    register: patient(registerIn(file, options.newKey)),
    tools: patient(toolBookIn(file, options.newKey)),
    care: patient(careLogIn(file)),
    parts: patient(partShelfIn(file, options.newKey)),
    people: patient(peopleBookIn(file.db, options.newKey)),
    copies:
      options.file === ':memory:'
        ? null
        : copiesOf(file.sqlite, options.now ?? (() => new Date()), options.keepCopies ?? 14),
    exports: exportsOf(file.db),
    close: () => file.close(),
  }
}
