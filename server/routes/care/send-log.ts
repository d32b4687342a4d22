import type { Response } from 'express'
import { csvType } from '../../pages/layout/csv.js'
import { logCsvHead, logCsvLines } from '../../pages/care/log-page.js'
import type { AtHand } from '../../wiring/deps.js'
import { logNames } from './log-names.js'

/** Entries read at once: a log of years is sent bit by bit, and never held whole. */
const atOnce = 5000

/** All of the log as a table, lately written first. @param task only this one */
export async function sendLog(res: Response, hand: AtHand, task?: string): Promise<void> {
  const names = await logNames(hand)
  res.type(csvType).write(logCsvHead)
  for (let before: { at: string; id: string } | undefined; ;) {
    const entries = await hand.care.history({
      ...(task !== undefined && { task }),
      ...(before && { before }),
      most: atOnce,
    })
    res.write(logCsvLines(entries, names))
    before = entries.at(-1)
    if (entries.length < atOnce) break
  }
  res.end()
}
