/** The figures as they lie beside this file, written by `npm run prove`. */
import { existsSync, readFileSync, statSync } from 'node:fs'
import { ProofFigures } from '../../shared/proof.js'

export const figuresFile = new URL('./figures.json', import.meta.url)

/** As it was read last, and of which state of the file. */
const known = new Map<string, { readonly state: string; readonly figures: ProofFigures }>()

/**
 * Read anew when the file has changed.
 *
 * @returns null where nothing was proved yet
 * @throws Error where the file is not what `npm run prove` writes
 */
export function readFigures(file: URL = figuresFile): ProofFigures | null {
  if (!existsSync(file)) return null
  const { mtimeMs, size } = statSync(file)
  const state = `${mtimeMs} ${size}`
  const before = known.get(file.href)
  if (before?.state === state) return before.figures
  const read = ProofFigures.safeParse(parsed(readFileSync(file, 'utf8')))
  if (read.success) {
    known.set(file.href, { state, figures: read.data })
    return read.data
  }
  const [first] = read.error.issues
  throw new Error(
    `server/proof/figures.json: ${[first!.path.join('.'), first!.message].filter(Boolean).join(': ')}; ` +
      'run npm run prove -- --all, which writes it anew',
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
