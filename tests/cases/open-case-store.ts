/** The cases alone, with a way to close their file. */
import type { CaseStore } from '../../server/cases/case-store.js'
import { caseStoreIn } from '../../server/store/case-rows.js'
import { openStoreFile } from '../../server/store/store-file.js'

export interface OpenCaseStore extends CaseStore {
  close(): Promise<void>
}

export async function openCaseStore(options: { file: string; newId: () => string }): Promise<OpenCaseStore> {
  const file = await openStoreFile(options.file)
  return { ...caseStoreIn(file.db, options.newId), close: () => file.close() }
}
