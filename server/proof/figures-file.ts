/** The figures as they lie beside this file, written by `npm run prove`. */
import { existsSync, readFileSync } from 'node:fs'
import { ProofFigures } from '../../shared/proof.js'

export const figuresFile = new URL('./figures.json', import.meta.url)

/**
 * @returns null where nothing was proved yet
 * @throws Error where the file is not what `npm run prove` writes
 */
export function readFigures(file: URL = figuresFile): ProofFigures | null {
  if (!existsSync(file)) return null
  const read = ProofFigures.safeParse(parsed(readFileSync(file, 'utf8')))
  if (read.success) return read.data
  const [first] = read.error.issues
  throw new Error(
    `server/proof/figures.json: ${[first!.path.join('.'), first!.message].filter(Boolean).join(': ')}; ` +
      'run npm run prove, which writes it anew',
  )
}

/** What is no JSON at all is of no shape either. */
function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}
