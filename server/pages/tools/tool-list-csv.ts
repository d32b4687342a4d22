import type { Currency } from '../../../shared/figures.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Tool } from '../../../shared/tool.js'
import { placeWords, toolFields, toolFieldWords } from '../../forms/tool-form.js'
import { csvOf } from '../layout/csv.js'
import { toolTexts } from './tool-edit-page.js'

/** The shop's tools as a list that can be read in again; without tools the columns alone, to be filled in. */
export function toolListCsv(knowledge: Knowledge, tools: readonly Tool[], currency: Currency): string {
  const { kinds } = lookupOf(knowledge)
  const rows = tools.map((tool) => ({
    ...toolTexts(tool, currency),
    kind: kinds.get(tool.kind)?.plainName ?? tool.kind,
    place: placeWords[tool.place],
  }))
  return csvOf([
    toolFields.map((field) => toolFieldWords[field]),
    ...rows.map((row) => toolFields.map((field) => row[field] ?? '')),
  ])
}
