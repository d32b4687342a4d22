/** What was just logged, told by the address to which the browser is sent. */
import type { Request } from 'express'
import type { Part } from '../../../shared/part.js'
import type { JustDone } from '../../pages/care/just-done.js'
import { justDone } from '../../pages/care/just-done.js'
import type { AtHand } from '../../wiring/deps.js'

/** What one tap logs at most; it lies on top of the log. */
const mostLogged = 200

/** @param short parts of which the shelf had too little */
export const doneQuery = (jobs: number, batch: string, short: readonly Part[]): string =>
  new URLSearchParams([
    ['logged', String(jobs)],
    ['undo', batch],
    ...short.map(({ id }): [string, string] => ['short', id]),
  ]).toString()

export async function doneIn({ parts, care, tools }: AtHand, { query }: Request): Promise<JustDone | null> {
  const logged = /^\d{1,3}$/.exec(String(query['logged'] ?? ''))?.[0]
  const batch = String(query['undo'] ?? '')
  if (logged === undefined || batch === '') return null
  const ids = [query['short'] ?? []].flat()
  const short = ids.length === 0 ? [] : (await parts.list()).filter(({ id }) => ids.includes(id))
  const lately = await care.history({ most: mostLogged })
  const names = new Map((await tools.list()).map(({ id, name }) => [id, name]))
  return justDone(
    Number(logged),
    batch,
    lately.filter((it) => it.batch === batch).map(({ toolId }) => names.get(toolId) ?? toolId),
    short.map(({ name }) => name),
  )
}
