import { createHash } from 'node:crypto'
import type { Knowledge } from '../../shared/knowledge.js'

/** SHA-256 of the rulebook as loaded, in hexadecimal: two files with the same one come from the same rulebook. */
export const rulebookDigest = (knowledge: Knowledge): string =>
  createHash('sha256').update(JSON.stringify(knowledge)).digest('hex')
