/** What a look takes: how the tool must stand for it, and how long that takes with it. */
import type { Knowledge } from '../../../shared/knowledge.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import type { AskedAt } from '../../practice/best-splitter.js'
import { minutes } from '../layout/words.js'
import { lowered } from './move-words.js'

/** Minutes of a trained hand, its set-ups included. */
export const minutesWith = (book: Knowledge, { setups, minutes: own }: AskedAt): number =>
  setupsNeeded(book.setups, setups).reduce((sum, setup) => sum + setup.minutes, own)

/** "about 9 minutes: plug out, brush caps out" */
export function takesWords(book: Knowledge, asked: AskedAt): string {
  const stands = setupsNeeded(book.setups, asked.setups).map(({ name }) => lowered(name))
  const takes = minutes(minutesWith(book, asked))
  return stands.length === 0 ? takes : `${takes}: ${stands.join(', ')}`
}
