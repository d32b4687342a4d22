/** The shop's tools as they are kept. Instants are ISO 8601, UTC; ids are made by the store. */
import type { NewTool, Tool, ToolMove } from '../../shared/tool.js'

export interface ToolBook {
  /** By name, retired ones too. */
  list(): Promise<Tool[]>
  /** @throws NotFound */
  get(id: string): Promise<Tool>
  /** All or none. */
  add(tools: readonly NewTool[], at: string): Promise<Tool[]>
  /** What is not named stays as it is. @throws NotFound */
  change(id: string, to: Partial<NewTool>, at: string): Promise<Tool>
  /** A tool put there by mistake; its cases stay. @throws NotFound */
  remove(id: string): Promise<void>
  /** Where it has been, oldest first. */
  moves(id: string): Promise<ToolMove[]>
  /** The same of every tool, by its id. */
  allMoves(): Promise<ReadonlyMap<string, readonly ToolMove[]>>

  /** Says whose case it is; the last word counts. */
  tie(caseId: string, toolId: string): Promise<void>
  /** The tool of a case; null where nobody said. */
  ofCase(caseId: string): Promise<Tool | null>
  /** Ids of its cases, in no order. */
  casesOf(toolId: string): Promise<string[]>
  /** By case: the id of its tool. */
  ties(): Promise<ReadonlyMap<string, string>>

  /** The photo as a JPEG; null where there is none. */
  photo(id: string): Promise<Buffer | null>
  /** Puts a photo in place of the one before; null takes it away. @throws NotFound */
  keepPhoto(id: string, jpeg: Buffer | null): Promise<void>
}
